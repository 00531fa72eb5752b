//go:build soak && linux

package main

import (
	"context"
	"encoding/json"
	"fmt"
	"net/http"
	"os"
	"os/exec"
	"os/user"
	"path/filepath"
	"strconv"
	"strings"
	"syscall"
	"testing"
	"time"

	"github.com/jackc/pgx/v5"

	"breakwright/internal/localpg"
	"breakwright/internal/store"
)

// soakReplicas are three PostgreSQL that Patroni keeps, one of them the leader, with
// etcd to agree on who: all of Debian's packages, on this machine. A commit waits
// for one of the other two.
type soakReplicas struct {
	dir     string
	account *syscall.Credential
	etcd    string // its address
	members [3]*soakMember
}

// soakMember is one of them.
type soakMember struct {
	name, config   string
	database, rest string // addresses
	data           string // folder
	patroni        *exec.Cmd
}

const soakPassword = "chalk-and-patience"

func buildReplicas(t *testing.T) (soakDatabase, string) {
	for _, program := range []string{"patroni", "etcd"} {
		if _, err := exec.LookPath(program); err != nil {
			return soakDatabase{}, program + " is not installed"
		}
	}
	who, err := user.Lookup("postgres")
	if os.Geteuid() != 0 || err != nil {
		return soakDatabase{}, "it takes root, and a user postgres"
	}
	uid, _ := strconv.Atoi(who.Uid) // always numbers on unix
	gid, _ := strconv.Atoi(who.Gid)
	r := &soakReplicas{dir: soakFolder(t), account: &syscall.Credential{Uid: uint32(uid), Gid: uint32(gid)}}
	if err := os.Chown(r.dir, uid, gid); err != nil {
		t.Fatal(err)
	}
	r.startEtcd(t)
	for i := range r.members {
		r.members[i] = r.newMember(t, i)
		r.startPatroni(t, r.members[i])
		r.awaitMembers(t, i+1)
	}
	return soakDatabase{owner: r.makeClub(t), servers: r.address("breakwright", "club"), replicas: r}, ""
}

// startProgram runs a program as PostgreSQL's user until the test ends; what it says
// goes to a file.
func (r *soakReplicas) startProgram(t *testing.T, name string, command *exec.Cmd) {
	t.Helper()
	log, err := os.OpenFile(filepath.Join(r.dir, name+".log"), os.O_CREATE|os.O_APPEND|os.O_WRONLY, 0o644)
	if err != nil {
		t.Fatal(err)
	}
	defer log.Close()
	command.Stdout, command.Stderr, command.Dir = log, log, r.dir
	command.Env = []string{"PATH=/usr/sbin:/usr/bin:/bin", "HOME=" + r.dir, "LC_ALL=C.UTF-8"}
	command.SysProcAttr = &syscall.SysProcAttr{Credential: r.account, Setpgid: true}
	if err := command.Start(); err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { endProgram(command) })
}

// endProgram ends a program at once; it may have ended before.
func endProgram(command *exec.Cmd) {
	_ = command.Process.Kill()
	_ = command.Wait()
}

func (r *soakReplicas) startEtcd(t *testing.T) {
	t.Helper()
	peer := freeAddress(t)
	r.etcd = freeAddress(t)
	r.startProgram(t, "etcd", exec.Command("etcd", "--name", "e", "--data-dir", filepath.Join(r.dir, "etcd"),
		"--listen-client-urls", "http://"+r.etcd, "--advertise-client-urls", "http://"+r.etcd,
		"--listen-peer-urls", "http://"+peer, "--initial-advertise-peer-urls", "http://"+peer, "--initial-cluster", "e=http://"+peer))
}

// soakPatroni is a member's file: the shortest times that Patroni's documentation
// allows of ttl >= loop_wait + 2 * retry_timeout.
const soakPatroni = `scope: soak
name: NAME
restapi: {listen: "REST", connect_address: "REST"}
etcd3: {hosts: "ETCD"}
bootstrap:
  dcs:
    ttl: 8
    loop_wait: 2
    retry_timeout: 3
    synchronous_mode: true
    postgresql:
      use_pg_rewind: true
      parameters: {max_connections: 60, shared_buffers: 32MB, wal_keep_size: 256MB}
  initdb: [{encoding: UTF8}, {locale: C.UTF-8}, data-checksums]
postgresql:
  listen: "DATABASE"
  connect_address: "DATABASE"
  data_dir: DATA
  bin_dir: BINARIES
  pgpass: DATA.pass
  pg_hba: ["local all all trust", "host all all 127.0.0.1/32 scram-sha-256", "host replication all 127.0.0.1/32 scram-sha-256"]
  parameters: {unix_socket_directories: "DIR"}
  authentication:
    superuser: {username: postgres, password: PASSWORD}
    replication: {username: replicator, password: PASSWORD}
    rewind: {username: rewinder, password: PASSWORD}
`

func (r *soakReplicas) newMember(t *testing.T, i int) *soakMember {
	t.Helper()
	binaries, err := localpg.FindBinaries()
	if err != nil {
		t.Fatal(err)
	}
	m := &soakMember{name: fmt.Sprint("member", i+1), database: freeAddress(t), rest: freeAddress(t)}
	m.data, m.config = filepath.Join(r.dir, m.name), filepath.Join(r.dir, m.name+".yml")
	text := strings.NewReplacer("NAME", m.name, "REST", m.rest, "ETCD", r.etcd, "DATABASE", m.database,
		"DATA", m.data, "BINARIES", binaries, "DIR", r.dir, "PASSWORD", soakPassword).Replace(soakPatroni)
	if err := os.WriteFile(m.config, []byte(text), 0o644); err != nil {
		t.Fatal(err)
	}
	return m
}

func (r *soakReplicas) startPatroni(t *testing.T, m *soakMember) {
	t.Helper()
	m.patroni = exec.Command("patroni", m.config)
	t.Cleanup(m.killDatabase) // after Patroni, which would start it again
	r.startProgram(t, m.name, m.patroni)
}

// killDatabase kills the member's PostgreSQL; its children end when they see it gone.
func (m *soakMember) killDatabase() {
	text, err := os.ReadFile(filepath.Join(m.data, "postmaster.pid"))
	if err != nil {
		return // it does not run
	}
	first, _, _ := strings.Cut(string(text), "\n")
	if process, err := strconv.Atoi(first); err == nil {
		_ = syscall.Kill(process, syscall.SIGKILL)
	}
}

// address names all members, and asks for the one that takes writes.
func (r *soakReplicas) address(role, database string) string {
	var hosts []string
	for _, m := range r.members {
		hosts = append(hosts, m.database)
	}
	return fmt.Sprintf("postgres://%s:%s@%s/%s?sslmode=disable&target_session_attrs=read-write", role, soakPassword, strings.Join(hosts, ","), database)
}

// makeClub makes the database with its owner, who is no superuser.
func (r *soakReplicas) makeClub(t *testing.T) (owner string) {
	t.Helper()
	ctx := context.Background()
	root, err := pgx.Connect(ctx, r.address("postgres", "postgres"))
	if err != nil {
		t.Fatal(err)
	}
	defer root.Close(ctx)
	for _, statement := range []string{"create role breakwright login createrole password '" + soakPassword + "'", "create database club owner breakwright"} {
		if _, err := root.Exec(ctx, statement); err != nil {
			t.Fatal(err)
		}
	}
	owner = r.address("breakwright", "club")
	if _, err := store.Migrate(ctx, owner, ""); err != nil {
		t.Fatal(err)
	}
	return owner
}

// patroniMember is what Patroni says of a member, in GET /cluster.
type patroniMember struct {
	Name  string `json:"name"`
	Role  string `json:"role"`
	State string `json:"state"`
}

// list asks one member after another about all.
func (r *soakReplicas) list() []patroniMember {
	client := http.Client{Timeout: 2 * time.Second}
	defer client.CloseIdleConnections()
	for _, m := range r.members {
		if m == nil {
			continue
		}
		answer, err := client.Get("http://" + m.rest + "/cluster")
		if err != nil {
			continue
		}
		var said struct {
			Members []patroniMember `json:"members"`
		}
		err = json.NewDecoder(answer.Body).Decode(&said)
		answer.Body.Close()
		if err == nil {
			return said.Members
		}
	}
	return nil
}

// awaitMembers waits until so many members run, one leads, and, where there are
// others, one of them is synchronous. It gives the leader.
func (r *soakReplicas) awaitMembers(t *testing.T, want int) *soakMember {
	t.Helper()
	var said []patroniMember
	for given := time.Now().Add(3 * time.Minute); time.Now().Before(given); time.Sleep(200 * time.Millisecond) {
		said = r.list()
		running, synchronous, leader := 0, 0, -1
		for _, m := range said {
			if m.State != "running" && m.State != "streaming" {
				continue
			}
			running++
			switch m.Role {
			case "sync_standby":
				synchronous++
			case "leader":
				leader, _ = strconv.Atoi(strings.TrimPrefix(m.Name, "member")) // our own names
			}
		}
		if running == want && leader > 0 && synchronous >= min(1, want-1) {
			return r.members[leader-1]
		}
	}
	log, _ := os.ReadFile(filepath.Join(r.dir, r.members[want-1].name+".log"))
	t.Fatalf("not %d members: %+v\n%.4000s", want, said, log)
	return nil
}

// killLeader kills the leader with its Patroni, waits until another leads, and lets
// it come back as one of the others.
func killLeader(t *testing.T, f *soakField, _ int) {
	leader := f.replicas.awaitMembers(t, len(f.replicas.members))
	endProgram(leader.patroni)
	leader.killDatabase()
	f.replicas.awaitOtherLeader(t, leader)
	f.awaitAcknowledged(t)
	f.replicas.startPatroni(t, leader)
	f.replicas.awaitMembers(t, len(f.replicas.members))
}

func (r *soakReplicas) awaitOtherLeader(t *testing.T, before *soakMember) {
	t.Helper()
	for given := time.Now().Add(2 * time.Minute); time.Now().Before(given); time.Sleep(200 * time.Millisecond) {
		for _, m := range r.list() {
			if m.Role == "leader" && m.State == "running" && m.Name != before.name {
				return
			}
		}
	}
	t.Fatalf("nobody else leads: %+v", r.list())
}
