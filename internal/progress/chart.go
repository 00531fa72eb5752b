package progress

import "breakwright/internal/evidence"

// The chart adds up how far sets fall short of, or pass, what was usual before
// them (the tabular cumulative sum of Page 1954; NIST/SEMATECH e-Handbook
// 6.3.2.3). A make of ten either way is taken for nothing; a sum above Limit
// signals. With the usual rate known from 8 to 20 sets, about three in a hundred
// steady students signal within the ten sets watched, and four in five of those
// whose rate fell from a half to three of ten (a test simulates both).
const (
	SumSlack = 1.0
	SumLimit = 6.0
	// WatchedSets is how many of the latest sets are watched, and UsualSets how many
	// before them are needed to know what is usual.
	WatchedSets = 10
	UsualSets   = 8
	// FewestBreaks is how few breaks a set may have and still be charted.
	FewestBreaks = 5
)

// NeededSets is how many sets it takes before anything is charted.
const NeededSets = UsualSets + 3

// Chart is a student's latest sets against their own usual.
type Chart struct {
	// Base counts the sets before those watched; BaseSets is how many they are.
	Base     evidence.Count
	BaseSets int
	// Points are the sets watched, oldest first.
	Points []ChartPoint
}

// ChartPoint is a set that is watched, with the sums after it.
type ChartPoint struct {
	// Set is the set's index among those given to Watch.
	Set int
	evidence.Count
	Low, High float64
}

// Trend is what a chart says now.
type Trend string

// The courses.
const (
	Steady  Trend = "steady" // nothing that luck would not do
	Falling Trend = "falling"
	Rising  Trend = "rising"
)

// ChartSets charts sets, oldest first, and returns false while there are fewer than
// NeededSets of them. Sets of fewer than FewestBreaks breaks are passed over.
func ChartSets(sets []evidence.Count) (Chart, bool) {
	var used []int
	for i, set := range sets {
		if set.Tried >= FewestBreaks {
			used = append(used, i)
		}
	}
	if len(used) < NeededSets {
		return Chart{}, false
	}
	watched := min(WatchedSets, len(used)-UsualSets)
	c := Chart{BaseSets: len(used) - watched}
	for _, i := range used[:c.BaseSets] {
		c.Base.Made += sets[i].Made
		c.Base.Tried += sets[i].Tried
	}
	rule, sums := c.sumRule(), evidence.CUSUMSums{}
	for _, i := range used[c.BaseSets:] {
		sums = rule.NextSums(sums, makesPerTen(sets[i]))
		c.Points = append(c.Points, ChartPoint{Set: i, Count: sets[i], Low: sums.Low, High: sums.High})
	}
	return c, true
}

func (c Chart) sumRule() evidence.CUSUM {
	return evidence.CUSUM{Target: makesPerTen(c.Base), K: SumSlack, H: SumLimit}
}

func makesPerTen(n evidence.Count) float64 { return 10 * n.Rate() }

// CurrentTrend reports whether a sum is beyond the limit now. One that was and has come
// back to nought is steady again.
func (c Chart) CurrentTrend() Trend {
	last := c.Points[len(c.Points)-1]
	switch {
	case c.signalled(func(p ChartPoint) float64 { return p.Low }, last.Low):
		return Falling
	case c.signalled(func(p ChartPoint) float64 { return p.High }, last.High):
		return Rising
	}
	return Steady
}

// signalled: the sum went beyond the limit and has not been nought since.
func (c Chart) signalled(sum func(ChartPoint) float64, last float64) bool {
	for i := len(c.Points) - 1; i >= 0 && last > 0; i-- {
		last = sum(c.Points[i])
		if last > SumLimit {
			return true
		}
	}
	return false
}

// TrendPoints returns the sets since which the course runs: those after the sum was last
// nought. None when steady.
func (c Chart) TrendPoints() []ChartPoint {
	sum := func(p ChartPoint) float64 { return p.Low }
	switch c.CurrentTrend() {
	case Steady:
		return nil
	case Rising:
		sum = func(p ChartPoint) float64 { return p.High }
	}
	first := len(c.Points)
	for first > 0 && sum(c.Points[first-1]) > 0 {
		first--
	}
	return c.Points[first:]
}

// SumPoints adds the counts of points.
func SumPoints(points []ChartPoint) evidence.Count {
	var n evidence.Count
	for _, p := range points {
		n.Made += p.Made
		n.Tried += p.Tried
	}
	return n
}
