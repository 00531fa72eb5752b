//go:build !quick

package main

import (
	"testing"
)

// The owner of a database is an ordinary role there, not a superuser.
func TestDemo_OnAServerThatIsGiven(t *testing.T) {
	clearSettings(t)
	t.Setenv("DATABASE_URL", withPassword(t, "keeper2", "right"))
	var codes []string
	for _, args := range [][]string{nil, nil, {"--fresh"}} {
		d := startCommand(t, append([]string{"demo", "--listen", "127.0.0.1:0", "--logins"}, args...)...)
		l := d.demoLogins(t)
		if path, _ := signIn(t, l.URL, l.Students[1].Code, l.Students[1].PIN); path != "/today" {
			t.Errorf("%v: the student comes to %s", args, path)
		}
		codes = append(codes, l.Students[1].Code)
		if code := d.stopAndWait(t); code != exitOK {
			t.Errorf("stopped with code %d: %s", code, d.errs)
		}
	}
	if codes[0] != codes[1] || codes[1] == codes[2] {
		t.Errorf("codes %v: want the same twice, then new ones", codes)
	}
}
