package leave

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"breakwright/internal/table"
)

// The short ways to angles are those of the library, whatever the angle.
func TestAngles_AreTheLibrarys(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		x := rapid.Float64Range(-1, 1).Draw(t, "x")
		if got, want := arcsine(x), math.Asin(x); math.Abs(got-want) > 1e-13 {
			t.Fatalf("arcsine %g, want %g", got, want)
		}
		y, along := rapid.Float64Range(-1, 1).Draw(t, "y"), rapid.Float64Range(1e-9, 5).Draw(t, "along")
		if got, want := arctangent(y, along), math.Atan2(y, along); math.Abs(got-want) > 1e-13 {
			t.Fatalf("arctangent of %g, %g: %g, want %g", y, along, got, want)
		}
		v := table.Vector{X: x, Y: y}
		w := v.TurnedBy(rapid.Float64Range(-3, 3).Draw(t, "turn"))
		if got, want := angleTo(v, w), v.AngleTo(w); v.Length() > 1e-3 && math.Abs(got-want) > 1e-12 {
			t.Fatalf("angle %g, want %g", got, want)
		}
	})
	if arcsine(small) != -arcsine(-small) || arctangent(0.01, 1) != -arctangent(-0.01, 1) {
		t.Error("left is not right")
	}
}
