package web_test

import (
	"net/http"
	"regexp"
	"strings"
	"testing"

	"breakwright/internal/store"
	"breakwright/internal/store/storetest"
	"breakwright/web/webtest"
)

// thread is one student's change as both sides meet it. The drill is broken from 18
// in out; the rules propose 16.
type thread struct {
	*webtest.Site
	coach, student *webtest.Client
	from           store.SetID // the set that it is proposed from
	change         store.Prescription
}

func newThread(t *testing.T) *thread {
	t.Helper()
	site := webtest.New(t)
	h := &thread{Site: site, coach: site.SignInCoach(t), student: site.SignInStudent(t, site.Students[0])}
	h.from = site.RecordBreaks(t, site.StudentActor(0), 10)
	site.CloseSet(t, site.StudentActor(0), h.from, -16)
	h.change = h.load(t)
	return h
}

// load reads the latest record of a change.
func (h *thread) load(t *testing.T) store.Prescription {
	t.Helper()
	all, err := h.Store.ListPrescriptions(t.Context(), h.Coach, h.Students[0].ID)
	if err != nil || len(all) == 0 {
		t.Fatalf("%d changes (%v)", len(all), err)
	}
	return all[0]
}

// decide answers the proposal on its page.
func (h *thread) decide(t *testing.T, answer, across string) {
	t.Helper()
	path := "/prescriptions/" + h.change.ID.String()
	form := h.coach.Get(t, path).FormValues(t, "form")
	form.Set("answer", answer)
	form.Set("note", "A note of the coach.")
	if across != "" {
		form.Set("cue_x", across)
	}
	h.coach.Post(t, path, form).RequireStatus(t, http.StatusOK)
}

// chooseOwn prescribes a change that nobody proposed.
func (h *thread) chooseOwn(t *testing.T, across string) {
	t.Helper()
	path := "/sets/" + h.from.String() + "/change"
	form := h.coach.Get(t, path).FormValues(t, "form")
	form.Set("cue_x", across)
	form.Set("note", "A note of the coach.")
	h.coach.Post(t, path, form).RequireStatus(t, http.StatusOK)
}

// begin starts the next set from the drill's page and gives the page at the table.
func (h *thread) begin(t *testing.T) *webtest.Page {
	t.Helper()
	path := "/today/" + h.Assignment.String()
	return h.student.Post(t, path, h.student.Get(t, path).FormValues(t, "form[method=post]")).RequireStatus(t, http.StatusOK)
}

// places are all pages on which a change stands.
func (h *thread) places() map[string]string {
	person := h.Students[0].ID.String()
	return map[string]string{
		"today": "/today", "drill": "/today/" + h.Assignment.String(), "student's set": "/my/sets/" + h.from.String(), "progress": "/my/progress",
		"desk": "/desk", "decided": "/decided", "coach's set": "/sets/" + h.from.String(), "student": "/students/" + person,
		"class": "/classes/" + h.Class.String() + "/progress", "picture": "/classes/" + h.Class.String() + "/picture", "report": "/students/" + person + "/report",
	}
}

// visit reads a place as the one whose it is.
func (h *thread) visit(t *testing.T, path string) string {
	t.Helper()
	who := h.coach
	if strings.HasPrefix(path, "/today") || strings.HasPrefix(path, "/my") {
		who = h.student
	}
	return who.Get(t, path).RequireStatus(t, http.StatusOK).TextOf(t, "main")
}

// requireWords reads places and looks for words in each.
func (h *thread) requireWords(t *testing.T, want map[string]string) {
	t.Helper()
	for place, words := range want {
		path, known := h.places()[place]
		if text := h.visit(t, path); !known || !strings.Contains(text, words) {
			t.Errorf("%s does not say %q: %s", place, words, text)
		}
	}
}

// proposedPlace is the place of the rules' proposal, in whatever words.
var proposedPlace = regexp.MustCompile(`\b16 in`)

// requireNothingProposed looks at every place: what the rules proposed, and the coach
// did not set, stands nowhere but as a proposal.
func (h *thread) requireNothingProposed(t *testing.T) {
	t.Helper()
	for place, path := range h.places() {
		for _, sentence := range strings.Split(h.visit(t, path), ". ") {
			if proposedPlace.MatchString(sentence) && !strings.Contains(sentence, "ropos") && !strings.Contains(sentence, "looked at") {
				t.Errorf("%s speaks of what was only proposed: %s", place, sentence)
			}
		}
	}
}

// threadStates are the ways a change goes until the next set, and what each place
// says then.
var threadStates = []struct {
	name   string
	decide func(*testing.T, *thread)
	want   map[string]string
	table  string // what is said at the table
}{
	{"proposed", func(*testing.T, *thread) {}, map[string]string{
		"today":         "Proposed to your coach: cue ball 16 in out (about 1¼ diamonds) instead of 18. Until your coach has decided, keep breaking as before.",
		"drill":         "Proposed to your coach: cue ball 16 in out (about 1¼ diamonds) instead of 18.",
		"student's set": "The same setup for now", "coach's set": "Proposed: cue ball 16 in out (about 1¼ diamonds) instead of 18", "student": "Next Proposed: cue ball 16 in out (about 1¼ diamonds) instead of 18",
		"desk": "Prescriptions to decide on", "decided": "Nothing was decided", "progress": "proposed, not decided", "report": "The same setup, until the coach has decided",
	}, ""},
	{"approved", func(t *testing.T, h *thread) { h.decide(t, "approved", "") }, map[string]string{
		"today": "New since last time: Cue ball 16 in out (about 1¼ diamonds) instead of 18", "drill": "Cue ball 16 in out (about 1¼ diamonds) instead of 18.",
		"student's set": "Change one thing: cue ball 16 in out (about 1¼ diamonds) instead of 18", "coach's set": "Approved: cue ball 16 in out (about 1¼ diamonds) instead of 18",
		"student": "Next Approved: cue ball 16 in out (about 1¼ diamonds) instead of 18", "desk": "Nobody is waiting for you", "decided": "Cue ball 18 → 16 in out, as proposed.",
		"progress": "approved, not played yet", "report": "Approved: cue ball 16 in out (about 1¼ diamonds) instead of 18",
	}, "Trying cue ball 16 in out (about 1¼ diamonds) instead of 18."},
	{"changed", func(t *testing.T, h *thread) { h.decide(t, "changed", "14") }, map[string]string{
		"today": "New since last time: Cue ball 14 in out (about 1 diamond) instead of 18, as your coach set it.", "drill": "Cue ball 14 in out (about 1 diamond) instead of 18, as your coach set it.",
		"student's set": "Your coach’s change: cue ball 14 in out (about 1 diamond) instead of 18", "coach's set": "The coach’s change: cue ball 14 in out (about 1 diamond) instead of 18",
		"student": "Next The coach’s change: cue ball 14 in out (about 1 diamond) instead of 18", "desk": "Nobody is waiting for you", "progress": "changed by the coach, not played yet",
		"decided": "The rules proposed cue ball 18 → 16 in out; the coach set cue ball 18 → 14 in out.", "report": "The coach’s change: cue ball 14 in out (about 1 diamond) instead of 18",
	}, "Trying cue ball 14 in out (about 1 diamond) instead of 18."},
	{"declined", func(t *testing.T, h *thread) { h.decide(t, "declined", "") }, map[string]string{
		"today":         "New since last time: The setup stays as it was: your coach looked at cue ball 16 in out (about 1¼ diamonds) instead of 18 and left it.",
		"drill":         "The setup stays as it was",
		"student's set": "The same setup again The rules proposed cue ball 18 → 16 in out; your coach left the setup as it was.",
		"coach's set":   "The same setup again The rules proposed cue ball 18 → 16 in out; the coach left the setup as it was.",
		"desk":          "Nobody is waiting for you", "decided": "the coach left the setup as it was", "student": "the coach left the setup as it was",
		"progress": "your coach left the setup as it was", "report": "The same setup again",
	}, ""},
	{"the coach's own", func(t *testing.T, h *thread) { h.chooseOwn(t, "14") }, map[string]string{
		"today": "New since last time: Cue ball 14 in out (about 1 diamond) instead of 18, as your coach set it.", "drill": "Cue ball 14 in out (about 1 diamond) instead of 18, as your coach set it.",
		"student's set": "Your coach’s change: cue ball 14 in out (about 1 diamond) instead of 18", "coach's set": "The coach’s change: cue ball 14 in out (about 1 diamond) instead of 18",
		"student": "Next The coach’s change: cue ball 14 in out (about 1 diamond) instead of 18", "desk": "Nobody is waiting for you", "decided": "Cue ball 18 → 14 in out, set by the coach.",
		"progress": "a newer change took its place Proposed: cue ball 18 → 16 in out.", "report": "The coach’s change: cue ball 14 in out (about 1 diamond) instead of 18",
	}, "Trying cue ball 14 in out (about 1 diamond) instead of 18."},
}

// From the proposal to the result, both sides read the same truth in every place:
// what was set and played.
func TestChangeThread_EveryPlaceSaysWhatWasSet(t *testing.T) {
	t.Parallel()
	for _, state := range threadStates {
		t.Run(state.name, func(t *testing.T) {
			t.Parallel()
			h := newThread(t)
			state.decide(t, h)
			h.requireWords(t, state.want)
			if state.name == "proposed" {
				return
			}
			if state.name != "approved" {
				h.requireNothingProposed(t)
			}
			if text := h.begin(t).TextOf(t, "main"); strings.Contains(text, "Trying") != (state.table != "") || !strings.Contains(text, state.table) {
				t.Errorf("the page at the table does not say %q: %s", state.table, text)
			}
			if state.table != "" {
				h.playOn(t, strings.TrimSuffix(strings.TrimPrefix(state.table, "Trying "), "."))
			}
		})
	}
}

// playOn records and closes the set that was begun, under a change that is told so,
// and has the coach set another change then.
func (h *thread) playOn(t *testing.T, told string) {
	t.Helper()
	sets, err := h.Store.ListSets(t.Context(), h.StudentActor(0), h.Students[0].ID)
	if err != nil {
		t.Fatal(err)
	}
	for n := range 10 {
		if _, err := h.Store.SaveBreak(t.Context(), h.StudentActor(0), sets[0].ID, storetest.NewBreak(n+1)); err != nil {
			t.Fatal(err)
		}
	}
	h.CloseSet(t, h.StudentActor(0), sets[0].ID, h.load(t).After.Cue.X)
	h.from = sets[0].ID
	arrow := strings.NewReplacer("cue ball 16 in out (about 1¼ diamonds) instead of 18", "cue ball 18 → 16 in out", "cue ball 14 in out (about 1 diamond) instead of 18", "cue ball 18 → 14 in out").Replace(told)
	h.requireWords(t, map[string]string{
		"today": "You are trying " + told + ".", "drill": "You are trying " + told + ".", "student's set": "Not known yet: " + told, "coach's set": "Not known yet: " + told,
		"student": "Being tried: " + told, "decided": "being tried", "class": arrow, "picture": "Odile : C" + arrow[1:] + " being tried out", "report": "Being tried out.",
	})
	if strings.Contains(told, "14") {
		h.requireNothingProposed(t)
	}
	h.chooseOwn(t, "12")
	h.requireWords(t, map[string]string{
		"today": "Cue ball 12 in out (about 1 diamond) instead of " + told[len("cue ball "):len("cue ball 14")], "progress": "a newer change took its place", "student": "a newer change took its place",
		"decided": "a newer change took its place",
	})
	h.coach.Post(t, h.coach.Get(t, "/decided").AttributeOf(t, "main form", "action"), nil).RequireText(t, "[role=status]", "your change is taken back")
	h.requireWords(t, map[string]string{"today": "You are trying " + told + ".", "student": "Being tried: " + told})
}
