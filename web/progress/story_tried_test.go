package progress

import (
	"slices"
	"testing"
	"time"

	"breakwright/internal/coaching"
	"breakwright/internal/drill"
	"breakwright/internal/rack"
	"breakwright/internal/say"
	"breakwright/internal/store"
	"breakwright/internal/table"
	"breakwright/web/picture"
)

// stintOn is a stint on a table with the cue ball so far out.
func stintOn(where store.Table, out table.Inches, changes ...store.Prescription) store.ProgressStint {
	s := drill.StandardSetup(rack.NineBall, table.Left, where.Kind)
	s.Cue.X = -out
	return store.ProgressStint{Stint: store.Stint{ID: store.NewID[store.StintID](), Table: where, Setup: s}, Changes: changes}
}

// A set on another table in between hides no change, and what came of it is said.
func TestTried_AnotherTableInBetween(t *testing.T) {
	north := store.Table{ID: store.NewID[store.TableID](), Name: "North", Kind: table.NineFoot()}
	south := store.Table{ID: store.NewID[store.TableID](), Name: "South", Kind: table.NineFoot()}
	bar := store.Table{ID: store.NewID[store.TableID](), Name: "Bar box", Kind: table.SevenFoot()}
	first := stintOn(north, 18)
	moved := first.Setup
	moved.Cue.X = -22
	first.Changes = []store.Prescription{{
		Kind: north.Kind, Proposal: store.Proposal{Setup: moved}, Before: first.Setup, After: moved, State: coaching.Helped, Decision: coaching.Approved,
	}}
	history := store.StudentProgress{Stints: []store.ProgressStint{ // the newest first
		stintOn(north, 20), stintOn(north, 22), stintOn(bar, 14), stintOn(south, 22), stintOn(bar, 14), first,
	}}
	v := Story{Units: say.InchesAndMiles}
	tried := v.buildTried(history, time.UTC)
	var words []string
	for _, row := range tried.Rows {
		words = append(words, row.Words)
	}
	want := []string{
		"Cue ball 22 → 20 in out (about 1½ diamonds)", "On North", "On Bar box",
		"On South, cue ball 18 → 22 in out (about 1¾ diamonds)", "On Bar box", "First setup",
	}
	if !slices.Equal(words, want) {
		t.Errorf("tried %q, want %q", words, want)
	}
	if row := tried.Rows[3]; row.Outcome != picture.TriedHelped || row.OutcomeWords != "it helped" {
		t.Errorf("what came of it: %v %q", row.Outcome, row.OutcomeWords)
	}
	for i, want := range map[int][]string{
		1: {"Another table: North"}, 2: {"Another table: Bar box"},
		3: {"Another table: South", "Cue ball: about 1½ diamonds (18 in) left of the middle, on the head string → about 1¾ diamonds (22 in) left of the middle, on the head string"},
	} {
		if parts := changedParts(history.Stints[i+1:], history.Stints[i], v.Units); !slices.Equal(parts, want) {
			t.Errorf("stint %d: %q, want %q", i, parts, want)
		}
	}
}

// Without counts in its record a change is told by the wing balls that were watched, and
// not at all where nobody watched them.
func TestWingEffectWords_OfTheWatched(t *testing.T) {
	north := store.Table{ID: store.NewID[store.TableID](), Kind: table.NineFoot()}
	for _, c := range []struct {
		before, after store.Tally
		want          string
	}{
		{store.Tally{Breaks: 10, Watched: 10, WingMade: 2}, store.Tally{Breaks: 10, Watched: 8, WingMade: 6}, "Wing ball in its corner: 2 of 10 before, then 6 of 8."},
		{store.Tally{Breaks: 10}, store.Tally{Breaks: 10, Watched: 10, WingMade: 6}, ""},
		{store.Tally{Breaks: 10, Watched: 10}, store.Tally{Breaks: 10}, ""},
	} {
		from, to := stintOn(north, 18), stintOn(north, 22)
		from.Tally, to.Tally = c.before, c.after
		if says := wingEffectWords(store.Prescription{After: to.Setup}, from, []store.ProgressStint{to}); says != c.want {
			t.Errorf("%+v, then %+v: %q, want %q", c.before, c.after, says, c.want)
		}
	}
}
