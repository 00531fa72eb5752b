//go:build soak && linux

package main

import (
	"encoding/json"
	"net/http"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"
)

// serverClocks are two servers' clocks, which files turn. Go asks the kernel for the
// time and not the C library, so a library between them turns nothing: the program is
// built on a standard library whose time.Now adds what a file says.
type serverClocks struct{ dir, program string }

const serverClockVariable = "BREAKWRIGHT_SOAK_CLOCK"

func (c *serverClocks) file(server int) string {
	return filepath.Join(c.dir, []string{"first", "second"}[server])
}

// turnedNow is added to the package time, which has open, read and closefd.
const turnedNow = `
var turnedBy, _ = syscall.Getenv("` + serverClockVariable + `")

// lead reads the seconds that the clock is turned by: digits after a sign.
func lead() (seconds int64) {
	file, err := open(turnedBy)
	if err != nil {
		return 0
	}
	defer closefd(file)
	text := make([]byte, 20)
	n, _ := read(file, text)
	for _, digit := range text[:n] {
		if digit >= '0' && digit <= '9' {
			seconds = 10*seconds + int64(digit-'0')
		}
	}
	if text[0] == '-' {
		return -seconds
	}
	return seconds
}
`

// buildClockServers builds the program with a clock that can be turned.
func buildClockServers(t *testing.T) (soakDatabase, string) {
	root, err := exec.Command("go", "env", "GOROOT").Output()
	if err != nil {
		return soakDatabase{}, "no Go to build the program with a clock that turns"
	}
	original := filepath.Join(strings.TrimSpace(string(root)), "src", "time", "time.go")
	text, err := os.ReadFile(original)
	if err != nil {
		t.Fatal(err)
	}
	const asks = "sec, nsec, mono := runtimeNow()\n\tif mono == 0 {\n\t\treturn Time{uint64(nsec), sec + unixToInternal, Local}"
	turned := strings.Replace(string(text), asks, strings.Replace(asks, "\n", "\n\tsec += lead()\n", 1), 1)
	turned = strings.Replace(turned, "\t_ \"unsafe\"", "\t\"syscall\"\n\t_ \"unsafe\"", 1)
	if strings.Count(turned, "lead()") != 1 || !strings.Contains(turned, "\"syscall\"") {
		return soakDatabase{}, "this Go's time.Now is another than the one that we turn"
	}
	c := &serverClocks{dir: t.TempDir()}
	c.program = filepath.Join(c.dir, "breakwright")
	overlay, err := json.Marshal(map[string]any{"Replace": map[string]string{original: filepath.Join(c.dir, "time.go")}})
	if err != nil {
		t.Fatal(err)
	}
	writeFile(t, filepath.Join(c.dir, "time.go"), turned+turnedNow)
	writeFile(t, filepath.Join(c.dir, "overlay.json"), string(overlay))
	if text, err := exec.Command("go", "build", "-overlay", filepath.Join(c.dir, "overlay.json"), "-o", c.program, ".").CombinedOutput(); err != nil {
		t.Fatalf("the program with a clock that turns: %s", text)
	}
	for server := range 2 {
		setClock(t, c.file(server), 0)
	}
	d, missing := buildOwnDatabase(t)
	d.clocks = c
	return d, missing
}

func writeFile(t *testing.T, file, text string) {
	t.Helper()
	if err := os.WriteFile(file, []byte(text), 0o644); err != nil {
		t.Fatal(err)
	}
}

// stepServerClocks turns both, each its own way: they disagree, and jump. An answer
// shows that the server goes by its clock.
func stepServerClocks(t *testing.T, f *soakField, turn int) {
	steps := []time.Duration{time.Hour, 0, -time.Hour, 26 * time.Hour, -5 * time.Minute, 0, 90 * time.Second}
	for server, program := range f.programs {
		lead := steps[(turn*(server+1))%len(steps)]
		setClock(t, f.clocks.file(server), lead)
		answer, err := http.Get(program.url + "/livez")
		if err != nil {
			t.Fatal(err)
		}
		answer.Body.Close()
		shown, err := http.ParseTime(answer.Header.Get("Date"))
		if off := time.Until(shown) - lead; err != nil || off.Abs() > 30*time.Second {
			t.Fatalf("a clock turned by %s shows %s (%v)", lead, answer.Header.Get("Date"), err)
		}
	}
}
