package progress_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"breakwright/internal/evidence"
	"breakwright/internal/progress"
	"breakwright/internal/table"
)

func tens(made ...int) []evidence.Count {
	sets := make([]evidence.Count, len(made))
	for i, m := range made {
		sets[i] = evidence.Count{Made: m, Tried: 10}
	}
	return sets
}

// One bad day is no slump; five poor sets are.
func TestWatch_OneBadDayIsNoSlump(t *testing.T) {
	usual := tens(5, 6, 4, 5, 5, 6, 5, 4, 5, 5)
	for name, c := range map[string]struct {
		more []evidence.Count
		want progress.Trend
	}{
		"one set of nought":        {tens(5, 0, 5, 6), progress.Steady},
		"poor for long":            {tens(5, 3, 2, 3, 1), progress.Falling},
		"poor, and back":           {tens(3, 2, 2, 2, 6, 7, 8, 7, 7, 6), progress.Steady},
		"better for long":          {tens(7, 8, 8, 8), progress.Rising},
		"short sets say nothing":   {append(tens(5, 5, 5), evidence.Count{Tried: 4}, evidence.Count{Tried: 4}, evidence.Count{Tried: 4}), progress.Steady},
		"half sets count the same": {[]evidence.Count{{Made: 1, Tried: 5}, {Made: 1, Tried: 5}, {Made: 1, Tried: 5}, {Made: 1, Tried: 5}, {Made: 0, Tried: 5}}, progress.Falling},
	} {
		chart, ok := progress.ChartSets(append(append([]evidence.Count{}, usual...), c.more...))
		if !ok || chart.CurrentTrend() != c.want {
			t.Errorf("%s: %v, charted %v, want %s", name, chart, ok, c.want)
			continue
		}
		if (c.want == progress.Steady) != (len(chart.TrendPoints()) == 0) {
			t.Errorf("%s: runs since %v", name, chart.TrendPoints())
		}
	}
	if _, ok := progress.ChartSets(tens(1, 2, 3, 4, 5, 6, 7, 8, 9, 10)); ok {
		t.Error("ten sets are charted")
	}
}

// The sums are those of the tabular chart, and the change is placed where the
// sum left nought.
func TestWatch_SumsAndSince(t *testing.T) {
	chart, ok := progress.ChartSets(tens(5, 5, 5, 5, 5, 5, 5, 5, 6, 2, 2, 1, 3))
	if !ok || chart.BaseSets != 8 || chart.Base != (evidence.Count{Made: 40, Tried: 80}) {
		t.Fatalf("the usual is %v of %d sets", chart.Base, chart.BaseSets)
	}
	want := []float64{0, 2, 4, 7, 8} // max(0, S + 5 - 1 - made)
	for i, p := range chart.Points {
		if p.Low != want[i] || p.Set != 8+i {
			t.Errorf("set %d: sum %v, want %v", p.Set, p.Low, want[i])
		}
	}
	since := chart.TrendPoints()
	if len(since) != 4 || progress.SumPoints(since) != (evidence.Count{Made: 8, Tried: 40}) {
		t.Errorf("since %v", since)
	}
}

// What the package says of false alarms and of slumps found.
func TestWatch_HowOftenItSignals(t *testing.T) {
	rng := rand.New(rand.NewPCG(7, 7))
	falling := func(before, after float64, usual int) float64 {
		n, found := 4000, 0
		for range n {
			var sets []evidence.Count
			for i := range usual + progress.WatchedSets {
				rate := before
				if i >= usual {
					rate = after
				}
				made := 0
				for range 10 {
					if rng.Float64() < rate {
						made++
					}
				}
				sets = append(sets, evidence.Count{Made: made, Tried: 10})
			}
			chart, _ := progress.ChartSets(sets)
			for i := range chart.Points {
				if chart.Points[i].Low > progress.SumLimit {
					found++
					break
				}
			}
		}
		return float64(found) / float64(n)
	}
	for _, usual := range []int{8, 20} {
		if got := falling(0.5, 0.5, usual); got > 0.05 || got < 0.01 {
			t.Errorf("with %d usual sets %.3f of steady students signal", usual, got)
		}
		if got := falling(0.5, 0.3, usual); got < 0.74 {
			t.Errorf("with %d usual sets only %.3f of slumps are found", usual, got)
		}
	}
}

// One lucky set does not top the list.
func TestStand_OneLuckySetDoesNotLead(t *testing.T) {
	nine := table.NineFoot()
	members := []progress.CountedMember{
		{nine, evidence.Count{Made: 8, Tried: 10}},   // lucky
		{nine, evidence.Count{Made: 60, Tried: 100}}, // proven
		{nine, evidence.Count{Made: 50, Tried: 100}},
		{nine, evidence.Count{Made: 45, Tried: 100}},
		{nine, evidence.Count{Made: 40, Tried: 100}},
		{nine, evidence.Count{}},
	}
	s := progress.RankMembers(members)
	if s[0].Rate >= s[1].Rate {
		t.Errorf("8 of 10 stands at %.3f before 60 of 100 at %.3f", s[0].Rate, s[1].Rate)
	}
	var counts []evidence.Count
	for _, m := range members {
		counts = append(counts, m.Count)
	}
	fit := evidence.FitPopulation(counts)
	for i, m := range members[:5] {
		between := math.Min(m.Count.Rate(), fit.Mean) <= s[i].Rate && s[i].Rate <= math.Max(m.Count.Rate(), fit.Mean)
		own := fit.Mean + s[i].Weight*(m.Count.Rate()-fit.Mean)
		if !between || math.Abs(own-s[i].Rate) > 1e-12 {
			t.Errorf("member %d stands at %v, the group's mean is %v", i, s[i], fit.Mean)
		}
	}
	if s[5].Group != 1 || s[5].Rate != 0 {
		t.Errorf("who has no break stands %+v", s[5])
	}
}

// Tables with other pockets make another group, the largest first.
func TestStand_OtherPocketsAreAnotherGroup(t *testing.T) {
	tight, wide := table.Kind{Feet: 9, CornerMouth: 4.25, SideMouth: 4.875}, table.NineFoot()
	s := progress.RankMembers([]progress.CountedMember{
		{tight, evidence.Count{Made: 2, Tried: 10}}, {wide, evidence.Count{Made: 5, Tried: 10}},
		{wide, evidence.Count{Made: 6, Tried: 10}}, {tight, evidence.Count{}},
	})
	for i, want := range []int{1, 0, 0, 2} {
		if s[i].Group != want {
			t.Errorf("member %d is in group %d, not %d", i, s[i].Group, want)
		}
	}
	if s[0].Rate != 0.2 {
		t.Errorf("alone on its kind of table a rate is drawn to %v", s[0].Rate)
	}
}
