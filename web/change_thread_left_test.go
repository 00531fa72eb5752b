package web_test

import (
	"net/http"
	"strings"
	"testing"

	"breakwright/internal/drill"
	"breakwright/internal/say"
	"breakwright/internal/store"
	"breakwright/internal/store/storetest"
	"breakwright/internal/table"
)

// leaveForAnother begins a set elsewhere while a change is tried.
func (h *thread) leaveForAnother(t *testing.T, leave func(*testing.T, *thread)) {
	t.Helper()
	first := h.from
	h.playChanged(t, storetest.ProposeMove(-14))
	h.from = first
	leave(t, h)
}

// leaveForTable begins the drill on a bar box.
func leaveForTable(t *testing.T, h *thread) {
	small, err := h.Store.SaveTable(t.Context(), h.Coach, store.Table{Name: "Bar box", Kind: table.SevenFoot()})
	if err != nil {
		t.Fatal(err)
	}
	path := "/today/" + h.Assignment.String()
	h.student.Post(t, path, h.student.Get(t, path+"?table="+small.ID.String()).FormValues(t, "form[method=post]")).RequireStatus(t, http.StatusOK)
}

// leaveForSetup begins a drill of another setup.
func leaveForSetup(t *testing.T, h *thread) {
	other := storetest.StandardDrill()
	other.Name, other.Setup.Cue.X = "Nearer", -10
	path := "/today/" + h.assignNew(t, other).String()
	h.student.Post(t, path, h.student.Get(t, path).FormValues(t, "form[method=post]")).RequireStatus(t, http.StatusOK)
}

// assignNew gives the class another drill.
func (h *thread) assignNew(t *testing.T, d drill.Drill) store.AssignmentID {
	t.Helper()
	saved, err := h.Store.SaveDrill(t.Context(), h.Coach, store.DrillID{}, d)
	if err != nil {
		t.Fatal(err)
	}
	given, err := h.Store.AssignDrill(t.Context(), h.Coach, store.Assignment{Drill: saved.ID, Class: h.Class})
	if err != nil {
		t.Fatal(err)
	}
	return given
}

// leftStates are the ways a change is left before it came to an end.
func leftStates() []threadState {
	var states []threadState
	for why, leave := range map[string]func(*testing.T, *thread){"left for another table": leaveForTable, "left for another setup": leaveForSetup} {
		set := say.Capitalize(changedTo14) + ": " + why
		inReport := map[string]func(*testing.T, *thread){
			say.Capitalize(why) + ".": func(t *testing.T, h *thread) { h.leaveForAnother(t, leave) },
			"To practise next " + set: func(t *testing.T, h *thread) { h.decide(t, "changed", "14"); leave(t, h) }, // before it was played
		}
		for report, arrive := range inReport {
			states = append(states, threadState{name: why, arrive: arrive, want: map[string]string{
				"student's set": set, "coach's set": set, "student": why, "progress": why, "decided": why, "report": report,
				"board": "0 of 10 Wen", "class": ". Wen",
			}})
		}
	}
	return append(states, threadState{name: "left for another setup", arrive: proposeAgainWhatWaits, want: map[string]string{
		"student's set": "Your coach’s decision comes first Proposed then: " + changedTo14, "coach's set": "The coach’s decision comes first Proposed then: " + changedTo14,
		"desk": "Nobody is waiting for you", "student": "left for another setup", "progress": "left for another setup", "decided": "left for another setup",
		"report": "To practise next " + say.Capitalize(changedTo14), "my report": "To practise next " + say.Capitalize(changedTo14), "board": "5 of 10 10 of 10 done Wen",
	}})
}

// proposeAgainWhatWaits plays a change, then a set as a page had it before the change,
// after which the rules ask for the change that the drill tells all the same.
func proposeAgainWhatWaits(t *testing.T, h *thread) {
	path := "/today/" + h.Assignment.String()
	shown := h.student.Get(t, path).FormValues(t, "form[method=post]")
	h.playChanged(t, storetest.ProposeMove(-14))
	h.student.Post(t, path, shown).RequireStatus(t, http.StatusOK)
	h.play(t, storetest.ProposeMove(-14))
}

// A change that is left for another table or another setup is not tried any more, and
// says why; on the table where it was left it is next again.
func TestChangeThread_LeftForAnother(t *testing.T) {
	t.Parallel()
	for _, state := range leftStates() {
		t.Run(state.name, func(t *testing.T) {
			t.Parallel()
			h := newThread(t)
			state.arrive(t, h)
			h.requireWords(t, state.want)
			h.requireNothingProposed(t)
			here := h.visit(t, h.places()["drill"]+"?table="+h.Table.ID.String())
			if want := say.Capitalize(changedTo14) + ": it was " + state.name + ", and is next here again."; !strings.Contains(here, want) {
				t.Errorf("where it was left the drill does not say %q: %s", want, here)
			}
			if !strings.Contains(here, "(14 in) left of the middle") {
				t.Errorf("where it was left the drill is not broken from 14 in: %s", here)
			}
		})
	}
}

// Two drills that tell the very same setup go on from one decision: on Today, on both
// pages, and in the form that begins the set. A drill of another setup does not.
func TestChangeThread_EveryDrillOfTheSetupFollows(t *testing.T) {
	t.Parallel()
	h := newThread(t)
	same, other := storetest.StandardDrill(), storetest.StandardDrill()
	same.Name, other.Name, other.Setup.Cue.X = "The same in twenty", "Nearer", -10
	same.Breaks = 20
	path, elsewhere := "/today/"+h.assignNew(t, same).String(), "/today/"+h.assignNew(t, other).String()
	require := func(path, words string) {
		t.Helper()
		if text := h.visit(t, path); !strings.Contains(text, words) {
			t.Errorf("%s does not say %q: %s", path, words, text)
		}
	}
	require(path, undecided["drill"])
	h.decide(t, "changed", "14")
	require("/today", "as your coach set it. The rules had proposed cue ball 18 → 16 in out (about 1¼ diamonds). Your coach: “A note of the coach.”")
	h.student.Get(t, "/today").RequireText(t, ".news", "Find the wing ball", "The same in twenty")
	require(path, "Cue ball 14 in out (about 1 diamond) instead of 18, as your coach set it.")
	require(path, "(14 in) left of the middle")
	if text := h.visit(t, elsewhere); !strings.Contains(text, "(10 in) left of the middle") || strings.Contains(text, "14 in") {
		t.Errorf("a drill of another setup says: %s", text)
	}
	h.student.Post(t, path, h.student.Get(t, path).FormValues(t, "form[method=post]")).RequireText(t, "main", "Trying "+changedTo14+".")
	h.play(t, storetest.ProposeMove(-14))
	h.requireWords(t, wordsOfInTrial(changedTo14))
	require(path, "You are trying "+changedTo14+".")
}
