package main

import (
	"bufio"
	"context"
	"encoding/json"
	"fmt"
	"net/http"
	"net/url"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/jackc/pgx/v5"

	"breakwright/internal/account"
	"breakwright/internal/store"
	"breakwright/internal/store/storetest"
	websync "breakwright/web/sync"
	"breakwright/web/webtest"
)

// twoServers are two whole programs, each a process of its own, on one database.
type twoServers struct {
	storetest.Scene
	owner string
	sites [2]*webtest.Site
}

func startTwoServers(t *testing.T) *twoServers {
	t.Helper()
	clearSettings(t)
	owner := storetest.NewDatabase(t)
	two := &twoServers{Scene: storetest.AddScene(t, storetest.Open(t, owner)), owner: owner}
	for i := range two.sites {
		process := startProcess(t, "127.0.0.1:0", "DATABASE_URL="+owner, "BREAKWRIGHT_SECRET="+strings.Repeat("chalk ", 6))
		two.sites[i] = &webtest.Site{Scene: two.Scene, URL: process.url}
	}
	return two
}

// What one server knows the other knows: nobody sees which one answers.
func TestServe_TwoOnOneDatabase(t *testing.T) {
	two := startTwoServers(t)
	coach := two.sites[0].SignInCoach(t)
	elsewhere := coach.At(two.sites[1])
	if got := elsewhere.Get(t, "/desk"); got.Path != "/desk" {
		t.Fatalf("signed in on one server, the coach comes to %s on the other", got.Path)
	}
	phone := two.sites[0].SignInStudent(t, two.Students[0])
	two.checkBoard(t, elsewhere, phone)
	two.checkTries(t)
	two.checkJobs(t, coach, elsewhere)
	before := coach.CopyCookies(t)
	elsewhere.Post(t, "/sign-out", nil)
	if got := before.Get(t, "/desk"); got.Path != "/sign-in" {
		t.Errorf("signed out on one server, the coach comes to %s on the other", got.Path)
	}
}

// checkBoard records a break on the phone's server; the coach's board is on the other.
func (two *twoServers) checkBoard(t *testing.T, coach, phone *webtest.Client) {
	t.Helper()
	board := coach.OpenStream(t, "/classes/"+two.Class.String()+"/live/events")
	awaitOnBoard(t, board, "Nobody has started yet")
	set, made := store.NewID[store.SetID](), storetest.NewBreak(1)
	content, _ := websync.WriteBreak(made.Break) // a break that is valid
	body, err := json.Marshal(map[string]any{"person": two.Students[0].ID, "sent": time.Now().UTC(), "items": []any{
		map[string]any{"kind": "start", "set": set, "assignment": two.Assignment, "table": two.Table.ID, "at": time.Now().UTC()},
		map[string]any{"kind": "break", "set": set, "id": made.ID, "revision": 1, "content": json.RawMessage(content)},
	}})
	if err != nil {
		t.Fatal(err)
	}
	answer := phone.PostBody(t, "/sync", "application/json", strings.NewReader(string(body))).RequireStatus(t, http.StatusOK)
	if strings.Count(answer.Text, `"accepted"`) != 2 {
		t.Fatalf("the phone is told %s", answer.Text)
	}
	awaitOnBoard(t, board, "1 of 10")
}

func awaitOnBoard(t *testing.T, lines *bufio.Scanner, words string) {
	t.Helper()
	given := time.AfterFunc(time.Minute, func() { panic("the board stays without: " + words) }) // a stuck board must not hang the tests
	defer given.Stop()
	for lines.Scan() {
		if strings.Contains(lines.Text(), words) {
			return
		}
	}
	t.Fatalf("the board ended before %q: %v", words, lines.Err())
}

// checkTries tries wrong PINs on both servers in turn: they have one limit.
func (two *twoServers) checkTries(t *testing.T) {
	t.Helper()
	student := two.Students[1]
	two.sites[0].SignInStudent(t, student)
	looked := 0
	for i := range 2 * account.LimitOfPIN().ByStrangers {
		wrong := url.Values{"who": {student.Code}, "secret": {fmt.Sprint("wrong", i)}}
		if two.sites[i%2].NewClient(t).Post(t, "/sign-in", wrong).Code == http.StatusUnprocessableEntity {
			looked++
		}
	}
	if want := account.LimitOfPIN().ByStrangers; looked != want {
		t.Errorf("%d wrong PINs were looked at on two servers, want %d", looked, want)
	}
}

// checkJobs asks both servers at once for the same job: it is done once, and what
// came of it lies ready on both.
func (two *twoServers) checkJobs(t *testing.T, coaches ...*webtest.Client) {
	t.Helper()
	form := coaches[0].Get(t, "/records").FormValues(t, "form[action='/export']")
	var asked sync.WaitGroup
	pages := make([]*webtest.Page, len(coaches))
	for i, coach := range coaches {
		asked.Go(func() { pages[i] = coach.Post(t, "/export", form) })
	}
	asked.Wait()
	if pages[0].Path != pages[1].Path {
		t.Fatalf("one job is at %s and at %s", pages[0].Path, pages[1].Path)
	}
	owner, err := pgx.Connect(t.Context(), two.owner)
	if err != nil {
		t.Fatal(err)
	}
	defer owner.Close(context.Background())
	var jobs, begun int
	for state := ""; state != string(store.JobDone); time.Sleep(20 * time.Millisecond) {
		if err := owner.QueryRow(t.Context(), "select count(*) over (), run, state from job").Scan(&jobs, &begun, &state); err != nil || state == string(store.JobFailed) {
			t.Fatalf("the job is %s (%v)", state, err)
		}
	}
	if jobs != 1 || begun != 1 {
		t.Errorf("%d jobs, begun %d times, want one of each", jobs, begun)
	}
	for _, coach := range coaches {
		if got := coach.Get(t, pages[0].Path+"/file"); got.Code != http.StatusOK || !strings.Contains(got.Text, two.Students[0].Name) {
			t.Errorf("the file answers %d: %.200s", got.Code, got.Text)
		}
	}
}
