package progress

import "breakwright/internal/evidence"

// The chart adds up how far sets fall short of, or pass, what was usual before
// them (the tabular cumulative sum of Page 1954; NIST/SEMATECH e-Handbook
// 6.3.2.3). A make of ten either way is taken for nothing; a sum above Limit
// signals. With the usual rate known from 8 to 20 sets, about three in a hundred
// steady students signal within the ten sets watched, and four in five of those
// whose rate fell from a half to three of ten (a test simulates both).
const (
	Slack = 1.0
	Limit = 6.0
	// Watched is how many of the latest sets are watched, and Usual how many
	// before them are needed to know what is usual.
	Watched = 10
	Usual   = 8
	// Fewest is how few breaks a set may have and still be charted.
	Fewest = 5
)

// Needed is how many sets it takes before anything is charted.
const Needed = Usual + 3

// Chart is a student's latest sets against their own usual.
type Chart struct {
	// Base counts the sets before those watched; BaseSets is how many they are.
	Base     evidence.Count
	BaseSets int
	// Points are the sets watched, oldest first.
	Points []Point
}

// Point is a set that is watched, with the sums after it.
type Point struct {
	// Set is the set's index among those given to Watch.
	Set int
	evidence.Count
	Low, High float64
}

// Course is what a chart says now.
type Course string

// The courses.
const (
	Steady  Course = "steady" // nothing that luck would not do
	Falling Course = "falling"
	Rising  Course = "rising"
)

// Watch charts sets, oldest first, and gives false while there are fewer than
// Needed of them. Sets of fewer than Fewest breaks are passed over.
func Watch(sets []evidence.Count) (Chart, bool) {
	var used []int
	for i, set := range sets {
		if set.Tried >= Fewest {
			used = append(used, i)
		}
	}
	if len(used) < Needed {
		return Chart{}, false
	}
	watched := min(Watched, len(used)-Usual)
	c := Chart{BaseSets: len(used) - watched}
	for _, i := range used[:c.BaseSets] {
		c.Base.Made += sets[i].Made
		c.Base.Tried += sets[i].Tried
	}
	rule, sums := c.rule(), evidence.Sums{}
	for _, i := range used[c.BaseSets:] {
		sums = rule.Next(sums, ofTen(sets[i]))
		c.Points = append(c.Points, Point{Set: i, Count: sets[i], Low: sums.Low, High: sums.High})
	}
	return c, true
}

func (c Chart) rule() evidence.CUSUM {
	return evidence.CUSUM{Target: ofTen(c.Base), K: Slack, H: Limit}
}

func ofTen(n evidence.Count) float64 { return 10 * n.Rate() }

// Course says whether a sum is beyond the limit now. One that was and has come
// back to nought is steady again.
func (c Chart) Course() Course {
	last := c.Points[len(c.Points)-1]
	switch {
	case c.signalled(func(p Point) float64 { return p.Low }, last.Low):
		return Falling
	case c.signalled(func(p Point) float64 { return p.High }, last.High):
		return Rising
	}
	return Steady
}

// signalled: the sum went beyond the limit and has not been nought since.
func (c Chart) signalled(sum func(Point) float64, last float64) bool {
	for i := len(c.Points) - 1; i >= 0 && last > 0; i-- {
		last = sum(c.Points[i])
		if last > Limit {
			return true
		}
	}
	return false
}

// Since gives the sets since which the course runs: those after the sum was last
// nought. None when steady.
func (c Chart) Since() []Point {
	sum := func(p Point) float64 { return p.Low }
	switch c.Course() {
	case Steady:
		return nil
	case Rising:
		sum = func(p Point) float64 { return p.High }
	}
	first := len(c.Points)
	for first > 0 && sum(c.Points[first-1]) > 0 {
		first--
	}
	return c.Points[first:]
}

// Sum adds the counts of points.
func Sum(points []Point) evidence.Count {
	var n evidence.Count
	for _, p := range points {
		n.Made += p.Made
		n.Tried += p.Tried
	}
	return n
}
