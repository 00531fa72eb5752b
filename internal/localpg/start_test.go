//go:build !quick

package localpg

import (
	"context"
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"
)

func TestStart_KeepsDataFromRunToRun(t *testing.T) {
	dir := newFolder(t)
	first, err := Start(t.Context(), Config{Dir: dir, Durable: true})
	if err != nil {
		t.Fatal(err)
	}
	execStatement(t, first, "create table kept as select 10 as breaks")
	if got := queryValue[string](t, first, "show fsync"); got != "on" {
		t.Errorf("a durable server has fsync %s", got)
	}
	first.Stop()
	first.Stop() // a second call does nothing
	select {
	case <-first.Done():
	default:
		t.Fatal("the server runs on after Stop")
	}

	if got := queryValue[int](t, startIn(t, dir), "select breaks from kept"); got != 10 {
		t.Errorf("after a restart the table says %d, want 10", got)
	}
}

func TestStart_BeginsAsACopy(t *testing.T) {
	original := startIn(t, newFolder(t))
	execStatement(t, original, "create table kept as select 10 as breaks")
	original.Stop()
	for range 2 {
		copied, err := Start(t.Context(), Config{Dir: newFolder(t), CopyOf: filepath.Join(original.Dir, "data")})
		if err != nil {
			t.Fatal(err)
		}
		t.Cleanup(copied.Stop)
		if got := queryValue[int](t, copied, "select breaks from kept"); got != 10 {
			t.Errorf("the copy says %d, want 10: one copy has changed the other's data", got)
		}
		execStatement(t, copied, "update kept set breaks = 11")
	}
}

func TestStart_ListensOnAPrivateSocketOnly(t *testing.T) {
	server := startIn(t, newFolder(t))
	if got := queryValue[string](t, server, "show listen_addresses"); got != "" {
		t.Errorf("it listens on %q, want no network address", got)
	}
	info, err := os.Stat(server.socket.folder)
	if err != nil {
		t.Fatal(err)
	}
	if others := info.Mode().Perm() & 0o077; others != 0 {
		t.Errorf("others may enter the socket's folder: mode %v", info.Mode())
	}
	if got := queryValue[string](t, server, "select upper('é')"); got != "É" {
		t.Errorf("upper('é') is %q: the locale knows only ASCII", got)
	}
}

func TestStart_RecoversAfterTheServerIsKilled(t *testing.T) {
	dir := newFolder(t)
	server, err := Start(t.Context(), Config{Dir: dir, Durable: true})
	if err != nil {
		t.Fatal(err)
	}
	execStatement(t, server, "create table kept as select 10 as breaks")
	if err := server.process.command.Process.Kill(); err != nil {
		t.Fatal(err)
	}
	<-server.Done()
	server.Stop()

	again := startIn(t, dir)
	if got := queryValue[int](t, again, "select breaks from kept"); got != 10 {
		t.Errorf("after the crash the table says %d, want 10", got)
	}
	if log := again.folder.logSince(0); !strings.Contains(log, "automatic recovery in progress") {
		t.Error("the log shows no recovery: the kill did not do what this test means")
	}
}

func TestStart_RefusesAFolderInUse(t *testing.T) {
	server := startIn(t, newFolder(t))
	_, err := Start(t.Context(), Config{Dir: server.Dir})
	if !errors.Is(err, ErrRunning) || !strings.Contains(err.Error(), readLockHolder(server.Dir)) {
		t.Fatalf("the error is %v, want ErrRunning and the process", err)
	}
	if !IsInUse(server.Dir) {
		t.Error("InUse denies it")
	}
	if got := queryValue[int](t, server, "select 1"); got != 1 {
		t.Error("the first server was disturbed")
	}
	server.Stop()
	if IsInUse(server.Dir) {
		t.Error("InUse still says so after Stop")
	}
}

func TestStart_RefusesAServerThatWeDidNotStart(t *testing.T) {
	server := startIn(t, newFolder(t))
	server.folder.releaseLock() // as if its parent had died and left it running
	_, err := Start(t.Context(), Config{Dir: server.Dir, leavePatience: 300 * time.Millisecond})
	if !errors.Is(err, ErrRunning) || !strings.Contains(err.Error(), "kill -INT ") {
		t.Fatalf("the error is %v, want ErrRunning and how to stop it", err)
	}
	if got := queryValue[int](t, server, "select 1"); got != 1 {
		t.Error("the first server was disturbed")
	}
}

func TestStart_RefusesDataOfAnotherVersion(t *testing.T) {
	dir := newFolder(t)
	write(t, filepath.Join(dir, dataFolder, "PG_VERSION"), "8\n", 0o644)
	_, err := Start(t.Context(), Config{Dir: dir})
	if err == nil || !strings.Contains(err.Error(), "made by PostgreSQL 8") {
		t.Fatalf("the error is %v, want one that names the version", err)
	}
}

func TestStart_RefusesAFolderWithOtherFiles(t *testing.T) {
	dir := newFolder(t)
	photo := filepath.Join(dir, "photo.jpg")
	write(t, photo, "of the club", 0o644)
	_, err := Start(t.Context(), Config{Dir: dir})
	if err == nil || !strings.Contains(err.Error(), "holds other files") {
		t.Fatalf("the error is %v, want a refusal", err)
	}
	if entries, _ := os.ReadDir(dir); len(entries) != 1 {
		t.Errorf("the folder was changed: %v", entries)
	}
}

func TestStart_AfterInitdbWasCutShort(t *testing.T) {
	dir := newFolder(t)
	write(t, filepath.Join(dir, lockName), "1\n", 0o600)
	write(t, filepath.Join(dir, newDataFolder, "PG_VERSION"), "15\n", 0o600)
	if got := queryValue[int](t, startIn(t, dir), "select 1"); got != 1 {
		t.Error("the server does not answer")
	}
}

func TestStart_FolderThatOthersCannotReach(t *testing.T) {
	dir := newFolder(t)
	closed := filepath.Dir(dir)
	if err := os.Chmod(closed, 0o700); err != nil {
		t.Fatal(err)
	}
	server, err := Start(t.Context(), Config{Dir: dir})
	if os.Geteuid() != 0 {
		if err != nil {
			t.Fatalf("an ordinary user's own folder is refused: %v", err)
		}
		server.Stop()
		return
	}
	if err == nil || !strings.Contains(err.Error(), closed+" is closed to other users") {
		t.Fatalf("the error is %v, want one that names the closed folder", err)
	}
	if got := CheckReachable(dir); got == nil || !strings.HasSuffix(err.Error(), got.Error()) {
		t.Errorf("Reachable says %v, Start %v", got, err)
	}
	if err := CheckReachable(newFolder(t)); err != nil {
		t.Errorf("a folder that is not there yet: %v", err)
	}
}

func TestStart_PathTooLongForASocket(t *testing.T) {
	dir := filepath.Join(filepath.Dir(newFolder(t)), strings.Repeat("long ", 20), "it's, here")
	server := startIn(t, dir)
	if got := queryValue[int](t, server, "select 1"); got != 1 {
		t.Error("the server does not answer")
	}
	server.Stop()
	if _, err := os.Stat(server.socket.folder); !os.IsNotExist(err) {
		t.Errorf("the socket's folder %s stays after Stop", server.socket.folder)
	}
}

func TestStart_CutShortLeavesNothingRunning(t *testing.T) {
	dir := newFolder(t)
	ctx, cancel := context.WithTimeout(t.Context(), 50*time.Millisecond) // initdb takes longer
	defer cancel()
	if _, err := Start(ctx, Config{Dir: dir}); !errors.Is(err, context.DeadlineExceeded) {
		t.Fatalf("the error is %v, want the deadline", err)
	}
	if IsInUse(dir) {
		t.Error("the folder is still locked")
	}
	if got := queryValue[int](t, startIn(t, dir), "select 1"); got != 1 {
		t.Error("the folder cannot be used again")
	}
}

func TestStart_SaysWhatPostgresSaid(t *testing.T) {
	dir := newFolder(t)
	startIn(t, dir).Stop()
	if err := os.Remove(filepath.Join(dir, dataFolder, "global", "pg_control")); err != nil {
		t.Fatal(err)
	}
	_, err := Start(t.Context(), Config{Dir: dir})
	if err == nil || !strings.Contains(err.Error(), "pg_control") {
		t.Errorf("the error is %v, want PostgreSQL's own reason", err)
	}
}
