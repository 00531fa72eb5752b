//go:build unix

package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"breakwright/internal/store/storetest"
)

// A private server is backed up while it runs, and comes back in another folder.
func TestBackup_OfARunningPrivateServer(t *testing.T) {
	clearSettings(t)
	dir := sharedFolder(t)
	file := filepath.Join(t.TempDir(), "club.backup")
	serve := startCommand(t, "serve", "--listen", "127.0.0.1:0", "--data", filepath.Join(dir, "first"))
	serve.awaitLine(t)
	made := executeCommand(t, "", "backup", "--data", filepath.Join(dir, "first"), file)
	if made.code != exitOK || !strings.Contains(made.out, "rows of") {
		t.Fatalf("%+v", made)
	}
	if _, err := os.Stat(file + ".part"); !os.IsNotExist(err) {
		t.Errorf("the unfinished file is still there (%v)", err)
	}
	serve.stopAndWait(t)
	if got := executeCommand(t, "", "restore", "--data", filepath.Join(dir, "second"), file); got.code != exitOK || !strings.Contains(got.out, "are back") {
		t.Errorf("%+v", got)
	}
}

// Half a file is refused, before a database is looked for.
func TestRestore_RefusesHalfAFile(t *testing.T) {
	clearSettings(t)
	t.Setenv("DATABASE_URL", storetest.NewDatabase(t))
	file := filepath.Join(t.TempDir(), "club.backup")
	if got := executeCommand(t, "", "backup", file); got.code != exitOK {
		t.Fatalf("%+v", got)
	}
	whole, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(file, whole[:len(whole)-10], 0o600); err != nil {
		t.Fatal(err)
	}
	if got := executeCommand(t, "", "restore", file); got.code != exitFailed || !strings.Contains(got.err, "no whole backup") {
		t.Errorf("%+v", got)
	}
}
