package main

import (
	"bytes"
	"context"
	"encoding/json"
	"io"
	"net/http"
	"net/http/cookiejar"
	"net/url"
	"os"
	"strings"
	"sync"
	"testing"
	"time"

	"breakwright/internal/store/storetest"
)

func TestMain(m *testing.M) {
	actAsProgram()
	storetest.Main(m)
}

// clearSettings clears the settings of the environment the tests run in.
func clearSettings(t *testing.T) {
	t.Helper()
	for _, s := range listSettings() {
		t.Setenv(s.env, "")
	}
}

// sharedFolder is a folder that other users may enter, which t.TempDir is not:
// for root PostgreSQL runs as another user.
func sharedFolder(t *testing.T) string {
	t.Helper()
	dir, err := os.MkdirTemp("", "breakwright-test-")
	if err == nil {
		err = os.Chmod(dir, 0o755)
	}
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { os.RemoveAll(dir) })
	return dir
}

// runningCommand is a command at work in this process.
type runningCommand struct {
	lines <-chan string // of its output, from the first that is not empty
	errs  *syncBuffer
	code  <-chan int
	stop  context.CancelFunc
}

// startCommand runs a command line; it is stopped with the test at the latest.
func startCommand(t *testing.T, args ...string) *runningCommand {
	t.Helper()
	ctx, stop := context.WithCancel(context.Background())
	out, in := io.Pipe()
	errs, lines, code := &syncBuffer{}, make(chan string, 100), make(chan int, 1)
	ended := make(chan struct{})
	go func() {
		defer close(ended)
		code <- runCommand(ctx, args, strings.NewReader(""), in, errs)
		in.Close()
	}()
	go func() {
		defer close(lines)
		text := make([]byte, 0, 4096)
		chunk := make([]byte, 4096)
		for {
			n, err := out.Read(chunk)
			text = append(text, chunk[:n]...)
			for {
				line, rest, whole := bytes.Cut(text, []byte("\n"))
				if !whole {
					break
				}
				if text = rest; len(line) > 0 {
					lines <- string(line)
				}
			}
			if err != nil {
				return
			}
		}
	}()
	t.Cleanup(func() { stop(); <-ended })
	return &runningCommand{lines, errs, code, stop}
}

// awaitLine waits for the next line.
func (r *runningCommand) awaitLine(t *testing.T) string {
	t.Helper()
	select {
	case line, more := <-r.lines:
		if !more {
			t.Fatalf("it ended: %s", r.errs)
		}
		return line
	case <-time.After(2 * time.Minute): // a stuck start must not hang the tests
		t.Fatalf("it says nothing: %s", r.errs)
	}
	return ""
}

// stopAndWait stops it and gives the exit code.
func (r *runningCommand) stopAndWait(t *testing.T) int {
	t.Helper()
	r.stop()
	return <-r.code
}

// demoLogins reads what --logins prints.
func (r *runningCommand) demoLogins(t *testing.T) shownLogins {
	t.Helper()
	var l shownLogins
	if err := json.Unmarshal([]byte(r.awaitLine(t)), &l); err != nil || len(l.Students) != 2 {
		t.Fatalf("the logins are not what they should be: %v, %+v", err, l)
	}
	return l
}

// signIn signs somebody in over HTTP and gives the path of the page they come
// to, and its text.
func signIn(t *testing.T, site, who, secret string) (path, text string) {
	t.Helper()
	return signInTo(t, site, who, secret, "")
}

// signInTo signs somebody in and opens a page.
func signInTo(t *testing.T, site, who, secret, next string) (path, text string) {
	t.Helper()
	jar, err := cookiejar.New(nil)
	if err != nil {
		t.Fatal(err)
	}
	client := &http.Client{Jar: jar}
	answer, err := client.PostForm(site+"/sign-in", url.Values{"who": {who}, "secret": {secret}, "next": {next}})
	if err != nil {
		t.Fatal(err)
	}
	defer answer.Body.Close()
	body, err := io.ReadAll(answer.Body)
	if err != nil {
		t.Fatal(err)
	}
	return answer.Request.URL.Path, string(body)
}

// syncBuffer is written by a command and read by its test.
type syncBuffer struct {
	mu   sync.Mutex
	text bytes.Buffer
}

func (b *syncBuffer) Write(p []byte) (int, error) {
	b.mu.Lock()
	defer b.mu.Unlock()
	return b.text.Write(p)
}

func (b *syncBuffer) String() string {
	b.mu.Lock()
	defer b.mu.Unlock()
	return b.text.String()
}
