package web_test

import (
	"encoding/json"
	"maps"
	"net/http"
	"regexp"
	"slices"
	"strings"
	"testing"

	"breakwright/internal/advice"
	"breakwright/internal/coaching"
	"breakwright/internal/say"
	"breakwright/internal/store"
	"breakwright/internal/store/storetest"
	"breakwright/web/webtest"
)

// What is read here is made by the server alone: the scripts of the desk put the
// answered form's page in its place, and those of the phone keep what /sync sends, which
// is held by tests in a browser of web/coach, web/record and web/journey.

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
	h.issueCard(t)
	return h
}

// issueCard gives the student the break card of the latest closed set.
func (h *thread) issueCard(t *testing.T) {
	t.Helper()
	if err := h.Store.IssueCard(t.Context(), h.Coach, store.CardID{}, h.from); err != nil {
		t.Fatal(err)
	}
}

// load reads the latest record of a change that was put to the coach.
func (h *thread) load(t *testing.T) store.Prescription {
	t.Helper()
	all, err := h.Store.ListPrescriptions(t.Context(), h.Coach, h.Students[0].ID)
	all = slices.DeleteFunc(all, func(p store.Prescription) bool { return p.Because == coaching.CoachWaits })
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
		"class report": "/classes/" + h.Class.String() + "/report", "my report": "/my/report", "file": "/my/export",
		"board": "/classes/" + h.Class.String() + "/live", "card": "/students/" + person + "/card", "my card": "/my/card",
	}
}

// isOfStudent reports whether a place is the student's.
func isOfStudent(path string) bool {
	return strings.HasPrefix(path, "/today") || strings.HasPrefix(path, "/my/")
}

// visit reads a place as the one whose it is.
func (h *thread) visit(t *testing.T, path string) string {
	t.Helper()
	who := h.coach
	if isOfStudent(path) {
		who = h.student
	}
	p := who.Get(t, path).RequireStatus(t, http.StatusOK)
	if path == "/my/export" {
		return p.Text
	}
	return p.TextOf(t, "main")
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

// beforePlayed adds to what places say of a change what the board, the class and the break
// card say until it is played: what was broken, and nothing of the change. The next
// student's name shows where a row ends.
func beforePlayed(want map[string]string) map[string]string {
	all := map[string]string{
		"board": "5 of 10 10 of 10 done Wen", "class": "One change proposed. Wen", "card": "(18 in) left of the middle", "my card": "(18 in) left of the middle",
	}
	maps.Copy(all, want)
	return all
}

// undecided is what each place says of a proposal that waits.
var undecided = beforePlayed(map[string]string{
	"today":         "Proposed to your coach: cue ball 16 in out (about 1¼ diamonds) instead of 18. Until your coach has decided, the drill stays as it is.",
	"drill":         "Proposed to your coach: cue ball 16 in out (about 1¼ diamonds) instead of 18.",
	"student's set": "The same setup for now", "coach's set": "Proposed: cue ball 16 in out (about 1¼ diamonds) instead of 18", "student": "Next Proposed: cue ball 16 in out (about 1¼ diamonds) instead of 18",
	"desk": "Prescriptions to decide on", "decided": "No change was decided on", "progress": "proposed, not decided", "report": "The same setup, until the coach has decided", "my report": "The same setup, until your coach has decided Proposed to your coach: cue ball 16 in out",
})

// threadState is how far a change has come, and what each place says then. What is read
// here from the server is read in a browser too (change_thread_browser_test.go).
type threadState struct {
	name   string
	arrive func(*testing.T, *thread)
	want   map[string]string
	table  string // what is said at the table
}

// decisionStates are the ways a change goes until the next set.
var decisionStates = []threadState{
	{"proposed", func(*testing.T, *thread) {}, undecided, ""},
	{"reopened", func(t *testing.T, h *thread) {
		h.decide(t, "changed", "14")
		h.coach.Post(t, "/prescriptions/"+h.change.ID.String()+"/reopen", nil).RequireText(t, "[role=status]", "taken back")
	}, undecided, ""},
	{"approved", func(t *testing.T, h *thread) { h.decide(t, "approved", "") }, beforePlayed(map[string]string{
		"today": "New since last time: Cue ball 16 in out (about 1¼ diamonds) instead of 18", "drill": "Cue ball 16 in out (about 1¼ diamonds) instead of 18.",
		"student's set": "Change one thing: cue ball 16 in out (about 1¼ diamonds) instead of 18", "coach's set": "Approved: cue ball 16 in out (about 1¼ diamonds) instead of 18",
		"student": "Next Approved: cue ball 16 in out (about 1¼ diamonds) instead of 18", "desk": "Nobody is waiting for you", "decided": "Cue ball 18 → 16 in out (about 1¼ diamonds), as proposed.",
		"progress": "approved, not played yet", "report": "Approved: cue ball 16 in out (about 1¼ diamonds) instead of 18",
		"my report": "Change one thing: cue ball 16 in out (about 1¼ diamonds) instead of 18", "file": "approved wing-miss-balance cue_x=-16",
	}), "Trying cue ball 16 in out (about 1¼ diamonds) instead of 18."},
	{"changed", func(t *testing.T, h *thread) { h.decide(t, "changed", "14") }, beforePlayed(map[string]string{
		"today": "New since last time: Cue ball 14 in out (about 1 diamond) instead of 18, as your coach set it.", "drill": "Cue ball 14 in out (about 1 diamond) instead of 18, as your coach set it.",
		"student's set": "Your coach’s change: cue ball 14 in out (about 1 diamond) instead of 18", "coach's set": "The coach’s change: cue ball 14 in out (about 1 diamond) instead of 18",
		"student": "Next The coach’s change: cue ball 14 in out (about 1 diamond) instead of 18", "desk": "Nobody is waiting for you", "progress": "changed by the coach, not played yet",
		"decided": "The rules proposed cue ball 18 → 16 in out (about 1¼ diamonds); the coach set cue ball 18 → 14 in out (about 1 diamond).", "report": "The coach’s change: cue ball 14 in out (about 1 diamond) instead of 18",
		"my report": "Your coach’s change: cue ball 14 in out (about 1 diamond) instead of 18", "file": "changed wing-miss-balance cue_x=-14",
	}), "Trying cue ball 14 in out (about 1 diamond) instead of 18."},
	{"declined", func(t *testing.T, h *thread) { h.decide(t, "declined", "") }, beforePlayed(map[string]string{
		"today":         "New since last time: The setup stays as it was: your coach looked at cue ball 16 in out (about 1¼ diamonds) instead of 18 and left it.",
		"drill":         "The setup stays as it was",
		"student's set": "The same setup again The rules proposed cue ball 18 → 16 in out (about 1¼ diamonds); your coach left the setup as it was.",
		"coach's set":   "The same setup again The rules proposed cue ball 18 → 16 in out (about 1¼ diamonds); the coach left the setup as it was.",
		"desk":          "Nobody is waiting for you", "decided": "the coach left the setup as it was", "student": "the coach left the setup as it was",
		"progress": "your coach left the setup as it was", "report": "The same setup again",
		"my report": "The same setup again The rules proposed cue ball 18 → 16 in out (about 1¼ diamonds); your coach left the setup as it was.", "file": "declined wing-miss-balance",
	}), ""},
	{"the coach's own", func(t *testing.T, h *thread) { h.chooseOwn(t, "14") }, beforePlayed(map[string]string{
		"today": "New since last time: Cue ball 14 in out (about 1 diamond) instead of 18, as your coach set it.", "drill": "Cue ball 14 in out (about 1 diamond) instead of 18, as your coach set it.",
		"student's set": "Your coach’s change: cue ball 14 in out (about 1 diamond) instead of 18", "coach's set": "The coach’s change: cue ball 14 in out (about 1 diamond) instead of 18",
		"student": "Next The coach’s change: cue ball 14 in out (about 1 diamond) instead of 18", "desk": "Nobody is waiting for you", "decided": "Cue ball 18 → 14 in out (about 1 diamond), set by the coach.",
		"progress": "a newer change took its place Proposed: cue ball 18 → 16 in out (about 1¼ diamonds).", "report": "The coach’s change: cue ball 14 in out (about 1 diamond) instead of 18",
		"my report": "Your coach’s change: cue ball 14 in out (about 1 diamond) instead of 18", "file": "own cue_x=-14",
	}), "Trying cue ball 14 in out (about 1 diamond) instead of 18."},
	{"changed, and broken as an older page had it", func(t *testing.T, h *thread) { playOlderPage(t, h, storetest.ProposeMove(-16)) }, beforePlayed(map[string]string{
		"today": "Cue ball 14 in out (about 1 diamond) instead of 18, as your coach set it.", "drill": "Cue ball 14 in out (about 1 diamond) instead of 18, as your coach set it.",
		"student's set": "Your coach’s decision comes first Proposed then: cue ball 16 in out", "coach's set": "The coach’s decision comes first Proposed then: cue ball 16 in out",
		"student": "Next The coach’s change: cue ball 14 in out (about 1 diamond) instead of 18", "progress": "Your coach’s change: cue ball 14 in out (about 1 diamond) instead of 18",
		"decided": "the coach set cue ball 18 → 14 in out (about 1 diamond). “A note of the coach.” not played yet", "report": "The coach’s change: cue ball 14 in out (about 1 diamond) instead of 18",
		"my report": "Your coach’s change: cue ball 14 in out (about 1 diamond) instead of 18", "file": ",earlier cue_x=-14",
	}), "Trying cue ball 14 in out (about 1 diamond) instead of 18."},
	{"changed, and an older page's set asks for nothing", func(t *testing.T, h *thread) { playOlderPage(t, h, storetest.ProposeMove(-18)) }, beforePlayed(map[string]string{
		"today": "Cue ball 14 in out (about 1 diamond) instead of 18, as your coach set it.", "drill": "Cue ball 14 in out (about 1 diamond) instead of 18, as your coach set it.",
		"student's set": "Your coach’s decision comes first Cue ball 14 in out (about 1 diamond) instead of 18.", "coach's set": "The coach’s decision comes first Cue ball 14 in out (about 1 diamond) instead of 18.",
		"student": "Next The coach’s change: cue ball 14 in out (about 1 diamond) instead of 18", "progress": "Your coach’s change: cue ball 14 in out (about 1 diamond) instead of 18",
		"my report": "Your coach’s change: cue ball 14 in out (about 1 diamond) instead of 18", "report": "The coach’s change: cue ball 14 in out (about 1 diamond) instead of 18", "file": ",earlier cue_x=-14",
		"class": "Too early to say. Wen",
	}), "Trying cue ball 14 in out (about 1 diamond) instead of 18."},
}

// playOlderPage has the coach set a change while the drill's page is open, and plays the
// set that this page begins: at the setup that it showed.
func playOlderPage(t *testing.T, h *thread, judge store.Judge) {
	path := "/today/" + h.Assignment.String()
	shown := h.student.Get(t, path).FormValues(t, "form[method=post]")
	h.decide(t, "changed", "14")
	h.student.Post(t, path, shown).RequireStatus(t, http.StatusOK)
	h.play(t, judge)
}

// From the proposal to the result, both sides read the same truth in every place:
// what was set and played.
func TestChangeThread_EveryPlaceSaysWhatWasSet(t *testing.T) {
	t.Parallel()
	for _, state := range decisionStates {
		t.Run(state.name, func(t *testing.T) {
			t.Parallel()
			h := newThread(t)
			state.arrive(t, h)
			h.requireWords(t, state.want)
			if h.load(t).State == store.Proposed {
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

// play records the ten breaks of the set that was begun and closes it.
func (h *thread) play(t *testing.T, judge store.Judge) {
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
	if err := h.Store.CloseSet(t.Context(), h.StudentActor(0), sets[0].ID, judge); err != nil {
		t.Fatal(err)
	}
	h.from = sets[0].ID
	h.issueCard(t)
}

// wordsOfInTrial is what each place says of a change in trial that is told so.
func wordsOfInTrial(instructed string) map[string]string {
	place := instructed[len("cue ball "):len("cue ball 14 in")]
	arrow := strings.NewReplacer("16 in out (about 1¼ diamonds) instead of 18", "18 → 16 in out (about 1¼ diamonds)", "14 in out (about 1 diamond) instead of 18", "18 → 14 in out (about 1 diamond)").Replace(instructed)
	return map[string]string{
		"today": "You are trying " + instructed + ".", "drill": "You are trying " + instructed + ".", "student's set": "Not known yet: " + instructed, "coach's set": "Not known yet: " + instructed,
		"student": "Being tried: " + instructed, "decided": "being tried", "class": "being tried: " + arrow + " Wen", "picture": "Odile : C" + arrow[1:] + " being tried out", "report": "Being tried out.",
		"class report": arrow, "my report": "Being tried out.", "board": "5 of 10 10 of 10 done Wen", "card": "(" + place + ") left of the middle", "my card": "(" + place + ") left of the middle",
	}
}

// playOn records and closes the set that was begun, under a change that is told so,
// and has the coach set another change then.
func (h *thread) playOn(t *testing.T, instructed string) {
	t.Helper()
	h.play(t, storetest.ProposeMove(h.load(t).After.Cue.X))
	h.requireWords(t, wordsOfInTrial(instructed))
	if strings.Contains(instructed, "14") {
		h.requireNothingProposed(t)
	}
	h.chooseOwn(t, "12")
	instead := "Cue ball 12 in out (about 1 diamond) instead of 16"
	if strings.Contains(instructed, "14") { // as many diamonds
		instead = "Cue ball 12 in out instead of 14"
	}
	h.requireWords(t, map[string]string{
		"today": instead, "progress": "a newer change took its place", "student": "a newer change took its place",
		"decided": "a newer change took its place",
	})
	h.coach.Post(t, h.coach.Get(t, "/decided").AttributeOf(t, "main form", "action"), nil).RequireText(t, "[role=status]", "your change is taken back")
	h.requireWords(t, map[string]string{"today": "You are trying " + instructed + ".", "student": "Being tried: " + instructed})
}

// judgeInTrial closes the set of a trial with what came of it.
func judgeInTrial(t *testing.T, outcome store.State) store.Judge {
	t.Helper()
	counts := coaching.Counts{Measure: "wing ball", Before: 5, OfBefore: 10, Since: 7, OfSince: 20}
	text, err := json.Marshal(advice.Advice{Verdict: advice.More, FollowUp: &advice.FollowUp{
		Measure: counts.Measure, CountBefore: counts.Before, OfBefore: counts.OfBefore, CountAfter: counts.Since, OfAfter: counts.OfSince,
		Outcome: advice.Outcome(outcome),
	}})
	if err != nil {
		t.Fatal(err)
	}
	return func(store.Case) (store.Judgement, error) {
		return store.Judgement{Verdict: "more", JSON: text, RulesVersion: "1", Outcome: outcome, Counts: counts}, nil
	}
}

// stillTried is what is said of a change in trial, in whatever words.
var stillTried = regexp.MustCompile(`(?i)being tried|in trial:|you are trying|not known yet`)

// namesOfInTrial are the labels under which a trial stands, or none does.
var namesOfInTrial = strings.NewReplacer("what is being tried", "", "Set by set Being tried", "")

// requireNothingTried looks at every place: a change that has come to its end is tried
// nowhere.
func (h *thread) requireNothingTried(t *testing.T) {
	t.Helper()
	for place, path := range h.places() {
		if found := stillTried.FindString(namesOfInTrial.Replace(h.visit(t, path))); found != "" {
			t.Errorf("%s still says %q", place, found)
		}
	}
}

// changedTo14 is how the coach's change is told in the states that follow.
const changedTo14 = "cue ball 14 in out (about 1 diamond) instead of 18"

// The note of a decision that was taken back is told nowhere; the desk's field keeps it
// for the next.
func TestChangeThread_ANoteTakenBackIsNotTold(t *testing.T) {
	t.Parallel()
	h := newThread(t)
	h.decide(t, "changed", "14")
	h.coach.Post(t, "/prescriptions/"+h.change.ID.String()+"/reopen", nil).RequireText(t, "[role=status]", "taken back")
	for place, path := range h.places() {
		if says := h.visit(t, path); place != "desk" && strings.Contains(says, "A note of the coach.") {
			t.Errorf("%s tells it: %s", place, says)
		}
	}
	h.coach.Get(t, "/desk").RequireText(t, "textarea[name=note]", "A note of the coach.")
}

// playChanged decides on 14 in out, begins under it, and closes that set.
func (h *thread) playChanged(t *testing.T, judge store.Judge) {
	t.Helper()
	h.decide(t, "changed", "14")
	h.begin(t)
	h.play(t, judge)
}

// resultStates are the ways a change goes from the first set under it.
func resultStates() []threadState {
	states := []threadState{{name: "in trial", want: wordsOfInTrial(changedTo14), arrive: func(t *testing.T, h *thread) {
		h.playChanged(t, storetest.ProposeMove(-14))
	}}}
	for outcome, words := range map[store.State]string{store.Helped: "it helped", store.NoDifference: "no real difference", store.Hurt: "it hurt"} {
		const counts = "Wing ball: 5 of 10 before, then 7 of 20."
		first := say.Capitalize(words) + ": " + changedTo14
		states = append(states, threadState{name: string(outcome), arrive: func(t *testing.T, h *thread) { h.playChanged(t, judgeInTrial(t, outcome)) }, want: map[string]string{
			"today": "Last change: " + changedTo14 + ": " + words + ". " + counts, "drill": "Last change: " + changedTo14 + ": " + words + ". " + counts,
			"student's set": first, "coach's set": first, "student": first, "progress": words, "decided": words,
			"picture": "Cue ball 18 → 14 in out (about 1 diamond) " + words, "report": counts, "my report": counts,
			"board": "5 of 10 10 of 10 done Wen", "class": "Too early to say. Wen", "card": "(14 in) left of the middle", "my card": "(14 in) left of the middle",
		}})
	}
	return states
}

// What came of a change is said of what was set and played, with its counts, in every
// place.
func TestChangeThread_EveryPlaceSaysWhatCameOfIt(t *testing.T) {
	t.Parallel()
	for _, state := range resultStates() {
		t.Run(state.name, func(t *testing.T) {
			t.Parallel()
			h := newThread(t)
			state.arrive(t, h)
			h.requireWords(t, state.want)
			if h.load(t).State.IsOutcome() {
				h.requireNothingTried(t)
			}
			h.requireNothingProposed(t)
		})
	}
}
