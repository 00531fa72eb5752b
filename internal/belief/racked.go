package belief

import (
	"math"

	"breakwright/internal/drill"
	"breakwright/internal/table"
)

// How surely gaps in a rack are seen, by whoever looks (common practice, no source).
const (
	// fineSeenLoose is how often a rack as it should be is called loose.
	fineSeenLoose = 0.05
	// looseSeenLoose is the same of a rack with gaps that no eye misses.
	looseSeenLoose = 0.85
	// halfSeen is the gap, each ball's standard deviation, that is seen half the way
	// between the two.
	halfSeen table.Inches = 0.009
	// looksThatTell is how many looks tell as much as can be told: they are one
	// person's, with one pair of eyes.
	looksThatTell = 4
)

// observeRack counts how the balls were seen to stand.
func (s *Student) observeRack(breaks []drill.Break) {
	for i := range breaks {
		switch breaks[i].Racked {
		case drill.RackedTight:
			s.tight++
		case drill.RackedLoose:
			s.loose++
		}
	}
}

// rackEvidence is the logarithm of the likelihood of what was seen of racks with gaps.
func (s *Student) rackEvidence(gap table.Inches) float64 {
	looks := s.tight + s.loose
	if looks == 0 {
		return 0
	}
	share := math.Pow(float64(gap/halfSeen), 4)
	seenLoose := fineSeenLoose + (looseSeenLoose-fineSeenLoose)*share/(1+share)
	power := 1 / (1 + looks/looksThatTell)
	return power * (s.loose*math.Log(seenLoose) + s.tight*math.Log(1-seenLoose))
}
