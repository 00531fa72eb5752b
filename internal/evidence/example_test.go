package evidence_test

import (
	"fmt"

	"breakwright/internal/evidence"
)

// Four of ten and six of ten are mostly the same thing.
func ExampleCompareRates() {
	before := evidence.BetaFromCounts(4, 10, evidence.UniformPrior())
	after := evidence.BetaFromCounts(6, 10, evidence.UniformPrior())
	effect := evidence.CompareRates(before, after, 0.05)
	fmt.Printf("helped %.3f, no difference %.3f, hurt %.3f\n", effect.Helped, effect.NoDifference, effect.Hurt)
	// Output: helped 0.727, no difference 0.137, hurt 0.136
}

// How many more breaks are likely to tell whether three of ten is below target?
func ExampleLineQuestion_BreaksToSettle() {
	target := evidence.LineQuestion{Line: 0.45, Certainty: 0.9}
	belief := evidence.BetaFromCounts(3, 10, evidence.UniformPrior())
	breaks, likely := target.BreaksToSettle(belief, evidence.SettlingLimits{Chance: 0.5, Step: 10, Most: 60})
	fmt.Println(breaks, likely)
	// Output: 10 true
}

// Seven misses long and one short say more than the two makes do.
func ExampleMissBalance() {
	misses := evidence.MissBalance{Long: 7, Short: 1}
	fmt.Printf("too long: %.2f\n", misses.ProbLong())
	fmt.Printf("move %.1f\n", evidence.StepSearch{Gain: 8, Decay: 0.5}.NextStep(1, 10, misses))
	// Output:
	// too long: 0.98
	// move -4.8
}

// Where should the next set be played, after four sets along a line?
func ExamplePlaceCurve() {
	curve, err := evidence.NewPlaceCurve(evidence.InchGrid(0, 20))
	if err != nil {
		fmt.Println(err)
		return
	}
	belief := curve.LearnSets([]evidence.PlaceSet{
		{Place: 6, Made: 2, Tried: 10}, {Place: 8, Made: 4, Tried: 10},
		{Place: 10, Made: 6, Tried: 10}, {Place: 12, Made: 5, Tried: 10},
	})
	best, next := belief.BestPlace(), belief.NextPlace(12, 1, 4)
	fmt.Printf("best so far %g (%.2f), try %g\n", belief.Places[best], belief.Mean[best], belief.Places[next])
	// Output: best so far 11 (0.54), try 14
}
