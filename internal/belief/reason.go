package belief

import (
	"slices"

	"breakwright/internal/response"
)

// Reason is one outcome that speaks for a cause and against all others.
type Reason struct {
	Fact    response.Fact
	Outcome int // of the fact; -1 for one derived from it
	// Decibans is how much it speaks: ten make the cause ten times as likely
	// beside the others (Good 1985).
	Decibans float64
}

const decibansPerNat = 4.342944819032518

// Reasons gives what was seen that speaks most for a cause, against all others
// together, the weightiest first; outcomes that speak against it are left out.
func (s *Student) Reasons(cause Cause) []Reason {
	var inside, outside float64
	for i, w := range s.handWeights() {
		if cloud[i].Cause == cause {
			inside += w
		} else {
			outside += w
		}
	}
	if inside == 0 || outside == 0 {
		return nil
	}
	speaks := make([]float64, response.Width)
	for _, seen := range s.seen {
		s.addDifferences(speaks, seen, cause, inside, outside)
	}
	var reasons []Reason
	for index, nats := range speaks {
		if nats > 0 {
			f, outcome := response.FactAt(index)
			reasons = append(reasons, Reason{f, outcome, nats * decibansPerNat})
		}
	}
	slices.SortStableFunc(reasons, func(a, b Reason) int {
		switch {
		case a.Decibans > b.Decibans:
			return -1
		case a.Decibans < b.Decibans:
			return 1
		}
		return 0
	})
	return reasons
}

// addDifferences adds, for each outcome of a set, how much likelier the hands of
// the cause make it than the others do, in nats.
func (s *Student) addDifferences(speaks []float64, seen seenBreaks, cause Cause, inside, outside float64) {
	for i, w := range s.handWeights() {
		if w < negligible {
			continue
		}
		share := -w / outside
		if cloud[i].Cause == cause {
			share = w / inside
		}
		logs := predict(cloud[i].Hand, seen.setup, s.rack, seen.kind).logs
		for _, c := range seen.counts {
			speaks[c.Index] += share * float64(c.Weight) * float64(max(logs[c.Index], surest))
		}
	}
}
