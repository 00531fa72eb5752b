package main

import (
	"io"
	"net/http"
	"net/url"
	"strings"
	"testing"
	"time"

	"breakwright/internal/localpg/localpgtest"
	"breakwright/internal/store/storetest"
)

// A database that comes up after the program is waited for, and who asks
// meanwhile is told to come back.
func TestServe_WaitsForItsDatabase(t *testing.T) {
	clearSettings(t)
	server := localpgtest.NewServer(t)
	t.Setenv("DATABASE_URL", storetest.MigrateOn(t, server))
	t.Setenv("BREAKWRIGHT_SECRET", strings.Repeat("chalk ", 6))
	server.Stop()
	at := freeAddress(t)
	serve := startCommand(t, "serve", "--listen", at)
	for strings.Count(serve.errs.String(), "does not answer yet") < 2 {
		select {
		case code := <-serve.code:
			t.Fatalf("it ended with code %d: %s", code, serve.errs)
		case <-time.After(5 * time.Millisecond):
		}
	}
	if errs := serve.errs.String(); strings.Count(errs, "\n") != strings.Count(errs, "does not answer yet; it is asked again in") {
		t.Errorf("more than one line for each try:\n%s", errs)
	}
	for path, want := range map[string]int{"/livez": http.StatusOK, "/readyz": http.StatusServiceUnavailable, "/desk": http.StatusServiceUnavailable} {
		if got := getStatus(t, "http://"+at+path); got != want {
			t.Errorf("%s answers %d before the database is there, want %d", path, got, want)
		}
	}
	checkTypedIsKept(t, "http://"+at)
	localpgtest.StartIn(t, server.Dir)
	serve.awaitLine(t)
	if got := getStatus(t, "http://"+at+"/readyz"); got != http.StatusOK {
		t.Errorf("/readyz answers %d afterwards", got)
	}
}

// checkTypedIsKept sends a form to a server that has no database yet.
func checkTypedIsKept(t *testing.T, site string) {
	t.Helper()
	answer, err := http.PostForm(site+"/my/sets/7/messages", url.Values{"body": {"Aim lower?"}})
	if err != nil {
		t.Fatal(err)
	}
	defer answer.Body.Close()
	text, err := io.ReadAll(answer.Body)
	if err != nil || answer.StatusCode != http.StatusServiceUnavailable || answer.Header.Get("Retry-After") == "" {
		t.Errorf("a form gets %d (%v)", answer.StatusCode, err)
	}
	for _, want := range []string{"Breakwright is starting", `action="/my/sets/7/messages"`, `name="body" value="Aim lower?"`} {
		if !strings.Contains(string(text), want) {
			t.Errorf("a form comes back without %s: %s", want, text)
		}
	}
}

// freeAddress is an address that was free just now.
func freeAddress(t *testing.T) string {
	t.Helper()
	l, err := openListener("127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	defer l.Close()
	return l.Addr().String()
}

func getStatus(t *testing.T, address string) int {
	t.Helper()
	answer, err := http.Get(address)
	if err != nil {
		t.Fatal(err)
	}
	answer.Body.Close()
	if answer.StatusCode == http.StatusServiceUnavailable && !strings.HasSuffix(address, "/healthz") && answer.Header.Get("Retry-After") == "" {
		t.Errorf("%s does not say when to ask again", address)
	}
	return answer.StatusCode
}
