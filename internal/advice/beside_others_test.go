package advice

import (
	"testing"

	"breakwright/internal/belief"
	"breakwright/internal/drill"
)

// A page says how many breaks of others were weighed, and not that some were of which no
// use could be made: those that were kept by another version of the model.
func TestJudge_SaysWhatItWeighedBeside(t *testing.T) {
	set := scripted(t, setupAtDistance(12), "sssssssmmm", "brwfrbwrrb")
	others := Show(numberSets(set, set)).TablesPlay(set.Setup)
	foreign := others
	foreign.Departures = append([]int{1}, others.Departures...)
	if others.Breaks != 20 {
		t.Fatalf("twenty breaks are kept as %d", others.Breaks)
	}
	for name, c := range map[string]struct {
		tables drill.TablesPlay
		want   int
	}{
		"others": {others, 20}, "nobody": {drill.TablesPlay{}, 0}, "of another model": {foreign, 0},
	} {
		a := Judge(numberSets(set), Brief{TablesPlay: c.tables})
		if len(a.Causes) != len(belief.Causes()) || a.OthersBreaks != c.want {
			t.Errorf("%s: %d causes beside %d breaks, want %d breaks", name, len(a.Causes), a.OthersBreaks, c.want)
		}
	}
}
