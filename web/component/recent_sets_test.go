package component

import (
	"testing"

	"breakwright/internal/progress"
	"breakwright/internal/store"
	"breakwright/internal/table"
)

// What was broken on another kind of table, or without an eye on the wing ball, is no part
// of the chart: rates of different tables say nothing of one another (common practice, no
// source).
func TestChartRecentSets_OfTheLastKindAndWatched(t *testing.T) {
	nine, eight := table.NineFoot(), table.EightFoot()
	set := func(k table.Kind, watched, made int) store.RecentSet {
		return store.RecentSet{ID: store.NewID[store.SetID](), Kind: k, Breaks: 10, Watched: watched, WingMade: made}
	}
	recent := []store.RecentSet{set(eight, 10, 1), set(nine, 0, 0), set(nine, 10, 5)}
	sets, _, ok := ChartRecentSets(recent)
	if len(sets) != 1 || sets[0].ID != recent[2].ID || ok {
		t.Errorf("of two sets of the kind, one watched, are charted %+v, enough: %v", sets, ok)
	}
	for len(recent) < progress.NeededSets+2 {
		recent = append(recent, set(nine, 10, 5))
	}
	sets, chart, ok := ChartRecentSets(recent)
	if len(sets) != progress.NeededSets || !ok || chart.Base.Tried != 10*progress.UsualSets || chart.Base.Made != 5*progress.UsualSets {
		t.Errorf("%d sets are charted, enough: %v, usual %+v", len(sets), ok, chart.Base)
	}
	if sets, _, ok := ChartRecentSets(nil); len(sets) != 0 || ok {
		t.Errorf("of no set are charted %+v", sets)
	}
}
