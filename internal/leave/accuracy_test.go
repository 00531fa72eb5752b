package leave

import (
	"math"
	"math/rand/v2"
	"testing"

	"breakwright/internal/table"
)

// Shares of a normal error within so many standard deviations (standard table):
// 1 on either side 0.682689, 2 0.954500, 3 0.997300.
func TestChance_NormalTable(t *testing.T) {
	for sds, want := range map[float64]float64{1: 0.682689, 2: 0.954500, 3: 0.997300} {
		near(t, "share", Accuracy(0.2).Chance(table.Degrees(2*sds*0.2)), want, 1e-6)
	}
	if Club.Chance(0) != 0 || Club.Chance(-1) != 0 {
		t.Error("a shut window has a chance")
	}
}

// The levels are what their comment says on a straight shot of 3 and 3 feet.
func TestLevels_ThreeAndThreeFeet(t *testing.T) {
	m := table.NineFoot().Mouth(table.FootRight)
	l := lie(m.Middle.Along(m.In.Times(-72)), m.Middle.Along(m.In.Times(-36)))
	for i, want := range []float64{0.3, 0.5, 0.7, 0.9} {
		level := Levels()[i]
		near(t, level.Name, into(t, l, level.Accuracy, table.FootRight).Chance, want, 0.05)
	}
	if _, known := ParseLevel("club"); !known {
		t.Error("club is no level")
	}
	if _, known := ParseLevel("champion"); known {
		t.Error("champion is a level")
	}
}

// Tries drawn from a known accuracy find it again; none leave the level.
func TestFit_FindsTheAccuracy(t *testing.T) {
	if got := Fit(Club, nil); math.Abs(float64(got/Club-1)) > 1e-9 {
		t.Errorf("nothing tried: %g", got)
	}
	rng := rand.New(rand.NewPCG(3, 3))
	for _, truth := range []Accuracy{0.1, 0.2, 0.45} {
		var tries []Try
		for range 600 {
			w := table.Degrees(0.1 + rng.Float64())
			tries = append(tries, Try{w, math.Abs(rng.NormFloat64()*float64(truth)) < float64(w)/2})
		}
		near(t, "accuracy", float64(Fit(Club, tries)/truth), 1, 0.12)
		few := Fit(Club, tries[:3])
		if math.Abs(math.Log(float64(few/Club))) > math.Ln2 {
			t.Errorf("three tries moved %g to %g", Club, few)
		}
	}
}
