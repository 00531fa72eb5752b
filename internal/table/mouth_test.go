package table

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// A mouth lies square to the way in: across the corner at 45 degrees, along the
// rail at a side pocket; the middle of a corner's mouth is half the mouth from
// the corner.
func TestMouth_LiesSquare(t *testing.T) {
	for _, k := range []Kind{NineFoot(), EightFoot(), SevenFoot(), {9, false, 4, 5.5}} {
		for _, p := range Pockets() {
			m := k.PocketMouth(p)
			across := m.First.VectorTo(m.Second)
			if math.Abs(across.Dot(m.In)) > 1e-9 || math.Abs(m.In.Length()-1) > 1e-12 {
				t.Errorf("%v %s: mouth %v, in %v", k, p, across, m.In)
			}
			deep := m.Middle.VectorTo(k.CornerPoint(p)).Dot(m.In)
			want := float64(k.CornerMouth / 2)
			if p.IsSide() {
				want = 0
			}
			if math.Abs(deep-want) > 1e-9 {
				t.Errorf("%v %s: the corner is %g in behind the mouth, want %g", k, p, deep, want)
			}
			if mirrored := k.PocketMouth(p.Mirror()); mirrored.Middle != m.Middle.Mirror() || mirrored.In.X != -m.In.X || mirrored.In.Y != m.In.Y {
				t.Errorf("%v %s: its mirror is %+v", k, p, mirrored)
			}
		}
	}
}

// A ball may pass no tip nearer when it comes along the tip's rail than when it
// comes from across, but for side pockets at more than 56 degrees, where it meets
// the far point itself; and never needs more than its reach to the nose, 1.083 in
// (and the tolerance of the measured numbers).
func TestRoom(t *testing.T) {
	for _, p := range Pockets() {
		last := p.JawClearance(-56)
		for a := Degrees(-55); a <= 90; a++ {
			room := p.JawClearance(a)
			if room < last-1e-12 || room > NoseReach+0.01 {
				t.Errorf("%s at %g°: %s in after %s", p, float64(a), room, last)
			}
			last = room
		}
	}
	if FootLeft.JawClearance(0) != 0.89 || SideLeft.JawClearance(-500) != 0.58 || SideLeft.JawClearance(7.5) != 0.875 {
		t.Error("rooms are not those of the list")
	}
}

// Nose height 63.5 percent of the ball: R·sqrt(1 - 0.27²) from the nose.
func TestNoseReach(t *testing.T) {
	if want := 1.125 * math.Sqrt(1-0.27*0.27); math.Abs(float64(NoseReach)-want) > 1e-5 {
		t.Errorf("%s, want %g", NoseReach, want)
	}
}

func TestReflect_TwiceIsTheSame(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		k := NineFoot()
		p := Place{Inches(rapid.Float64Range(-25, 25).Draw(t, "x")), Inches(rapid.Float64Range(0, 100).Draw(t, "y"))}
		for _, r := range Rails() {
			image := k.ReflectPlace(p, r)
			at, out := k.TurningLine(r)
			if d := k.ReflectPlace(image, r).Distance(p); d > 1e-9 {
				t.Fatalf("%s: twice is %s in off", r, d)
			}
			if off := p.VectorTo(at).Dot(out) + image.VectorTo(at).Dot(out); math.Abs(off) > 1e-9 {
				t.Fatalf("%s: %v and %v are not equally far from the line", r, p, image)
			}
			if k.ReflectPlace(p.Mirror(), r.Mirror()) != image.Mirror() {
				t.Fatalf("%s does not mirror", r)
			}
		}
	})
	for _, r := range Rails() {
		for _, p := range r.OpenPockets() {
			at, out := NineFoot().TurningLine(r)
			if off := at.VectorTo(NineFoot().CornerPoint(p)).Dot(out); math.Abs(off-float64(NoseReach)) > 1e-9 {
				t.Errorf("%s is not on the %s", p, r)
			}
		}
	}
}

func TestVector(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		v := Vector{rapid.Float64Range(-9, 9).Draw(t, "x"), rapid.Float64Range(1, 9).Draw(t, "y")}
		turn := rapid.Float64Range(-3, 3).Draw(t, "turn")
		if got := v.AngleTo(v.TurnedBy(turn)); math.Abs(got-turn) > 1e-9 {
			t.Fatalf("turned by %g, told %g", turn, got)
		}
		if rest := v.WithoutPartAlong(Vector{0, 1}); rest != (Vector{v.X, 0}) {
			t.Fatalf("%v without its y is %v", v, rest)
		}
	})
	if got := DegreesFromRadians(math.Pi); got != 180 || Degrees(180).Radians() != math.Pi {
		t.Errorf("half a turn is %g degrees", float64(got))
	}
}
