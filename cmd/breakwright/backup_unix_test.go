//go:build unix && !quick

package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"breakwright/internal/store/storetest"
)

// A club's file comes into a private server and leaves it while it runs; so is the
// server backed up, and comes back in another folder.
func TestBackup_OfARunningPrivateServer(t *testing.T) {
	clearSettings(t)
	dir := sharedFolder(t)
	file := filepath.Join(t.TempDir(), "club.backup")
	serve := startCommand(t, "serve", "--listen", "127.0.0.1:0", "--data", filepath.Join(dir, "first"))
	serve.awaitLine(t)
	club := writeClubFile(t)
	for _, command := range [][]string{{"import", club}, {"export", club + ".again"}} {
		if got := executeCommand(t, "", append(command, "--data", filepath.Join(dir, "first"))...); got.code != exitOK || !strings.Contains(got.out, `"Harbour Lane"`) ||
			!strings.Contains(got.out, "1 set with 3 breaks") {
			t.Fatalf("%v: %+v", command, got)
		}
	}
	if got := executeCommand(t, "", "import", "--data", filepath.Join(dir, "first"), club); got.code != exitFailed || !strings.Contains(got.err, "already") {
		t.Errorf("a second time: %+v", got)
	}
	made := executeCommand(t, "", "backup", "--data", filepath.Join(dir, "first"), file)
	if made.code != exitOK || !strings.Contains(made.out, "rows of") {
		t.Fatalf("%+v", made)
	}
	if _, err := os.Stat(file + ".part"); !os.IsNotExist(err) {
		t.Errorf("the unfinished file is still there (%v)", err)
	}
	serve.stopAndWait(t)
	for _, command := range [][]string{{"export", file + ".none"}, {"backup", file + ".none"}, {"coach", "ines"}, {"club"}} { // a folder that was misspelt
		got := executeCommand(t, "", append(command, "--data", filepath.Join(dir, "frist"))...)
		if _, err := os.Stat(filepath.Join(dir, "frist")); got.code != exitFailed || !strings.Contains(got.err, "there is no database in ") || !os.IsNotExist(err) {
			t.Errorf("%v in a folder without a database: %+v (%v)", command, got, err)
		}
	}
	if got := executeCommand(t, "", "restore", "--data", filepath.Join(dir, "second"), file); got.code != exitOK || !strings.Contains(got.out, "are back") {
		t.Errorf("%+v", got)
	}
}

// writeClubFile takes the file of a club with three breaks out of a given database.
func writeClubFile(t *testing.T) (name string) {
	t.Helper()
	owner := storetest.NewDatabase(t)
	sc := storetest.AddScene(t, storetest.Open(t, owner))
	sc.RecordBreaks(t, sc.StudentActor(0), 3)
	name = filepath.Join(t.TempDir(), "club.zip")
	t.Setenv("DATABASE_URL", owner)
	if got := executeCommand(t, "", "export", name); got.code != exitOK {
		t.Fatalf("%+v", got)
	}
	t.Setenv("DATABASE_URL", "")
	return name
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
	for command, says := range map[string]string{"restore": "no whole backup", "import": "no whole club file"} {
		if got := executeCommand(t, "", command, file); got.code != exitFailed || !strings.Contains(got.err, says) {
			t.Errorf("%s: %+v", command, got)
		}
	}
}
