package component

import (
	"breakwright/internal/evidence"
	"breakwright/internal/progress"
	"breakwright/internal/store"
)

// ChartRecentSets charts the wing ball of a student's latest sets, oldest first, on the
// kind of table of the last of them, and returns the sets that are charted; ok is false
// while there are too few. Those in which the wing ball was not watched are left out.
func ChartRecentSets(recent []store.RecentSet) (sets []store.RecentSet, chart progress.Chart, ok bool) {
	var counts []evidence.Count
	for _, set := range recent {
		if set.Kind == recent[len(recent)-1].Kind && set.Watched > 0 {
			sets = append(sets, set)
			counts = append(counts, evidence.Count{Made: set.WingMade, Tried: set.Watched})
		}
	}
	chart, ok = progress.ChartSets(counts)
	return sets, chart, ok
}
