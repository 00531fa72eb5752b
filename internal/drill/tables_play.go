package drill

import (
	"errors"
	"slices"
)

// TablesPlay is how the tables play that a student breaks on, as the breaks of others in the
// club had shown it by then, in whole numbers, so that it is kept and written down exactly.
// Package belief makes it and reads it. The zero TablesPlay is of tables of which nobody
// knows anything.
type TablesPlay struct {
	// Breaks is how many breaks of others it rests on.
	Breaks int `json:"breaks"`
	// Character has the numbers that tell how a table plays, Spread how far each may be
	// off, both in quarters of a standard deviation.
	Character []int `json:"character"`
	Spread    []int `json:"spread"`
	// Departures has for every outcome of a break how much likelier it is here than on
	// tables of that character: the logarithm of a factor, in twentieths.
	Departures []int `json:"departures"`
}

// What can be known of tables.
const (
	mostBreaksOfOthers   = 1_000_000
	mostOutcomes         = 1_000
	furthestFromOrdinary = 1_000
)

// IsKnown reports whether others' breaks showed anything.
func (p TablesPlay) IsKnown() bool { return p.Breaks > 0 }

// Check says what cannot be.
func (p TablesPlay) Check() error {
	if p.Breaks < 0 || p.Breaks > mostBreaksOfOthers {
		return errors.New("so many breaks of others are not believed")
	}
	for _, list := range [][]int{p.Character, p.Spread, p.Departures} {
		tooFar := func(n int) bool { return n < -furthestFromOrdinary || n > furthestFromOrdinary }
		if len(list) > mostOutcomes || slices.ContainsFunc(list, tooFar) || len(list) > 0 && !p.IsKnown() {
			return errors.New("tables that play so are not believed")
		}
	}
	return nil
}
