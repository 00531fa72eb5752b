package sync

import (
	"bytes"
	"encoding/json"
	"net/http"
	"net/http/httptest"
	"net/url"
	"strings"
	"testing"
	"time"

	"github.com/andybalholm/cascadia"
	"golang.org/x/net/html"

	"breakwright/internal/breaklog"
	"breakwright/internal/drill"
	"breakwright/internal/say"
	"breakwright/internal/store"
	"breakwright/internal/store/storetest"
	"breakwright/internal/table"
	"breakwright/web/session"
)

// A start of a phone whose clock differs by less than ten minutes stands as it is;
// from ten minutes on the difference is taken off.
func TestMeasureClockLead_FromTenMinutesOn(t *testing.T) {
	now := time.Date(2026, 3, 2, 18, 0, 0, 0, time.UTC)
	for sent, want := range map[time.Time]time.Duration{
		{}:                                     0,
		now:                                    0,
		now.Add(10*time.Minute - 1):            0,
		now.Add(-10*time.Minute + 1):           0,
		now.Add(10 * time.Minute):              10 * time.Minute,
		now.Add(-10 * time.Minute):             -10 * time.Minute,
		now.Add(25*time.Hour + 30*time.Minute): 25*time.Hour + 30*time.Minute,
	} {
		if got := measureClockLead(sent, now); got != want {
			t.Errorf("sent at %v: %v, want %v", sent, got, want)
		}
	}
}

// Training alone brings its own window, side by side as the phone has it.
func TestTake_TrainingBringsItsWindow(t *testing.T) {
	t.Parallel()
	h := newSyncHarness(t)
	odile, set := h.StudentActor(0), store.NewID[store.SetID]()
	setup := setupToJSON(storetest.StandardDrill().Setup)
	start := batchItem{
		Kind: startSet, Set: set, Table: h.Table.ID, At: time.Now(), Training: "My own break", Setup: &setup,
		Breaks: 10, Window: [4]table.Inches{-11, 12, 31, 53},
	}
	if got := h.postItems(t, odile, start)[0]; got.Outcome != accepted {
		t.Fatalf("%+v", got)
	}
	if got, want := h.set(t, odile, set).Window, (table.Window{Left: -11, Right: 12, Head: 31, Foot: 53}); got != want {
		t.Errorf("the window is %+v, want %+v", got, want)
	}
}

// Breaks that found no place go to the coach in words: with their set, or with the
// student's latest where theirs never came, or, before any set, they stay.
func TestTake_ANoteFindsASet(t *testing.T) {
	t.Parallel()
	h := newSyncHarness(t)
	odile := h.StudentActor(0)
	note := func(set store.SetID, text string) itemReply {
		return h.postItems(t, odile, batchItem{Kind: postNote, Set: set, Note: store.NewID[store.MessageID](), Text: text})[0]
	}
	if got := note(store.NewID[store.SetID](), "before any set"); got.Reason != gone || !strings.Contains(got.Sentence, "no set yet") {
		t.Errorf("before any set: %+v", got)
	}
	first := h.RecordBreaks(t, odile, 1)
	latest := h.RecordBreaks(t, odile, 1)
	if got := note(first, "of the first"); got.Outcome != accepted {
		t.Errorf("of a set that is kept: %+v", got)
	}
	if got := note(store.NewID[store.SetID](), "of one that never came"); got.Outcome != accepted {
		t.Errorf("of a set that never came: %+v", got)
	}
	for set, want := range map[store.SetID]string{first: "of the first", latest: "of one that never came"} {
		if m := h.set(t, odile, set).Messages; len(m) != 1 || m[0].Body != want {
			t.Errorf("the messages of a set are %+v, want %q", m, want)
		}
	}
}

// A refused break is shown beside what is kept: itself, or the one of its number, and
// after the close only itself.
func TestTake_ShowsWhatIsKeptInstead(t *testing.T) {
	t.Parallel()
	h := newSyncHarness(t)
	odile, set := h.StudentActor(0), store.NewID[store.SetID]()
	one, two := newBreakID(), newBreakID()
	h.postItems(t, odile, h.start(set), saved(t, set, one, 3, 1, "one"), saved(t, set, two, 3, 2, "two"))
	if got := h.postItems(t, odile, saved(t, set, two, 1, 2, "old"))[0]; got.Current == nil || got.Current.ID != two {
		t.Errorf("an old version of the second: %+v", got)
	}
	if got := h.postItems(t, odile, saved(t, set, one, 1, 2, "old"))[0]; got.Current == nil || got.Current.ID != one {
		t.Errorf("an old version of the first under the number of the second: %+v", got)
	}
	if got := h.postItems(t, odile, saved(t, set, newBreakID(), 1, 2, "another"))[0]; got.Current == nil || got.Current.ID != two {
		t.Errorf("another second: %+v", got)
	}
	if got := h.postItems(t, odile, batchItem{Kind: closeSet, Set: set, Breaks: 2})[0]; got.Outcome != accepted {
		t.Fatalf("close: %+v", got)
	}
	if got := h.postItems(t, odile, saved(t, set, newBreakID(), 1, 2, "another"))[0]; got.Reason != closed || got.Current != nil {
		t.Errorf("another second after the close: %+v", got)
	}
	if got := h.postItems(t, odile, saved(t, set, one, 4, 1, "late"))[0]; got.Reason != closed || got.Current == nil || got.Current.ID != one {
		t.Errorf("a change of the first after the close: %+v", got)
	}
}

// Breaks that are only on a phone come as a break log that is read back, numbered
// without gaps.
func TestLog_OfBreaksThatFoundNoPlace(t *testing.T) {
	t.Parallel()
	h := newSyncHarness(t)
	setup := storetest.StandardDrill().Setup
	log := stuckBreaks{
		Label: "North 1", Started: time.Date(2026, 3, 2, 18, 5, 0, 0, time.UTC), Drill: "Side break", Setup: setupToJSON(setup),
		Kind: kindJSON{9, false, table.StandardCornerMouth, table.NineFoot().SideMouth},
	}
	for _, number := range []int{2, 5, 9} {
		log.Breaks = append(log.Breaks, saved(t, store.SetID{}, newBreakID(), 1, number, "kept").Content)
	}
	status, body := h.postLog(t, log)
	sets, err := breaklog.Read(strings.NewReader(body))
	if status != http.StatusOK || err != nil || len(sets) != 1 {
		t.Fatalf("%d: %v: %s", status, err, body)
	}
	got := sets[0]
	if got.Student != "Odile" || got.Name != "2026-03-02 18:05 from the phone" || got.Table != "North 1" || !got.Setup.SameAs(setup) || got.Kind != table.NineFoot() {
		t.Errorf("the set is %+v", got)
	}
	for i, b := range got.Breaks {
		if b.Number != i+1 || b.Note != "kept" {
			t.Errorf("break %d is %+v", i+1, b)
		}
	}
	if len(got.Breaks) != 3 {
		t.Errorf("%d breaks", len(got.Breaks))
	}
}

func TestLog_RefusesWhatIsNone(t *testing.T) {
	t.Parallel()
	h := newSyncHarness(t)
	request := func(log stuckBreaks) *http.Request {
		text, err := json.Marshal(log)
		if err != nil {
			t.Fatal(err)
		}
		return newLogRequest(string(text))
	}
	good := stuckBreaks{Label: "North 1", Setup: setupToJSON(storetest.StandardDrill().Setup), Kind: kindJSON{9, false, table.StandardCornerMouth, table.NineFoot().SideMouth}}
	for name, spoil := range map[string]func(*stuckBreaks){
		"a rack that is none":  func(l *stuckBreaks) { l.Setup.Order = "1-2" },
		"a break that is none": func(l *stuckBreaks) { l.Breaks = []json.RawMessage{json.RawMessage(`"?"`)} },
		"a break that cannot have been": func(l *stuckBreaks) {
			content, err := WriteBreak(drill.Break{Number: 1, Cue: stopped(400, 10)})
			if err != nil {
				t.Fatal(err)
			}
			l.Breaks = []json.RawMessage{content}
		},
	} {
		log := good
		spoil(&log)
		status, body := h.call(t, h.StudentActor(0), h.desk.writeBreakLog, request(log))
		page, err := html.Parse(bytes.NewReader(body))
		if err != nil || status != http.StatusUnprocessableEntity {
			t.Fatalf("%s: %d %v", name, status, err)
		}
		typed, wrong := cascadia.Query(page, cascadia.MustCompile("textarea#log")), cascadia.Query(page, cascadia.MustCompile("#log-error"))
		if typed == nil || wrong == nil || typed.FirstChild.Data != request(log).PostFormValue("log") {
			t.Errorf("%s: what was sent and why it is refused do not stand side by side in %s", name, body)
		}
		asked := request(log)
		asked.Header.Set("Accept", "application/json")
		var says batchError
		if status, body := h.call(t, h.StudentActor(0), h.desk.writeBreakLog, asked); status != http.StatusUnprocessableEntity || json.Unmarshal(body, &says) != nil || says.Says == "" {
			t.Errorf("%s: a script is told %d %s", name, status, body)
		}
	}
	if status, body := h.call(t, h.StudentActor(0), h.desk.writeBreakLog, newLogRequest("{")); status != http.StatusUnprocessableEntity || !strings.Contains(string(body), "still on your phone") {
		t.Errorf("half a text: %d %s", status, body)
	}
}

func (h syncHarness) postLog(t *testing.T, log stuckBreaks) (int, string) {
	t.Helper()
	text, err := json.Marshal(log)
	if err != nil {
		t.Fatal(err)
	}
	status, body := h.call(t, h.StudentActor(0), h.desk.writeBreakLog, newLogRequest(string(text)))
	return status, string(body)
}

func newLogRequest(log string) *http.Request {
	r := httptest.NewRequest(http.MethodPost, "/table/log", strings.NewReader(url.Values{"log": {log}}.Encode()))
	r.Header.Set("Content-Type", "application/x-www-form-urlencoded")
	return r
}

// The plan that a page shows comes back from its form as it was; what is none is an
// error.
func TestShownPlan_ThereAndBack(t *testing.T) {
	d := storetest.StandardDrill()
	text, err := WriteShownPlan(store.Instruction{Setup: d.Setup, Window: d.Window, Targets: d.Targets}, d.Kind, nil, say.InchesAndMiles)
	if err != nil {
		t.Fatal(err)
	}
	if got, err := ReadShownSetup(text); err != nil || got != d.Setup {
		t.Errorf("%+v, %v; want %+v", got, err, d.Setup)
	}
	if _, err := ReadShownSetup(text[:20]); err == nil {
		t.Error("half a plan is read")
	}
}

// What is asked at the table goes through a form as the phone has it.
func TestWriteWatchList_AsThePhoneHasIt(t *testing.T) {
	text, err := WriteWatchList(drill.WatchList{CueOnly: true})
	var got watchListJSON
	if err != nil || json.Unmarshal([]byte(text), &got) != nil || got != newWatchListJSON(drill.WatchList{CueOnly: true}, false) {
		t.Errorf("%q, %v: %+v", text, err, got)
	}
}

// At most 200 items and 512 KiB are taken at a time, and no more than the eight newest
// open sets are given; the phone is told when those are not all.
func TestSync_Bounds(t *testing.T) {
	t.Parallel()
	h := newSyncHarness(t)
	odile := h.StudentActor(0)
	for count, want := range map[int]int{200: http.StatusOK, 201: http.StatusBadRequest} {
		if got, _ := h.send(t, odile, h.body(t, odile, time.Now(), make([]batchItem, count)...)); got != want {
			t.Errorf("%d items: %d, want %d", count, got, want)
		}
	}
	frame := `{"person":""}`
	for size, want := range map[int]int{512 << 10: http.StatusConflict, 512<<10 + 1: http.StatusBadRequest} {
		body := `{"person":"` + strings.Repeat("x", size-len(frame)) + `"}`
		if got, _ := h.send(t, odile, []byte(body)); got != want {
			t.Errorf("%d bytes: %d, want %d", size, got, want)
		}
	}
	for count := 1; count <= 9; count++ {
		h.RecordBreaks(t, odile, 1)
		got, err := h.desk.buildSnapshot(t.Context(), session.User{Actor: odile})
		if err != nil || len(got.Sets) != min(count, 8) || got.All != (count <= 8) {
			t.Fatalf("%d open sets: %d given, all %v, %v", count, len(got.Sets), got.All, err)
		}
	}
}
