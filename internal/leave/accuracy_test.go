package leave

import (
	"math"
	"math/rand/v2"
	"testing"

	"breakwright/internal/drill"
	"breakwright/internal/rack"
	"breakwright/internal/table"
)

// Shares of a normal error within so many standard deviations (standard table):
// 1 on either side 0.682689, 2 0.954500, 3 0.997300.
func TestChance_NormalTable(t *testing.T) {
	for sds, want := range map[float64]float64{1: 0.682689, 2: 0.954500, 3: 0.997300} {
		near(t, "share", shareWithin(2*sds*0.2, 0.2), want, 1e-6)
	}
	if shareWithin(0, 0.2) != 0 || shareWithin(-1, 0.2) != 0 {
		t.Error("a shut window has a chance")
	}
}

// The levels are what their comment says on a straight shot of 3 and 3 feet.
func TestLevels_ThreeAndThreeFeet(t *testing.T) {
	m := table.NineFoot().PocketMouth(table.FootRight)
	l := lie(m.Middle.MovedBy(m.In.ScaledBy(-72)), m.Middle.MovedBy(m.In.ScaledBy(-36)))
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
func TestFitAccuracy_FindsTheAccuracy(t *testing.T) {
	if got := FitAccuracy(Club, nil); math.Abs(float64(got/Club-1)) > 1e-9 {
		t.Errorf("nothing tried: %g", got)
	}
	rng := rand.New(rand.NewPCG(3, 3))
	for _, truth := range []Accuracy{0.1, 0.2, 0.45} {
		var shots []PlayedShot
		for range 600 {
			w := table.Degrees(0.1 + rng.Float64())
			after := rng.IntN(3)
			made := math.Abs(rng.NormFloat64()*float64(truth)) < float64(w)/2
			for range after {
				made = made && math.Abs(rng.NormFloat64()*float64(truth)) < float64(usualWindow)/2
			}
			shots = append(shots, PlayedShot{w, after, made})
		}
		near(t, "accuracy", float64(FitAccuracy(Club, shots)/truth), 1, 0.12)
		few := FitAccuracy(Club, shots[:3])
		if math.Abs(math.Log(float64(few/Club))) > math.Ln2 {
			t.Errorf("three shots moved %g to %g", Club, few)
		}
	}
}

// A club player runs eight balls out once in seven shots.
func TestFitAccuracy_UsualWindow(t *testing.T) {
	near(t, "run of eight", math.Pow(shareWithin(usualWindow.Radians(), table.Degrees(Club).Radians()), 8), 1.0/7, 0.02)
}

func TestPlayedShotOf(t *testing.T) {
	b, s := broken(rack.NineBall, stopped(-3.5, 41))
	b.Pocketed, b.RanOut = dropped(8), drill.RanOutYes
	b.Rest = []drill.RestingBall{{Ball: 1, Place: table.Place{X: -20, Y: 31}}}
	l := FromBreak(b, s, table.NineFoot())
	got, ok := PlayedShotOf(b, l)
	if !ok || !got.Made || got.After != 7 || got.Window != into(t, l, Club, table.HeadLeft).Window {
		t.Errorf("%+v (%v)", got, ok)
	}
	for name, change := range map[string]func(b *drill.Break, l *Leave){
		"not written down": func(b *drill.Break, l *Leave) { b.RanOut = "" },
		"scratch":          func(b *drill.Break, l *Leave) { l.Hand = Anywhere },
		"no place":         func(b *drill.Break, l *Leave) { l.Placed = nil; l.Unplaced = []rack.Ball{1} },
	} {
		c, m := b, l
		change(&c, &m)
		if got, ok := PlayedShotOf(c, m); ok {
			t.Errorf("%s: %+v", name, got)
		}
	}
}
