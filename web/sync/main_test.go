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

// syncHarness is a club with its desk, and a phone in the hands of a student.
type syncHarness struct {
	storetest.Scene
	desk *Endpoint
}

func newSyncHarness(t testing.TB) syncHarness {
	t.Helper()
	scene := storetest.NewScene(t)
	return syncHarness{scene, New(scene.Store, setreview.JudgeCase, time.Now)}
}

// send posts a body as a student and gives the status and the answer.
func (h syncHarness) send(t testing.TB, as store.Actor, body []byte) (int, []byte) {
	t.Helper()
	return h.call(t, as, h.desk.postBatch, httptest.NewRequest(http.MethodPost, "/sync", bytes.NewReader(body)))
}

func (h syncHarness) call(t testing.TB, as store.Actor, handle func(http.ResponseWriter, *http.Request) error, r *http.Request) (int, []byte) {
	t.Helper()
	w := httptest.NewRecorder()
	user := session.User{Actor: as, Name: "Odile", Club: "Harbour Lane", Zone: time.UTC, Side: table.Left}
	if err := handle(w, r.WithContext(session.WithUser(context.Background(), user))); err != nil {
		t.Fatalf("%s /sync: %v", r.Method, err)
	}
	return w.Code, w.Body.Bytes()
}

// postItems sends a batch and gives an answer for each item.
func (h syncHarness) postItems(t testing.TB, as store.Actor, items ...batchItem) []itemReply {
	t.Helper()
	status, body := h.send(t, as, h.body(t, as, time.Now(), items...))
	var answer struct{ Answers []itemReply }
	if err := json.Unmarshal(body, &answer); status != http.StatusOK || err != nil || len(answer.Answers) != len(items) {
		t.Fatalf("%d items answered with %d: %s (%v)", len(items), status, body, err)
	}
	return answer.Answers
}

func (h syncHarness) body(t testing.TB, as store.Actor, sent time.Time, items ...batchItem) []byte {
	t.Helper()
	b, err := json.Marshal(batch{Person: as.Person.String(), Sent: sent, Items: items})
	if err != nil {
		t.Fatal(err)
	}
	return b
}

func (h syncHarness) start(set store.SetID) batchItem {
	return batchItem{Kind: startSet, Set: set, Assignment: h.Assignment, Table: h.Table.ID, At: time.Now()}
}

// saved is an item of a break: the wing ball dropped, with a note.
func saved(t testing.TB, set store.SetID, id store.BreakID, revision, number int, note string) batchItem {
	t.Helper()
	b := storetest.NewBreak(number).Break
	b.Note = note
	content, err := WriteBreak(b)
	if err != nil {
		t.Fatal(err)
	}
	return batchItem{Kind: saveBreak, Set: set, ID: id, Revision: revision, Content: content}
}

func (h syncHarness) set(t testing.TB, as store.Actor, id store.SetID) store.Set {
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
