package belief

import (
	"math"
	"slices"

	"breakwright/internal/drill"
	"breakwright/internal/table"
)

// How far a measured speed is to be trusted (common practice, no source).
const (
	// meterSpread is the standard deviation of what one speed meter, or one phone that
	// listens, is wrong by: the same for all its readings.
	meterSpread = 1.0 // miles an hour
	// readingSpread is the same of one break's speed about the student's mean.
	readingSpread = 1.5
	// readingGrain is the finest a speed is read to, in readings a mile an hour: sums
	// of whole grains do not depend on the order of the breaks.
	readingGrain = 10
)

// speedReadings is how far measured speeds lay above what was told: how many, and by how
// much in all, in grains.
type speedReadings struct{ count, above int }

// observeSpeeds adds the speeds measured in a set. Readings that all are what was told
// are taken for what was told, written down again.
func (s *Student) observeSpeeds(setup drill.Setup, breaks []drill.Break) {
	instructed := instructedSpeed(setup)
	differs := func(b drill.Break) bool { return b.Speed != 0 && b.Speed != instructed }
	if !slices.ContainsFunc(breaks, differs) {
		return
	}
	for _, b := range breaks {
		if b.Speed != 0 {
			s.speeds.count++
			s.speeds.above += int(math.Round(readingGrain * float64(b.Speed-instructed)))
		}
	}
}

// speedEvidence is the logarithm of the likelihood of the speeds measured, of hands that
// are so much faster than told.
func (s *Student) speedEvidence(faster table.Mph) float64 {
	if s.speeds.count == 0 {
		return 0
	}
	n := float64(s.speeds.count)
	off := float64(s.speeds.above)/readingGrain/n - float64(faster)
	return max(-off*off/(2*(meterSpread*meterSpread+readingSpread*readingSpread/n)), surest)
}
