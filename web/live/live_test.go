package live_test

import (
	"bufio"
	"net/http"
	"strings"
	"testing"
	"time"

	"breakwright/internal/store"
	"breakwright/internal/store/storetest"
	"breakwright/web/webtest"
)

func TestMain(m *testing.M) { storetest.Main(m) }

func TestBoard_SaysHowTheClassBreaks(t *testing.T) {
	site := webtest.New(t)
	coach := site.SignInCoach(t)
	path := "/classes/" + site.Class.String() + "/live"
	coach.Get(t, path).RequireText(t, ".answer", "Nobody has started yet").RequireCount(t, "tbody tr.waiting", 3)
	student := store.Actor{Club: site.Coach.Club, Person: site.Students[0].ID, Role: store.Student}
	set := site.RecordBreaks(t, student, 10)
	site.RecordBreaks(t, store.Actor{Club: site.Coach.Club, Person: site.Students[1].ID, Role: store.Student}, 3)
	site.CloseSet(t, student, set, -18)
	page := coach.Get(t, path).RequireText(t, ".answer", "1 breaking, 1 done, of 3.")
	// NewBreak drops the wing ball in every second break.
	page.RequireText(t, "tbody", "5 of 10", "3 of 10", "1 wing ball missed, 2 wing ball made")
	site.StartSet(t, store.Actor{Club: site.Coach.Club, Person: site.Students[2].ID, Role: store.Student})
	if begun := coach.Get(t, path).TextOf(t, "tbody tr:last-child"); begun != "Wen North 2 0 of 10" {
		t.Errorf("a set without a break yet is shown as %q", begun)
	}
	page.RequireCount(t, ".signs .made", 6).RequireCount(t, ".signs .missed", 7).RequireCount(t, ".signs .to-come", 7)
}

// The events are those of the WHATWG HTML standard, 9.2: lines of "field:
// value", an empty line after each event.
func TestEvents_ABreakComesByItself(t *testing.T) {
	site := webtest.New(t)
	coach := site.SignInCoach(t)
	lines := coach.OpenStream(t, "/classes/"+site.Class.String()+"/live/events")
	waitFor(t, lines, "Nobody has started yet")
	site.RecordBreaks(t, store.Actor{Club: site.Coach.Club, Person: site.Students[0].ID, Role: store.Student}, 2)
	waitFor(t, lines, "2 of 10")
}

// A board that is open is closed for who was signed out meanwhile, and shows nobody who
// was erased.
func TestEvents_EndWithTheSession(t *testing.T) {
	site := webtest.New(t)
	coach, out := site.SignInCoach(t), site.SignInCoach(t)
	path := "/classes/" + site.Class.String() + "/live/events"
	boards, ended := coach.OpenStream(t, path), out.OpenStream(t, path)
	erased := site.Students[0]
	for _, lines := range []*bufio.Scanner{boards, ended} {
		if first, open := readBoard(lines); !open || !strings.Contains(first, erased.Name) {
			t.Fatalf("the board begins with %q", first)
		}
	}
	out.Post(t, "/sign-out", nil)
	if err := site.Store.EraseStudent(t.Context(), site.Coach, erased.ID); err != nil {
		t.Fatal(err)
	}
	for board, open := readBoard(ended); open; board, open = readBoard(ended) {
		if !strings.Contains(board, erased.Name) {
			t.Fatal("who signed out is sent a new board")
		}
	}
	for board, open := readBoard(boards); ; board, open = readBoard(boards) {
		if !open {
			t.Fatal("who was erased stays on the board")
		}
		if !strings.Contains(board, erased.Name) {
			break
		}
	}
}

// readBoard returns the next event's lines; false when there is no more, or nothing
// happened for as long as the server keeps silent.
func readBoard(lines *bufio.Scanner) (board string, open bool) {
	for lines.Scan() && !strings.HasPrefix(lines.Text(), ":") {
		if strings.HasPrefix(lines.Text(), "data: ") {
			board += lines.Text() + "\n"
		} else if board != "" {
			return board, true
		}
	}
	return board, false
}

func waitFor(t *testing.T, lines *bufio.Scanner, words string) {
	t.Helper()
	deadline := time.Now().Add(20 * time.Second)
	for lines.Scan() {
		line := lines.Text()
		if line != "" && !strings.HasPrefix(line, "data: ") && line != "event: board" && !strings.HasPrefix(line, "retry: ") && !strings.HasPrefix(line, ":") {
			t.Fatalf("%q is no line of an event", line)
		}
		if strings.Contains(line, words) {
			return
		}
		if time.Now().After(deadline) {
			break
		}
	}
	t.Fatalf("%q did not come (%v)", words, lines.Err())
}

func TestEvents_OtherClubs(t *testing.T) {
	site := webtest.New(t)
	other := webtest.NewOverScene(t, storetest.AddScene(t, site.Store))
	if got := other.SignInCoach(t).Get(t, "/classes/"+site.Class.String()+"/live/events"); got.Code != http.StatusNotFound {
		t.Errorf("another club's board answers %d", got.Code)
	}
}
