package whatif

import (
	"testing"

	"breakwright/internal/drill"
	"breakwright/internal/rack"
	"breakwright/internal/table"
)

// set is n breaks under a setup; what is in them does not matter here.
func set(s drill.Setup, n int) drill.Set {
	breaks := make([]drill.Break, n)
	for i := range breaks {
		breaks[i] = drill.Break{Number: i + 1, Cue: drill.CueEnd{How: drill.Stopped, Place: table.Place{Y: table.Inches(i)}}}
	}
	return drill.Set{Table: "North 2", Kind: table.NineFoot(), Setup: s, Breaks: breaks}
}

func TestRecent_TakesTheNewestUntilThereAreEnough(t *testing.T) {
	usual := drill.StandardSetup(rack.NineBall, table.Left, table.NineFoot())
	at := func(x table.Inches) drill.Setup { s := usual; s.Cue.X = x; return s }
	odd := usual
	odd.Tip = 0.8
	for name, c := range map[string]struct {
		sets []drill.Set
		want []int // breaks of each setup, the newest first
	}{
		"nothing":                   {nil, nil},
		"one stint of two sets":     {[]drill.Set{set(usual, 10), set(usual, 5)}, []int{15}},
		"older ones fill up":        {[]drill.Set{set(at(-10), 30), set(usual, 10)}, []int{10, 30}},
		"enough is enough":          {[]drill.Set{set(at(-10), 30), set(usual, 60)}, []int{60}},
		"three setups at most":      {[]drill.Set{set(at(-8), 5), set(at(-10), 5), set(at(-12), 5), set(usual, 5)}, []int{5, 5, 5}},
		"a setup tried twice":       {[]drill.Set{set(usual, 10), set(at(-10), 10), set(usual, 7)}, []int{17, 10}},
		"not from the other side":   {[]drill.Set{set(usual.Mirror(), 20), set(usual, 10)}, []int{10}},
		"not what cannot be fitted": {[]drill.Set{set(usual, 10), set(odd, 20)}, []int{10}},
	} {
		got := listRecentStints(c.sets)
		if len(got) != len(c.want) {
			t.Errorf("%s: %d setups, want %d", name, len(got), len(c.want))
			continue
		}
		for i, want := range c.want {
			if len(got[i].Breaks) != want {
				t.Errorf("%s: %d breaks of setup %d, want %d", name, len(got[i].Breaks), i, want)
			}
		}
	}
}

// A fit is told from another by what it looks at, and by nothing else.
func TestFitTask_Key(t *testing.T) {
	usual := drill.StandardSetup(rack.NineBall, table.Left, table.NineFoot())
	key := func(change func(*drill.Set)) string {
		s := set(usual, 3)
		change(&s)
		return handsFitTask{stints: listRecentStints([]drill.Set{s})}.Key()
	}
	same := key(func(*drill.Set) {})
	for name, c := range map[string]struct {
		change func(*drill.Set)
		other  bool
	}{
		"a note":             {func(s *drill.Set) { s.Breaks[0].Note = "tired" }, false},
		"counted rails":      {func(s *drill.Set) { s.Breaks[0].Rails = drill.ObservedCount(4) }, false},
		"a way":              {func(s *drill.Set) { s.Breaks[0].CuePath = drill.PathBack }, true},
		"a miss":             {func(s *drill.Set) { s.Breaks[0].WingMiss = drill.MissKissed }, true},
		"a place":            {func(s *drill.Set) { s.Breaks[0].Cue.Place.X = 3 }, true},
		"a ball":             {func(s *drill.Set) { s.Breaks[0].Pocketed = []drill.Pocketed{{Ball: 8, Pocket: table.FootLeft}} }, true},
		"a break less":       {func(s *drill.Set) { s.Breaks = s.Breaks[:2] }, true},
		"another setup":      {func(s *drill.Set) { s.Setup.Tip = 0 }, true},
		"a table's new name": {func(s *drill.Set) { s.Table = "South" }, false},
	} {
		if got := key(c.change); (got != same) != c.other {
			t.Errorf("%s: key %s, without it %s", name, got, same)
		}
	}
	left, right := recentStint{Setup: usual, Kind: table.NineFoot()}, recentStint{Setup: usual.Mirror(), Kind: table.NineFoot()}
	if bankCacheKey(left) != bankCacheKey(right) {
		t.Error("from the right other banks are computed")
	}
}
