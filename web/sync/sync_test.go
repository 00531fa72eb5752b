package sync

import (
	"encoding/json"
	"errors"
	"net/http"
	"net/http/httptest"
	"slices"
	"strings"
	"testing"
	"time"

	"breakwright/internal/store"
	"breakwright/web/session"
)

func TestTake_AWholeSetOnceHoweverOften(t *testing.T) {
	t.Parallel()
	h := newSyncHarness(t)
	odile, set := h.StudentActor(0), store.NewID[store.SetID]()
	items := []batchItem{h.start(set)}
	for n := 1; n <= 10; n++ {
		items = append(items, saved(t, set, newBreakID(), 1, n, "as tapped"))
	}
	items = append(items, batchItem{Kind: closeSet, Set: set, Breaks: 10})
	for _, answer := range h.postItems(t, odile, items...) {
		if answer.Outcome != accepted {
			t.Fatalf("the first time: %+v", answer)
		}
	}
	for i, answer := range h.postItems(t, odile, items...) {
		if i > 0 && answer.Outcome != alreadyKept { // a start cannot be told from its repeat
			t.Errorf("item %d sent again: %+v", i, answer)
		}
	}
	got := h.set(t, odile, set)
	if len(got.Breaks) != 10 || got.Closed.IsZero() || got.Advice == nil {
		t.Fatalf("%d breaks, closed %v, advice %v", len(got.Breaks), got.Closed, got.Advice)
	}
	for i, b := range got.Breaks {
		if text, err := WriteBreak(b.Break); err != nil || string(text) != string(items[i+1].Content) {
			t.Errorf("kept %s\nsent %s", text, items[i+1].Content)
		}
	}
}

func TestTake_NotASingleItemOfABadBatch(t *testing.T) {
	t.Parallel()
	h := newSyncHarness(t)
	odile, set := h.StudentActor(0), store.NewID[store.SetID]()
	whole := h.body(t, odile, time.Now(), h.start(set), saved(t, set, newBreakID(), 1, 1, ""))
	many := make([]batchItem, MaxItems+1)
	for name, c := range map[string]struct {
		body   []byte
		status int
		word   string
	}{
		"cut off":            {whole[:len(whole)-9], http.StatusBadRequest, "unreadable"},
		"empty":              {nil, http.StatusBadRequest, "unreadable"},
		"two in one":         {append(append([]byte{}, whole...), whole...), http.StatusBadRequest, "unreadable"},
		"too many":           {h.body(t, odile, time.Now(), many...), http.StatusBadRequest, "unreadable"},
		"too long":           {[]byte(`{"person":"` + strings.Repeat("x", MaxBytes) + `"}`), http.StatusBadRequest, "unreadable"},
		"of somebody else's": {h.body(t, h.StudentActor(1), time.Now(), h.start(set)), http.StatusConflict, "person"},
	} {
		status, body := h.send(t, odile, c.body)
		var answer batchError
		if err := json.Unmarshal(body, &answer); err != nil || status != c.status || answer.Error != c.word || answer.Says == "" {
			t.Errorf("%s: %d %s", name, status, body)
		}
	}
	if _, err := h.Store.GetSet(t.Context(), odile, set); err == nil {
		t.Error("a set was started by a batch that was refused")
	}
}

func TestTake_OneBadItemSpoilsNoOther(t *testing.T) {
	t.Parallel()
	h := newSyncHarness(t)
	odile, set := h.StudentActor(0), store.NewID[store.SetID]()
	impossible := saved(t, set, newBreakID(), 1, 2, "")
	impossible.Content = []byte(`{"number":2,"cue":{"how":"stopped","x":90,"y":3}}`)
	got := h.postItems(t, odile,
		h.start(set), saved(t, set, newBreakID(), 1, 1, ""), impossible,
		batchItem{Kind: deleteBreak, Set: set, ID: newBreakID(), Revision: 2, Reason: "never was"},
		batchItem{Kind: deleteBreak, Set: set, ID: newBreakID(), Revision: 2},
		batchItem{Kind: "wish", Set: set}, saved(t, set, newBreakID(), 1, 3, ""),
		batchItem{Kind: closeSet, Set: set, Breaks: 2})
	want := []struct {
		is      itemOutcome
		because refusalReason
	}{{accepted, ""}, {accepted, ""}, {refused, invalid}, {refused, gone}, {refused, invalid}, {refused, invalid}, {accepted, ""}, {refused, waiting}}
	for i, w := range want {
		if got[i].Outcome != w.is || got[i].Reason != w.because || (w.is == refused && got[i].Sentence == "") {
			t.Errorf("item %d: %+v, want %+v", i, got[i], w)
		}
	}
	if kept := h.set(t, odile, set); len(kept.Breaks) != 2 || !kept.Closed.IsZero() {
		t.Errorf("%d breaks, closed %v", len(kept.Breaks), kept.Closed)
	}
}

func TestTake_ACoachsChangeIsShownNotOverwritten(t *testing.T) {
	t.Parallel()
	h := newSyncHarness(t)
	odile, set, id := h.StudentActor(0), store.NewID[store.SetID](), newBreakID()
	h.postItems(t, odile, h.start(set), saved(t, set, id, 1, 1, "as seen"))
	b := h.set(t, odile, set).Breaks[0]
	b.Revision, b.Note = 2, "It was the 8."
	if _, err := h.Store.SaveBreak(t.Context(), h.Coach, set, b); err != nil {
		t.Fatal(err)
	}
	mine := saved(t, set, id, 2, 1, "seen otherwise")
	got := h.postItems(t, odile, mine)[0]
	if got.Outcome != refused || got.Reason != conflict || got.Current == nil || !got.Current.Coach || got.Current.Revision != 2 || got.Current.Content.Note != "It was the 8." {
		t.Fatalf("%+v", got)
	}
	mine.Revision = 3 // the student has seen both, and chose
	if got := h.postItems(t, odile, mine)[0]; got.Outcome != accepted {
		t.Fatalf("%+v", got)
	}
	other := h.postItems(t, odile, saved(t, set, newBreakID(), 1, 1, "of another phone"))[0]
	if other.Reason != conflict || other.Current == nil || other.Current.ID != id {
		t.Errorf("another break of that number: %+v", other)
	}
	late := h.postItems(t, odile, saved(t, set, id, 1, 1, "as seen"))[0]
	if late.Reason != stale || late.Current == nil || late.Current.Revision != 3 {
		t.Errorf("a late copy: %+v", late)
	}
}

func TestTake_OthersSetsAreNotThere(t *testing.T) {
	t.Parallel()
	h := newSyncHarness(t)
	set := h.RecordBreaks(t, h.StudentActor(1), 2)
	for i, got := range h.postItems(t, h.StudentActor(0),
		h.start(set), saved(t, set, newBreakID(), 1, 3, ""),
		batchItem{Kind: deleteBreak, Set: set, ID: newBreakID(), Revision: 2, Reason: "mine"},
		batchItem{Kind: closeSet, Set: set}) {
		if got.Outcome != refused || got.Current != nil {
			t.Errorf("item %d in another's set: %+v", i, got)
		}
	}
	if kept := h.set(t, h.StudentActor(1), set); len(kept.Breaks) != 2 || !kept.Closed.IsZero() {
		t.Errorf("%d breaks, closed %v", len(kept.Breaks), kept.Closed)
	}
}

func TestTake_AfterTheCloseNothingChanges(t *testing.T) {
	t.Parallel()
	h := newSyncHarness(t)
	odile := h.StudentActor(0)
	set := h.RecordBreaks(t, odile, 3)
	h.CloseSet(t, odile, set, -18)
	got := h.postItems(t, odile, saved(t, set, newBreakID(), 1, 4, ""), batchItem{Kind: closeSet, Set: set, Breaks: 4})
	if got[0].Reason != closed || got[1].Reason != waiting {
		t.Errorf("%+v", got)
	}
	if again := h.postItems(t, odile, batchItem{Kind: closeSet, Set: set, Breaks: 3}); again[0].Outcome != alreadyKept {
		t.Errorf("closed again: %+v", again)
	}
}

// A set closes only when every break the phone counts has arrived.
func TestTake_CloseWaitsForTheBreaks(t *testing.T) {
	t.Parallel()
	h := newSyncHarness(t)
	odile := h.StudentActor(0)
	set := h.RecordBreaks(t, odile, 9)
	if got := h.postItems(t, odile, batchItem{Kind: closeSet, Set: set, Breaks: 10})[0]; got.Reason != waiting {
		t.Fatalf("%+v", got)
	}
	got := h.postItems(t, odile, saved(t, set, newBreakID(), 1, 10, ""), batchItem{Kind: closeSet, Set: set, Breaks: 10})
	if got[1].Outcome != accepted {
		t.Errorf("%+v", got)
	}
}

func TestTake_AClockThatIsADayOff(t *testing.T) {
	t.Parallel()
	h := newSyncHarness(t)
	odile := h.StudentActor(0)
	for name, off := range map[string]time.Duration{"ahead": 26 * time.Hour, "behind": -26 * time.Hour} {
		set := store.NewID[store.SetID]()
		begun := time.Now().Add(-20 * time.Minute)
		start, first := h.start(set), saved(t, set, newBreakID(), 1, 1, "")
		start.At = begun.Add(off)
		h.desk.now = time.Now
		status, body := h.send(t, odile, h.body(t, odile, time.Now().Add(off), start, first))
		if status != http.StatusOK {
			t.Fatalf("%s: %d %s", name, status, body)
		}
		if got := h.set(t, odile, set); got.Started.Sub(begun).Abs() > time.Minute || len(got.Breaks) != 1 {
			t.Errorf("%s: started %v, not %v", name, got.Started, begun)
		}
	}
}

func TestGive_WhatAPhoneShouldHold(t *testing.T) {
	t.Parallel()
	h := newSyncHarness(t)
	odile := h.StudentActor(0)
	set := h.RecordBreaks(t, odile, 3)
	h.CloseSet(t, odile, h.RecordBreaks(t, odile, 10), -18)
	h.RecordBreaks(t, h.StudentActor(1), 2)
	request := func(tag string) (int, snapshot, []byte) {
		r := httptest.NewRequest(http.MethodGet, "/sync", nil)
		r.Header.Set("If-None-Match", tag)
		status, body := h.call(t, odile, h.desk.getSnapshot, r)
		var got snapshot
		if status == http.StatusOK {
			if err := json.Unmarshal(body, &got); err != nil {
				t.Fatal(err)
			}
		}
		return status, got, body
	}
	_, got, _ := request("")
	if got.Person != odile.Person || len(got.Tasks) != 1 || len(got.Tables) != 1 || !got.All {
		t.Fatalf("%+v", got)
	}
	if len(got.Sets) != 1 || got.Sets[0].ID != set || len(got.Sets[0].Breaks) != 3 {
		t.Fatalf("open sets: %+v", got.Sets)
	}
	p := got.Drills[got.Tasks[0].On[h.Table.ID]]
	if p.Wing != 8 || p.Pocket != "foot-left" || p.Width != 50 || p.Run < 40 || p.Run > 60 || !strings.Contains(got.Cloths[p.Cloth], "<svg") {
		t.Errorf("plan: %+v", p)
	}
	if setup, err := p.Setup.toSetup(); err != nil || setup != h.Drill.Setup {
		t.Errorf("setup: %+v, %v", setup, err)
	}
}

// Where the last advice on a drill wants the rack checked, the phone asks about it
// at every break; before, and after the next advice, it does not.
func TestGive_AsksForTheRack(t *testing.T) {
	t.Parallel()
	h := newSyncHarness(t)
	odile := h.StudentActor(0)
	asks := func() bool {
		snapshot, err := h.desk.buildSnapshot(t.Context(), session.User{Actor: odile})
		if err != nil {
			t.Fatal(err)
		}
		open := h.StartSet(t, odile)
		again, err := h.desk.buildSnapshot(t.Context(), session.User{Actor: odile})
		if err != nil || again.Sets[0].ID != open.ID || again.Sets[0].WatchList.Rack != snapshot.Tasks[0].WatchList.Rack {
			t.Fatalf("the open set asks %+v, the drill %+v (%v)", again.Sets[0].WatchList, snapshot.Tasks[0].WatchList, err)
		}
		if err := h.Store.DiscardSet(t.Context(), odile, open.ID); err != nil {
			t.Fatal(err)
		}
		return snapshot.Tasks[0].WatchList.Rack
	}
	got := []bool{asks()}
	for _, advice := range []string{`{"check_rack": true}`, `{"says": "Ten more."}`} {
		set := h.RecordBreaks(t, odile, 10)
		judge := func(store.Case) (store.Judgement, error) {
			return store.Judgement{Verdict: "more", JSON: []byte(advice), RulesVersion: "test"}, nil
		}
		if err := h.Store.CloseSet(t.Context(), odile, set, judge); err != nil {
			t.Fatal(err)
		}
		got = append(got, asks())
	}
	if !slices.Equal(got, []bool{false, true, false}) {
		t.Errorf("the rack is asked for: %v", got)
	}
}

func TestGive_SaysWhenNothingChanged(t *testing.T) {
	t.Parallel()
	h := newSyncHarness(t)
	request := func(as store.Actor, tag string) (int, string) {
		r := httptest.NewRequest(http.MethodGet, "/sync", nil)
		r.Header.Set("If-None-Match", tag)
		w := httptest.NewRecorder()
		h.call(t, as, func(_ http.ResponseWriter, r *http.Request) error { return h.desk.getSnapshot(w, r) }, r)
		return w.Code, w.Header().Get("ETag")
	}
	_, tag := request(h.StudentActor(0), "")
	if status, _ := request(h.StudentActor(0), tag); status != http.StatusNotModified {
		t.Errorf("asked again: %d", status)
	}
	if status, _ := request(h.StudentActor(0), "W/"+tag); status != http.StatusNotModified {
		t.Errorf("asked again by way of a proxy that zips: %d", status)
	}
	if status, _ := request(h.StudentActor(1), tag); status != http.StatusOK {
		t.Errorf("another student with the same tag: %d", status)
	}
	h.RecordBreaks(t, h.StudentActor(0), 1)
	if status, _ := request(h.StudentActor(0), tag); status != http.StatusOK {
		t.Errorf("asked after a break: %d", status)
	}
}

func TestGive_TablesOfOneKindShareAPlan(t *testing.T) {
	t.Parallel()
	h := newSyncHarness(t)
	for _, name := range []string{"North 3", "North 4"} {
		if _, err := h.Store.SaveTable(t.Context(), h.Coach, store.Table{Name: name, Kind: h.Table.Kind}); err != nil {
			t.Fatal(err)
		}
	}
	_, body := h.call(t, h.StudentActor(0), h.desk.getSnapshot, httptest.NewRequest(http.MethodGet, "/sync", nil))
	var got snapshot
	if err := json.Unmarshal(body, &got); err != nil || len(got.Tables) != 3 || len(got.Drills) != 1 || len(got.Tasks[0].On) != 3 {
		t.Errorf("%v: %d tables, %d plans", err, len(got.Tables), len(got.Drills))
	}
}

// The student reads the store's sentence and nothing of the log's.
func TestTake_SaysWhyInWordsForPeople(t *testing.T) {
	t.Parallel()
	h := newSyncHarness(t)
	odile, set, id := h.StudentActor(0), store.NewID[store.SetID](), newBreakID()
	h.postItems(t, odile, h.start(set), saved(t, set, id, 2, 1, ""))
	if err := h.Store.ArchiveTable(t.Context(), h.Coach, h.Table.ID); err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		item batchItem
		want string
	}{
		{saved(t, set, id, 1, 1, ""), "break 1 was changed or deleted meanwhile"},
		{saved(t, set, newBreakID(), 1, 1, ""), "break 1 is recorded already"},
		{saved(t, set, newBreakID(), 1, 2, strings.Repeat("x", 2001)), "this has 2001 letters; 2000 is the most"},
		{h.start(store.NewID[store.SetID]()), "this table was put away: choose another"},
	} {
		if got := h.postItems(t, odile, c.item)[0]; got.Outcome != refused || got.Sentence != c.want {
			t.Errorf("%+v, want %q", got, c.want)
		}
	}
	if got := conflictWords(errors.New("ERROR: duplicate key (SQLSTATE 23505)")); strings.Contains(got, "SQL") {
		t.Errorf("an error of the database says %q", got)
	}
}
