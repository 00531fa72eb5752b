//go:build soak && linux

package main

import (
	"context"
	"fmt"
	"net"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/jackc/pgx/v5"
)

// soakProxy sends every connection to the member whose Patroni says that it leads, and
// ends those to one that leads no more, as Patroni's documentation has it.
const soakProxy = `defaults
  mode tcp
  timeout connect 2s
  timeout client 30m
  timeout server 30m
listen leader
  bind LISTEN
  option httpchk OPTIONS /primary
  http-check expect status 200
  default-server inter 500ms fall 2 rise 1 on-marked-down shutdown-sessions
`

// buildReplicasBehindProxy puts HAProxy in front of the members: one address.
func buildReplicasBehindProxy(t *testing.T) (soakDatabase, string) {
	if _, err := exec.LookPath("haproxy"); err != nil {
		return soakDatabase{}, "haproxy is not installed"
	}
	d, missing := buildReplicas(t)
	if missing != "" {
		return d, missing
	}
	listen := freeAddress(t)
	text := strings.Replace(soakProxy, "LISTEN", listen, 1)
	for _, m := range d.replicas.members {
		_, port, err := net.SplitHostPort(m.rest)
		if err != nil {
			t.Fatal(err)
		}
		text += fmt.Sprintf("  server %s %s check port %s\n", m.name, m.database, port)
	}
	config := filepath.Join(d.replicas.dir, "haproxy.cfg")
	writeFile(t, config, text)
	d.replicas.startProgram(t, "haproxy", exec.Command("haproxy", "-db", "-f", config))
	d.servers = fmt.Sprintf("postgres://breakwright:%s@%s/club?sslmode=disable", soakPassword, listen)
	awaitLeaderBehind(t, d.servers)
	return d, ""
}

// awaitLeaderBehind waits until the proxy has looked at all members, which it takes for
// leaders before: until it leads to one that takes writes, five times on end.
func awaitLeaderBehind(t *testing.T, address string) {
	t.Helper()
	ctx := context.Background()
	for found, given := 0, time.Now().Add(time.Minute); found < 5; time.Sleep(300 * time.Millisecond) {
		connection, err := pgx.Connect(ctx, address)
		standby := true
		if err == nil {
			err = connection.QueryRow(ctx, "select pg_is_in_recovery()").Scan(&standby)
			connection.Close(ctx)
		}
		if found++; err != nil || standby {
			found = 0
		}
		if time.Now().After(given) {
			t.Fatalf("the proxy leads to no leader: %v", err)
		}
	}
}
