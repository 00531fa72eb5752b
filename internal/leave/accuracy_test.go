package leave

import (
	"testing"

	"breakwright/internal/table"
)

// Shares of a normal error within so many standard deviations (standard table):
// 1 on either side 0.682689, 2 0.954500, 3 0.997300.
func TestChance_NormalTable(t *testing.T) {
	for sds, want := range map[float64]float64{1: 0.682689, 2: 0.954500, 3: 0.997300} {
		near(t, "share", within(2*sds*0.2, 0.2), want, 1e-6)
	}
	if within(0, 0.2) != 0 || within(-1, 0.2) != 0 {
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
