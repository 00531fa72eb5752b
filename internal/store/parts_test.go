package store

import (
	"errors"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/google/uuid"

	"breakwright/internal/drill"
	"breakwright/internal/rack"
	"breakwright/internal/table"
)

// A login is one line of at most two hundred letters without spaces around it.
func TestCheckLogin_Limits(t *testing.T) {
	for login, taken := range map[string]bool{
		"ines": true, "Inés the coach": true, strings.Repeat("ü", 200): true, strings.Repeat("ü", 201): false,
		"": false, "  ": false, " ines": false, "ines ": false, "in\nes": false, strings.Repeat("i", 119) + "\n": false,
		strings.Repeat("i", 150) + "\ni": false, strings.Repeat("i", 150) + "\x00i": false, "in\u202ees": false,
	} {
		if says := checkLogin(login); (says == "") != taken {
			t.Errorf("%.20q of %d bytes: %q", login, len(login), says)
		}
	}
}

// A training has from one to fifty breaks, a name and a way to break.
func TestCheckTraining_Limits(t *testing.T) {
	k := table.NineFoot()
	setup := drill.StandardSetup(rack.NineBall, table.Left, k)
	for _, c := range []struct {
		field  string
		change func(*NewSet)
	}{
		{"", func(*NewSet) {}},
		{"", func(s *NewSet) { s.Breaks = 1 }},
		{"breaks", func(s *NewSet) { s.Breaks = 0 }},
		{"", func(s *NewSet) { s.Breaks = 50 }},
		{"breaks", func(s *NewSet) { s.Breaks = 51 }},
		{"training", func(s *NewSet) { s.Training = "" }},
		{"setup", func(s *NewSet) { s.Setup = drill.Setup{} }},
		{"window", func(s *NewSet) { s.Window.Foot = 200 }},
	} {
		start := NewSet{Training: "Before the league", Setup: setup, Window: k.StandardWindow(), Breaks: 10}
		c.change(&start)
		var p drill.Problems
		if err := start.checkTraining(k); c.field == "" && err != nil || c.field != "" && (!errors.As(err, &p) || p.MessageFor(c.field) == "") {
			t.Errorf("%+v: %v, want a word about %q", start, err, c.field)
		}
	}
}

// The set that advice is about goes to the end, wherever it was, with what belongs to it.
func TestHistory_MoveSetLast(t *testing.T) {
	ids := []SetID{{uuid.UUID{1}}, {uuid.UUID{2}}, {uuid.UUID{3}}}
	for _, c := range []struct {
		last SetID
		want string
	}{{ids[0], "bca"}, {ids[1], "acb"}, {ids[2], "abc"}, {SetID{uuid.UUID{9}}, "abc"}} {
		h := History{IDs: slices.Clone(ids), Sets: []drill.Set{{Name: "a"}, {Name: "b"}, {Name: "c"}}, closed: []time.Time{time.Unix(1, 0), time.Unix(2, 0), time.Unix(3, 0)}}
		h.moveSetLast(c.last)
		got := ""
		for i, set := range h.Sets {
			got += set.Name
			if at := int64(set.Name[0] - 'a' + 1); h.closed[i].Unix() != at || h.IDs[i] != ids[at-1] {
				t.Errorf("beside set %s stand %v and %v", set.Name, h.IDs[i], h.closed[i])
			}
		}
		if got != c.want {
			t.Errorf("with %v last: %s, want %s", c.last, got, c.want)
		}
	}
}

// Advice is read by the rules that its version names: those of the club up to a change of
// them, none for the rules as they come, all where nothing is said.
func TestRuleHistory_JudgingByTheVersion(t *testing.T) {
	h := ruleHistory{{Revision: 1, Rule: "unsteady", Line: new(0.3)}, {Revision: 2, Rule: "weak", Line: new(0.4)}}
	for version, want := range map[string]struct{ revision, settings int }{"": {2, 2}, "9": {0, 0}, "9+0": {0, 0}, "9+1": {1, 1}, "9+2": {2, 2}} {
		if got := h.judging(version); got.Revision != want.revision || len(got.Settings) != want.settings {
			t.Errorf("version %q: %+v, want revision %d with %d settings", version, got, want.revision, want.settings)
		}
	}
}

// A set without times begins on the day that it is named by, unless that is still to come.
func TestEstimateStart_OfANamedDay(t *testing.T) {
	now := time.Date(2026, 3, 2, 18, 0, 0, 0, time.UTC)
	seen := time.Date(2026, 2, 1, 9, 30, 0, 0, time.UTC)
	for name, want := range map[string]time.Time{
		"2026-03-01 17:45": time.Date(2026, 3, 1, 17, 45, 0, 0, time.UTC), "2026-03-01 17:45 (2)": time.Date(2026, 3, 1, 17, 45, 0, 0, time.UTC),
		"2026-03-01 17:456": {}, "2026-03-01": {}, "": {}, "2026-03-01 25:45": {}, "2026-03-03 17:45": {},
	} {
		if got := estimateStart(drill.Set{Name: name}, time.UTC, now); !got.Equal(want) {
			t.Errorf("%q begins at %v, want %v", name, got, want)
		}
	}
	timed := drill.Set{Name: "2026-03-01 17:45", Breaks: []drill.Break{{}, {At: seen}}}
	if got := estimateStart(timed, time.UTC, now); !got.Equal(seen) {
		t.Errorf("with a break at %v it begins at %v", seen, got)
	}
}

// What a job says of its failure fits its row.
func TestTruncateFailure_ToWhatARowHolds(t *testing.T) {
	for letters, want := range map[int]int{3999: 3999, 4000: 4000, 4001: 4000, 9000: 4000} {
		says := truncateFailure(strings.Repeat("é", letters))
		if got := len([]rune(says)); got != want || strings.HasSuffix(says, "…") != (letters > 4000) {
			t.Errorf("of %d letters %d are kept, ending with %q", letters, got, says[len(says)-3:])
		}
	}
}

// A set of a log is the one that is there when all of it is the same: its table, setup and
// every break. The speed that was asked for may be another: a log has only measured ones.
func TestSameSet_InAll(t *testing.T) {
	k := table.NineFoot()
	base := func() drill.Set {
		return drill.Set{Table: "North 2", Kind: k, Setup: drill.StandardSetup(rack.NineBall, table.Left, k), Breaks: []drill.Break{
			{Number: 1, WingMiss: drill.MissSideRail, Cue: drill.CueEnd{How: drill.OffTable}}, {Number: 2, Cue: drill.CueEnd{How: drill.OffTable}},
		}}
	}
	for name, c := range map[string]struct {
		same   bool
		change func(*drill.Set)
	}{
		"nothing":       {true, func(*drill.Set) {}},
		"the speed":     {true, func(s *drill.Set) { s.Setup.Speed = 17 }},
		"the table":     {false, func(s *drill.Set) { s.Table = "South" }},
		"the pockets":   {false, func(s *drill.Set) { s.Kind.CornerMouth = 4.25 }},
		"the setup":     {false, func(s *drill.Set) { s.Setup.Cue.X++ }},
		"a break less":  {false, func(s *drill.Set) { s.Breaks = s.Breaks[:1] }},
		"another break": {false, func(s *drill.Set) { s.Breaks[1].WingMiss = drill.MissFootRail }},
	} {
		other := base()
		if c.change(&other); sameSet(base(), other) != c.same || sameSet(other, base()) != c.same {
			t.Errorf("with %s changed the sets are the same: %v", name, !c.same)
		}
	}
}

// What is counted of a break: the wing ball and what it met, the cue ball and what became
// of it. A wing ball that dropped elsewhere was not made, and met nothing that counts; four
// balls to a rail are enough where none drops (WPA rules of play 2016, 2.3).
func TestTallyOf_EachBreak(t *testing.T) {
	k := table.NineFoot()
	s, w := drill.StandardSetup(rack.NineBall, table.Left, k), k.StandardWindow()
	stopped := func(x, y table.Inches) drill.CueEnd {
		return drill.CueEnd{How: drill.Stopped, Place: table.Place{X: x, Y: y}}
	}
	scratched := func(p table.Pocket) drill.CueEnd { return drill.CueEnd{How: drill.Scratched, Scratch: p} }
	wing := func(p table.Pocket) []drill.Pocketed { return []drill.Pocketed{{Ball: s.WingBall(), Pocket: p}} }
	far := stopped(w.Right+5, w.Foot+5)
	for name, c := range map[string]struct {
		b    drill.Break
		want Tally
	}{
		"wing made, cue in the window": {drill.Break{Pocketed: wing(s.WingPocket()), Cue: stopped((w.Left+w.Right)/2, (w.Head+w.Foot)/2)}, Tally{Watched: 1, WingMade: 1, InWindow: 1, WeakKnown: 1}},
		"wing elsewhere":               {drill.Break{Pocketed: wing(table.HeadRight), WingMiss: drill.MissJaws, Cue: far}, Tally{Watched: 1, WeakKnown: 1}},
		"met the side rail, dry":       {drill.Break{WingMiss: drill.MissSideRail, Cue: far}, Tally{Watched: 1, MissSide: 1, Dry: 1}},
		"met the foot rail, dry":       {drill.Break{WingMiss: drill.MissFootRail, Cue: far}, Tally{Watched: 1, MissFoot: 1, Dry: 1}},
		"kissed, dry":                  {drill.Break{WingMiss: drill.MissKissed, Cue: far}, Tally{Watched: 1, MissKissed: 1, Dry: 1}},
		"in the jaws, dry":             {drill.Break{WingMiss: drill.MissJaws, Cue: far}, Tally{Watched: 1, MissJaws: 1, Dry: 1}},
		"scratched at the head, dry":   {drill.Break{WingMiss: drill.MissUnknown, Cue: scratched(table.HeadLeft)}, Tally{Watched: 1, ScratchHead: 1, Dry: 1}},
		"scratched in a side, dry":     {drill.Break{WingMiss: drill.MissUnknown, Cue: scratched(table.SideRight)}, Tally{Watched: 1, ScratchSide: 1, Dry: 1}},
		"scratched at the foot, dry":   {drill.Break{WingMiss: drill.MissUnknown, Cue: scratched(table.FootLeft)}, Tally{Watched: 1, ScratchFoot: 1, Dry: 1}},
		"both off the table":           {drill.Break{WingMiss: drill.MissUnknown, Off: []rack.Ball{3}, Cue: drill.CueEnd{How: drill.OffTable}}, Tally{Watched: 1, CueOff: 1, BallsOff: 1, Dry: 1}},
		"three to a rail, dry":         {drill.Break{WingMiss: drill.MissUnknown, Rails: drill.ObservedCount(3), Cue: far}, Tally{Watched: 1, Dry: 1, Weak: 1, WeakKnown: 1}},
		"four to a rail, dry":          {drill.Break{WingMiss: drill.MissUnknown, Rails: drill.ObservedCount(4), Cue: far}, Tally{Watched: 1, Dry: 1, WeakKnown: 1}},
		"not watched":                  {drill.Break{WingMiss: drill.NotWatched, Rails: drill.ObservedCount(2), Cue: far}, Tally{}},
	} {
		c.want.Breaks = 1
		if got := TallyOf(c.b, s, w); got != c.want {
			t.Errorf("%s: counted %+v, want %+v", name, got, c.want)
		}
	}
}
