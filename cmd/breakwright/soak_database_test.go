//go:build soak && linux

package main

import (
	"context"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"syscall"
	"testing"
	"time"

	"github.com/jackc/pgx/v5"

	"breakwright/internal/localpg"
	"breakwright/internal/localpg/localpgtest"
	"breakwright/internal/store/storetest"
)

// privateDatabase is a PostgreSQL that loses nothing, unlike those of other tests.
type privateDatabase struct {
	server  *localpg.Server
	ballast string // a file that fills the disk; "" where it may not be filled
	clock   string // a file that says how far its clock is off; "" for no such clock
}

// startPrivate starts it in a folder and lays a line to it.
func startPrivate(t *testing.T, p *privateDatabase, dir string) soakDatabase {
	t.Helper()
	p.start(t, dir)
	t.Cleanup(func() { p.server.Stop() })
	owner := storetest.MigrateOn(t, p.server)
	config, err := pgx.ParseConfig(owner)
	if err != nil {
		t.Fatal(err)
	}
	line := layLine(t, "unix", filepath.Join(config.Host, ".s.PGSQL."+strconv.Itoa(int(config.Port))))
	through := fmt.Sprintf("postgres://%s@%s/%s?sslmode=disable", config.User, line.listener.Addr(), config.Database)
	return soakDatabase{owner: owner, servers: through, line: line, private: p}
}

func (p *privateDatabase) start(t *testing.T, dir string) {
	t.Helper()
	server, err := localpg.Start(context.Background(), localpg.Config{Dir: dir, Durable: true})
	if err != nil {
		t.Fatal(err)
	}
	p.server = server
}

// restartWhenGone waits until the database answers, and starts it again when it ended.
func (p *privateDatabase) restartWhenGone(t *testing.T, owner string) {
	t.Helper()
	for given := time.Now().Add(2 * time.Minute); ; time.Sleep(50 * time.Millisecond) {
		select {
		case <-p.server.Done():
			p.server.Stop() // lets go of its folder
			p.start(t, p.server.Dir)
		default:
		}
		ctx, cancel := context.WithTimeout(context.Background(), 5*time.Second)
		connection, err := pgx.Connect(ctx, owner)
		if err == nil {
			err = errors.Join(connection.Ping(ctx), connection.Close(ctx))
		}
		cancel()
		if err == nil {
			return
		}
		if time.Now().After(given) {
			t.Fatalf("the database does not come back: %v", err)
		}
	}
}

// soakFolder is a folder for a database, in memory where it can be.
func soakFolder(t *testing.T) string {
	t.Helper()
	dir, err := os.MkdirTemp("/dev/shm", "breakwright-soak-")
	if err != nil {
		return sharedFolder(t)
	}
	t.Cleanup(func() { os.RemoveAll(dir) })
	if err := os.Chmod(dir, 0o755); err != nil {
		t.Fatal(err)
	}
	return dir
}

func buildOwnDatabase(t *testing.T) (soakDatabase, string) {
	return startPrivate(t, &privateDatabase{}, filepath.Join(soakFolder(t), "pg")), ""
}

func killDatabase(t *testing.T, f *soakField, _ int) {
	text, err := os.ReadFile(filepath.Join(f.private.server.Dir, "data", "postmaster.pid"))
	if err != nil {
		t.Fatal(err)
	}
	first, _, _ := strings.Cut(string(text), "\n")
	process, err := strconv.Atoi(first)
	if err != nil {
		t.Fatal(err)
	}
	_ = syscall.Kill(process, syscall.SIGKILL) // its children end when they see it gone
	<-f.private.server.Done()
	f.private.restartWhenGone(t, f.owner)
}

func freezeDatabase(long time.Duration) func(*testing.T, *soakField, int) {
	return func(t *testing.T, f *soakField, _ int) {
		thaw := localpgtest.Freeze(t, f.private.server)
		time.Sleep(long)
		thaw()
	}
}

// diskMegabytes is room for a cluster with its log, and some hours of breaks.
const diskMegabytes = 512

// buildSmallDisk mounts a small disk of memory, for which one has to be root.
func buildSmallDisk(t *testing.T) (soakDatabase, string) {
	dir := soakFolder(t)
	if text, err := exec.Command("mount", "-t", "tmpfs", "-o", fmt.Sprintf("mode=755,size=%dm", diskMegabytes), "tmpfs", dir).CombinedOutput(); err != nil {
		return soakDatabase{}, fmt.Sprintf("no disk can be mounted (%s)", strings.TrimSpace(string(text)))
	}
	t.Cleanup(func() {
		if text, err := exec.Command("umount", "-l", dir).CombinedOutput(); err != nil {
			t.Errorf("the small disk stays: %s", text)
		}
	})
	return startPrivate(t, &privateDatabase{ballast: filepath.Join(dir, "ballast")}, filepath.Join(dir, "pg")), ""
}

// fillDisk leaves no byte free for a while.
func fillDisk(t *testing.T, f *soakField, _ int) {
	file, err := os.Create(f.private.ballast)
	if err != nil {
		t.Fatal(err)
	}
	part := make([]byte, 64<<10)
	var until time.Time // it is full until then, once it is
	for until.IsZero() || time.Now().Before(until) {
		if _, err := file.Write(part); errors.Is(err, syscall.ENOSPC) {
			if until.IsZero() {
				until = time.Now().Add(500 * time.Millisecond)
			}
			time.Sleep(time.Millisecond) // what comes free is taken again
		} else if err != nil {
			t.Fatal(err)
		}
	}
	file.Close()
	if err := os.Remove(f.private.ballast); err != nil {
		t.Fatal(err)
	}
	f.private.restartWhenGone(t, f.owner)
}

// buildClockDatabase runs PostgreSQL under libfaketime, which Debian has. It cannot
// turn the clock of the servers: Go does not ask the C library for the time.
func buildClockDatabase(t *testing.T) (soakDatabase, string) {
	found, _ := filepath.Glob("/usr/lib/*/faketime/libfaketimeMT.so.1") // a good pattern
	if len(found) == 0 {
		return soakDatabase{}, "libfaketime is not installed"
	}
	real, err := localpg.FindBinaries()
	if err != nil {
		t.Fatal(err)
	}
	dir := soakFolder(t)
	p := &privateDatabase{clock: filepath.Join(dir, "clock")}
	setClock(t, p.clock, 0)
	for name, environment := range map[string]string{
		"initdb":   "",
		"postgres": fmt.Sprintf("env LD_PRELOAD=%s FAKETIME_TIMESTAMP_FILE=%s FAKETIME_NO_CACHE=1 FAKETIME_DONT_FAKE_MONOTONIC=1 ", found[0], p.clock),
	} {
		script := fmt.Sprintf("#!/bin/sh\nexec %s%s/%s \"$@\"\n", environment, real, name)
		if err := os.WriteFile(filepath.Join(dir, name), []byte(script), 0o755); err != nil {
			t.Fatal(err)
		}
	}
	t.Setenv("PATH", dir+":"+os.Getenv("PATH"))
	d := startPrivate(t, p, filepath.Join(dir, "pg"))
	setClock(t, p.clock, time.Hour)
	defer setClock(t, p.clock, 0)
	owner, err := pgx.Connect(t.Context(), d.owner)
	if err != nil {
		t.Fatal(err)
	}
	defer owner.Close(context.Background())
	var shown time.Time
	if err := owner.QueryRow(t.Context(), "select now()").Scan(&shown); err != nil {
		t.Fatal(err)
	}
	if time.Until(shown) < 30*time.Minute {
		return d, "libfaketime does not turn PostgreSQL's clock here"
	}
	return d, ""
}

// setClock is read by libfaketime each time that the database asks for the time.
func setClock(t *testing.T, file string, lead time.Duration) {
	t.Helper()
	err := os.WriteFile(file+".new", fmt.Appendf(nil, "%+d\n", int(lead.Seconds())), 0o644)
	if err == nil {
		err = os.Rename(file+".new", file)
	}
	if err != nil {
		t.Fatal(err)
	}
}

// stepDatabaseClock steps forth and back, as a clock that is set right does.
func stepDatabaseClock(t *testing.T, f *soakField, turn int) {
	steps := []time.Duration{time.Hour, 0, -time.Hour, 0, 26 * time.Hour, 0, -5 * time.Minute, 0}
	setClock(t, f.private.clock, steps[turn%len(steps)])
	time.Sleep(150 * time.Millisecond)
}
