package sync

import (
	"bytes"
	"context"
	"encoding/json"
	"net/http"
	"net/http/httptest"
	"testing"
	"time"

	"breakwright/internal/drill"
	"breakwright/internal/setreview"
	"breakwright/internal/store"
	"breakwright/internal/store/storetest"
	"breakwright/internal/table"
	"breakwright/web/session"
)

func TestMain(m *testing.M) { storetest.Main(m) }

// hall is a club with its desk, and a phone in the hands of a student.
type hall struct {
	storetest.Scene
	desk *Desk
}

func newHall(t testing.TB) hall {
	t.Helper()
	scene := storetest.NewScene(t)
	return hall{scene, New(scene.Store, setreview.JudgeCase, time.Now)}
}

// send posts a body as a student and gives the status and the answer.
func (h hall) send(t testing.TB, as store.Actor, body []byte) (int, []byte) {
	t.Helper()
	return h.call(t, as, h.desk.take, httptest.NewRequest(http.MethodPost, "/sync", bytes.NewReader(body)))
}

func (h hall) call(t testing.TB, as store.Actor, handle func(http.ResponseWriter, *http.Request) error, r *http.Request) (int, []byte) {
	t.Helper()
	w := httptest.NewRecorder()
	visitor := session.User{Actor: as, Name: "Odile", Club: "Harbour Lane", Zone: time.UTC, Side: table.Left}
	if err := handle(w, r.WithContext(session.WithUser(context.Background(), visitor))); err != nil {
		t.Fatalf("%s /sync: %v", r.Method, err)
	}
	return w.Code, w.Body.Bytes()
}

// take sends a batch and gives an answer for each item.
func (h hall) take(t testing.TB, as store.Actor, items ...item) []reply {
	t.Helper()
	status, body := h.send(t, as, h.body(t, as, time.Now(), items...))
	var answer struct{ Answers []reply }
	if err := json.Unmarshal(body, &answer); status != http.StatusOK || err != nil || len(answer.Answers) != len(items) {
		t.Fatalf("%d items answered with %d: %s (%v)", len(items), status, body, err)
	}
	return answer.Answers
}

func (h hall) body(t testing.TB, as store.Actor, sent time.Time, items ...item) []byte {
	t.Helper()
	b, err := json.Marshal(batch{Person: as.Person.String(), Sent: sent, Items: items})
	if err != nil {
		t.Fatal(err)
	}
	return b
}

func (h hall) start(set store.SetID) item {
	return item{Kind: startSet, Set: set, Assignment: h.Assignment, Table: h.Table.ID, At: time.Now()}
}

// saved is an item of a break: the wing ball dropped, with a note.
func saved(t testing.TB, set store.SetID, id store.BreakID, revision, number int, note string) item {
	t.Helper()
	b := storetest.NewBreak(number).Break
	b.Note = note
	content, err := WriteBreak(b)
	if err != nil {
		t.Fatal(err)
	}
	return item{Kind: saveBreak, Set: set, ID: id, Revision: revision, Content: content}
}

func (h hall) set(t testing.TB, as store.Actor, id store.SetID) store.Set {
	t.Helper()
	set, err := h.Store.GetSet(t.Context(), as, id)
	if err != nil {
		t.Fatal(err)
	}
	return set
}

func newBreakID() store.BreakID { return store.NewID[store.BreakID]() }

func stopped(x, y table.Inches) drill.CueEnd {
	return drill.CueEnd{How: drill.Stopped, Place: table.Place{X: x, Y: y}}
}
