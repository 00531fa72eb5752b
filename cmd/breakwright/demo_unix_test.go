//go:build unix && !quick

package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
)

func TestDemo_TwiceOnTheSameDataThenFresh(t *testing.T) {
	clearSettings(t)
	data := filepath.Join(sharedFolder(t), "demo")
	first := startCommand(t, "demo", "--listen", "127.0.0.1:0", "--data", data, "--logins")
	l := first.demoLogins(t)
	for _, c := range []struct{ who, secret, page, says string }{
		{l.Coach.Login, l.Coach.Passphrase, "/desk", "students need you today."},
		{l.Students[0].Code, l.Students[0].PIN, "/today", "Your coach has answered you"},
		{l.Students[1].Code, l.Students[1].PIN, "/today", "You have a set to go on with."},
		{l.Students[0].Code, "wrong", "/sign-in", "do not belong together"},
	} {
		if path, text := signIn(t, l.URL, c.who, c.secret); path != c.page || !strings.Contains(text, c.says) {
			t.Errorf("%s comes to %s, want %s with %q", c.who, path, c.page, c.says)
		}
	}
	// Commands work beside the private server that runs.
	for _, args := range [][]string{{"coach", "--demo", "--data", data, l.Coach.Login}, {"club", "--demo", "--data", data}} {
		if got := executeCommand(t, "", args...); got.code != exitOK {
			t.Errorf("beside the running demo, %v: %+v", args, got)
		}
	}
	if got := executeCommand(t, "", "club", "--data", data); got.code != exitFailed || !strings.Contains(got.err, "--demo") {
		t.Errorf("without --demo: %+v", got)
	}
	if l.Students[0].Side != "left" || l.Students[1].Side != "right" {
		t.Errorf("sides %s, %s", l.Students[0].Side, l.Students[1].Side)
	}
	if code := first.stopAndWait(t); code != exitOK {
		t.Fatalf("stopped with code %d: %s", code, first.errs)
	}

	second := startCommand(t, "demo", "--listen", "127.0.0.1:0", "--data", data, "--logins")
	again := second.demoLogins(t)
	if again.Students[0].Code != l.Students[0].Code {
		t.Error("the second start has other people than the first")
	}
	if strings.Contains(second.errs.String(), "Filling") {
		t.Errorf("the second start filled the club again: %s", second.errs)
	}
	second.stopAndWait(t)
	checkPlainStart(t, data)

	third := startCommand(t, "demo", "--listen=127.0.0.1:0", "--data", data, "--logins", "--fresh")
	if fresh := third.demoLogins(t); fresh.Students[0].Code == l.Students[0].Code {
		t.Error("--fresh kept the old people")
	}
	third.stopAndWait(t)
}

// checkPlainStart starts the demo on data that is there, as a person does. For root
// PostgreSQL runs as somebody else; for anyone else as themself.
func checkPlainStart(t *testing.T, data string) {
	t.Helper()
	d := startCommand(t, "demo", "--listen", "127.0.0.1:0", "--data", data)
	for line := d.awaitLine(t); !strings.Contains(line, "--fresh starts over"); {
		line = d.awaitLine(t)
	}
	uid := fileOwner(t, filepath.Join(data, postgresFolder, "data"))
	if root := os.Geteuid() == 0; root == (uid == 0) || !root && uid != os.Geteuid() {
		t.Errorf("we are user %d, and the data is user %d's", os.Geteuid(), uid)
	}
	secret, err := os.Stat(filepath.Join(data, secretFile))
	if err != nil || secret.Mode().Perm() != 0o600 {
		t.Errorf("the key of the cookies: %v, %v", secret, err)
	}
	taken := executeCommand(t, "", "demo", "--listen", "127.0.0.1:0", "--data", data)
	if taken.code != exitFailed || !strings.Contains(taken.err, "already running") || !strings.Contains(taken.err, "--data DIR") {
		t.Errorf("a second one on the same data: %+v", taken)
	}
	if code := d.stopAndWait(t); code != exitOK {
		t.Errorf("stopped with code %d: %s", code, d.errs)
	}
}
