package evidence

import "math"

// MissBalance counts misses by side. Long and Short are the two ways a place can be
// wrong, named as the caller likes (too far in and too far out): what matters is
// that moving the place one way moves the balance one way.
type MissBalance struct {
	Long, Short int
}

// Total returns the number of misses with a known side.
func (b MissBalance) Total() int {
	return b.Long + b.Short
}

// Surplus returns long minus short: positive when long.
func (b MissBalance) Surplus() int {
	return b.Long - b.Short
}

// Mirror returns the balance seen from the other side.
func (b MissBalance) Mirror() MissBalance {
	return MissBalance{Long: b.Short, Short: b.Long}
}

// ShareLong returns the belief about the share of misses that are long.
func (b MissBalance) ShareLong(prior Beta) Beta {
	return BetaFromCounts(b.Long, b.Total(), prior)
}

// ProbLong returns the probability, from a flat start, that more than half of
// all misses would be long. One half when nothing is known.
func (b MissBalance) ProbLong() float64 {
	return b.ShareLong(UniformPrior()).ProbAbove(0.5)
}

// ProbShort returns the probability that more than half would be short.
func (b MissBalance) ProbShort() float64 {
	return b.Mirror().ProbLong()
}

// StepSearch moves a place until the misses balance: the stochastic root-finding of
// Robbins and Monro (1951) on signed misses. A step is
//
//	Gain × surplus / breaks / set^Decay
//
// against the surplus. Decay 1 is the classical 1/n; one half keeps moving
// longer and was the better of the two in simulated students.
type StepSearch struct {
	// Gain is the move, in the caller's unit, when every break of the first
	// set misses on one side.
	Gain float64
	// Decay is the power of the set number by which steps shrink.
	Decay float64
}

// NextStep returns the move that follows the set'th set (counted from 1) at a place,
// of the given number of breaks, makes included. It is negative when misses are
// long. No breaks, more misses than breaks or a set before the first: no move.
func (s StepSearch) NextStep(set, breaks int, misses MissBalance) float64 {
	if set < 1 || misses.Long < 0 || misses.Short < 0 || breaks < 1 || misses.Total() > breaks {
		return 0
	}
	share := float64(misses.Surplus()) / float64(breaks)
	return -s.Gain * share / math.Pow(float64(set), s.Decay)
}
