package main

import (
	"context"
	"io"
	"log/slog"
	"net/http"
	"net/url"
	"regexp"
	"strings"
	"testing"
	"time"

	"github.com/jackc/pgx/v5"

	"breakwright/internal/store/storetest"
)

var linkPattern = regexp.MustCompile(`http://\S+/set-up/\S+`)

func TestServe_FirstRunThenTheCoach(t *testing.T) {
	clearSettings(t)
	t.Setenv("DATABASE_URL", storetest.NewEmptyDatabase(t))
	first := startCommand(t, "serve", "--listen", "127.0.0.1:0")
	site := strings.TrimPrefix(first.awaitLine(t), "Breakwright answers at ")
	first.awaitLine(t)
	setUp := linkPattern.FindString(first.awaitLine(t))
	if !strings.HasPrefix(setUp, site) {
		t.Fatalf("the link is %q, the site %q", setUp, site)
	}
	form := url.Values{"club": {"Harbour Lane"}, "zone": {"Europe/Lisbon"}, "name": {"Ines"}, "login": {"ines"},
		"secret": {"three plain words"}, "again": {"three plain words"}}
	answer, err := http.PostForm(setUp, form)
	if err != nil {
		t.Fatal(err)
	}
	answer.Body.Close()
	if path, _ := signIn(t, site, "ines", "three plain words"); path != "/desk" {
		t.Fatalf("the new coach comes to %s; the set-up answered %d at %s", path, answer.StatusCode, answer.Request.URL.Path)
	}
	checkHealthy(t, site)
	if code := first.stopAndWait(t); code != exitOK {
		t.Errorf("stopped with code %d: %s", code, first.errs)
	}
	second := startCommand(t, "serve", "--listen", "127.0.0.1:0")
	second.awaitLine(t)
	if words := second.awaitLine(t); !strings.Contains(words, "Only this machine can open that") || !strings.Contains(words, "--listen 0.0.0.0:") {
		t.Errorf("of phones it says %q", words)
	}
	if words := second.awaitLine(t); !strings.Contains(words, "https") {
		t.Errorf("of keeping without signal it says %q", words)
	}
	if code := second.stopAndWait(t); code != exitOK || len(second.lines) > 0 {
		t.Errorf("the second start (%d) says more than where it is: %q", code, <-second.lines)
	}
	checkCoachCommand(t)
}

// checkHealthy asks with the commands that whoever runs it has.
func checkHealthy(t *testing.T, site string) {
	t.Helper()
	at := strings.TrimPrefix(site, "http://")
	if got := executeCommand(t, "", "healthcheck", "--listen", at); got.code != exitOK || got.out != "ok\n" {
		t.Errorf("healthcheck: %+v", got)
	}
	got := executeCommand(t, "", "doctor", "--listen", at)
	if got.code != exitOK || strings.Count(got.out, "ok  ") != len(listChecks()) || !strings.Contains(got.out, "held to the walls") ||
		!strings.Contains(got.out, "a healthy server answers") {
		t.Errorf("doctor: %+v", got)
	}
	if got := executeCommand(t, "", "migrate"); got.code != exitOK || !strings.Contains(got.out, "up to date") {
		t.Errorf("migrate: %+v", got)
	}
}

var newPassphrase = regexp.MustCompile(`passphrase (\S+)`)

// checkCoachCommand lets coaches in from the command line, in the club that has
// the coach ines.
func checkCoachCommand(t *testing.T) {
	t.Helper()
	again := executeCommand(t, "", "coach", "ines")
	added := executeCommand(t, "", "coach", "marta", "--beside", "ines", "--name", "Marta")
	if again.code != exitOK || added.code != exitOK {
		t.Fatalf("%+v %+v", again, added)
	}
	s := startCommand(t, "serve", "--listen", "127.0.0.1:0")
	site := strings.TrimPrefix(s.awaitLine(t), "Breakwright answers at ")
	for login, out := range map[string]string{"ines": again.out, "marta": added.out} {
		if path, _ := signIn(t, site, login, newPassphrase.FindStringSubmatch(out)[1]); path != "/desk" {
			t.Errorf("%s comes to %s", login, path)
		}
	}
	_, log := signInTo(t, site, "ines", newPassphrase.FindStringSubmatch(again.out)[1], "/audit")
	for _, did := range []string{"made anew", "a coach’s passphrase, by the keeper", "added", "a coach, by the keeper"} {
		if !strings.Contains(log, "<td>"+did) {
			t.Errorf("the audit log says nothing of %q: %s", did, log)
		}
	}
	if path, _ := signIn(t, site, "ines", "three plain words"); path != "/sign-in" {
		t.Errorf("the old passphrase leads to %s", path)
	}
	for _, args := range [][]string{{"coach", "nobody"}, {"coach", "new", "--beside", "nobody", "--name", "New"}} {
		if got := executeCommand(t, "", args...); got.code != exitFailed || !strings.Contains(got.err, "no coach signs in as") {
			t.Errorf("%v: %+v", args, got)
		}
	}
	if got := executeCommand(t, "", "coach", "marta", "--beside", "ines"); got.code != exitUsage {
		t.Errorf("a coach without a name: %+v", got)
	}
	checkClubCommand(t, site)
}

var setUpLink = regexp.MustCompile(`/set-up/\S+`)

// checkClubCommand sets a further club up, on the running server.
func checkClubCommand(t *testing.T, site string) {
	t.Helper()
	made := executeCommand(t, "", "club", "--url", site)
	link := setUpLink.FindString(made.out)
	if made.code != exitOK || link == "" {
		t.Fatalf("%+v", made)
	}
	answer, err := http.PostForm(site+link, url.Values{
		"club": {"Second club"}, "zone": {"UTC"}, "name": {"Noor"}, "login": {"noor"}, "secret": {"three plain words"},
	})
	if err != nil {
		t.Fatal(err)
	}
	answer.Body.Close()
	if path, text := signIn(t, site, "noor", "three plain words"); path != "/desk" || !strings.Contains(text, "Second club") {
		t.Errorf("the second club's coach comes to %s", path)
	}
}

func TestHealthcheck_NobodyThere(t *testing.T) {
	clearSettings(t)
	got := executeCommand(t, "", "healthcheck", "--listen", "127.0.0.1:1")
	if got.code != exitFailed || !strings.Contains(got.err, "nobody answers") || !strings.Contains(got.err, "BREAKWRIGHT_LISTEN") {
		t.Errorf("%+v", got)
	}
}

func TestDoctor_SaysWhatIsWrong(t *testing.T) {
	clearSettings(t)
	t.Setenv("DATABASE_URL", storetest.NewEmptyDatabase(t))
	t.Setenv("BREAKWRIGHT_URL", "http://break.example.org")
	got := executeCommand(t, "", "doctor", "--listen", "127.0.0.1:0")
	if got.code != exitFailed || strings.Count(got.out, "no  ") != 2 || !strings.Contains(got.out, "Run breakwright migrate") || !strings.Contains(got.out, "is not https") {
		t.Errorf("%+v", got)
	}
}

// What is over is forgotten at the start, and not only by a server that runs for days.
func TestServer_ForgetsAtItsStart(t *testing.T) {
	clearSettings(t)
	owner := storetest.NewDatabase(t)
	t.Setenv("DATABASE_URL", owner)
	database, err := pgx.Connect(t.Context(), owner)
	if err != nil {
		t.Fatal(err)
	}
	defer database.Close(t.Context())
	if _, err := database.Exec(t.Context(), "insert into first_run (token_hash, expires_at) values (sha256('an old link'), now() - interval '1 hour')"); err != nil {
		t.Fatal(err)
	}
	s := startServer(t)
	ctx, stop := context.WithCancel(t.Context())
	ended := make(chan error, 1)
	go func() { ended <- s.Run(ctx) }()
	left := 1
	for end := time.Now().Add(20 * time.Second); left > 0 && time.Now().Before(end); time.Sleep(5 * time.Millisecond) {
		if err := database.QueryRow(t.Context(), "select count(*) from first_run").Scan(&left); err != nil {
			t.Fatal(err)
		}
	}
	if left > 0 {
		t.Error("a link that is over is still there")
	}
	stop()
	if err := <-ended; err != nil {
		t.Error(err)
	}
}

// startServer makes a server on the database of the environment, to be run.
func startServer(t *testing.T) *webServer {
	t.Helper()
	config, err := readTestConfig(t, "--listen", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	s, err := newServer(t.Context(), config, clubDatabase, slog.New(slog.DiscardHandler), func(string) {}, prepareNothing)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(s.Close)
	return s
}

// Requests that are at work when the program is told to stop may finish.
func TestServer_RequestsFinish(t *testing.T) {
	clearSettings(t)
	t.Setenv("DATABASE_URL", storetest.NewDatabase(t))
	s := startServer(t)
	begun, finish := make(chan struct{}), make(chan struct{})
	s.handler.replace(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		close(begun)
		<-finish
		if r.Context().Err() == nil {
			io.WriteString(w, "finished")
		}
	}))
	s.drain = func() { close(finish) } // live boards are closed before others are waited for
	ctx, stop := context.WithCancel(t.Context())
	ended := make(chan error, 1)
	go func() { ended <- s.Run(ctx) }()
	out := make(chan string, 1)
	go func() {
		answer, err := http.Get(s.url)
		if err != nil {
			out <- err.Error()
			return
		}
		defer answer.Body.Close()
		text, _ := io.ReadAll(answer.Body)
		out <- string(text)
	}()
	<-begun
	stop()
	if got := <-out; got != "finished" {
		t.Errorf("the request got %q", got)
	}
	if err := <-ended; err != nil {
		t.Error(err)
	}
}
