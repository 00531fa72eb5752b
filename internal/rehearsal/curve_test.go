//go:build !race

package rehearsal

import (
	"math"
	"math/rand/v2"
	"reflect"
	"testing"

	"pgregory.net/rapid"

	"breakwright/internal/drill"
	"breakwright/internal/rack"
	"breakwright/internal/table"
)

func drawAnyStudent(t *rapid.T) Student {
	f := rapid.SampledFrom(Faults()).Draw(t, "fault")
	return DrawStudent(f, rand.New(rand.NewPCG(rapid.Uint64().Draw(t, "student"), 1)))
}

func TestDraw_StudentsAndTheirBreaksArePossible(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := drawAnyStudent(t)
		if err := s.Start.Check(s.Kind); err != nil {
			t.Fatalf("%s: start: %v", s.Fault, err)
		}
		if err := s.Best.Check(s.Kind); err != nil {
			t.Fatalf("%s: best: %v", s.Fault, err)
		}
		rng := rand.New(rand.NewPCG(rapid.Uint64().Draw(t, "luck"), 2))
		for range 20 {
			b := s.Break(s.Start, rng)
			b.Number = 1
			if err := b.Check(s.Start, s.Kind); err != nil {
				t.Fatalf("%s: %+v: %v", s.Fault, b, err)
			}
		}
	})
}

func TestCurve_RightIsTheMirrorOfLeft(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s, luck := drawAnyStudent(t), rapid.Uint64().Draw(t, "luck")
		left := s.Break(s.Start.ForSide(table.Left), rand.New(rand.NewPCG(luck, 3)))
		right := s.Break(s.Start.ForSide(table.Right), rand.New(rand.NewPCG(luck, 3)))
		if !reflect.DeepEqual(left.Mirror(), right) {
			t.Fatalf("left %+v\nright %+v", left, right)
		}
	})
}

// A fault must cost something, taking it away must help, and so must one usual
// step of the right remedy; otherwise the report counts the wrong things.
func TestDraw_RemediesHelp(t *testing.T) {
	const students = 60
	for _, f := range Faults() {
		helped := 0
		for i := range students {
			s := DrawStudent(f, rand.New(rand.NewPCG(11, uint64(i))))
			truth := newRateCounter(s, uint64(i))
			start, best := truth.usualRates(s.Start), truth.usualRates(s.Best)
			if f == NoFault {
				if len(s.Remedies) != 0 || best.Good > start.Good+0.12 {
					t.Errorf("a faultless student: start %v, best %v, remedies %v", start, best, s.Remedies)
				}
				continue
			}
			if best.Good < start.Good+0.02 {
				t.Errorf("%s, %s: best %v is hardly better than start %v", f, s.Variant, best, start)
			}
			if takeStep(truth, s, s.Remedies[0]).Good > start.Good {
				helped++
			}
		}
		if f != NoFault && helped < students*9/10 {
			t.Errorf("%s: one step of the remedy helped %d of %d students", f, helped, students)
		}
	}
}

// Nobody who does not know the secret may do better than somebody who does: no
// small change of the best setup gains more than the counting error.
func TestDraw_BestIsBest(t *testing.T) {
	changes := []func(*drill.Setup, float64){
		func(s *drill.Setup, by float64) { s.Cue.X += table.Inches(1.5 * by) },
		func(s *drill.Setup, by float64) { s.Contact += table.Inches(0.06 * by) },
		func(s *drill.Setup, by float64) { s.Tip += drill.RadiusFraction(0.06 * by) },
		func(s *drill.Setup, by float64) { s.Speed += table.Mph(by) },
	}
	for _, f := range Faults() {
		for i := range 12 {
			s := DrawStudent(f, rand.New(rand.NewPCG(13, uint64(i))))
			truth := newRateCounter(s, uint64(i))
			best := truth.usualRates(s.Best)
			for part, change := range changes {
				for _, by := range []float64{-2, -1, 1, 2} {
					other := s.Best
					change(&other, by)
					if got := truth.usualRates(other); other.Check(s.Kind) == nil && got.Good > best.Good+0.03 {
						t.Errorf("%s, %s: part %d by %g gives %v, the best %v", f, s.Variant, part, by, got, best)
					}
				}
			}
		}
	}
}

// takeStep takes one usual step of a remedy, of the coaching rules' sizes.
func takeStep(t *rateCounter, s Student, r Remedy) Rates {
	to := s.Start.ForSide(table.Left)
	up := -1.0
	if r.Up {
		up = 1
	}
	switch r.Variable {
	case "place":
		to.Cue.X -= table.Inches(2 * up)
	case "contact":
		to.Contact += table.Inches(0.1 * up)
	case "tip":
		to.Tip += drill.RadiusFraction(0.1 * up)
	case "speed":
		to.Speed += table.Mph(up)
	}
	return t.usualRates(to.ForSide(s.Start.Side))
}

// certainCurve is a student without chance in the wing ball's error, best at 12 inches.
func certainCurve() Curve {
	k := table.NineFoot()
	return Curve{Kind: k, Place: 12, Tolerance: 2, Tip: -0.1, PerTip: 10, OwnSpeed: 18, NeededSpeed: 10, ControlSpeed: 25, FlySpeed: 40,
		Habit: Habit{Misses: true, Paths: true}}
}

func TestCurve_WhatTheWingBallMeets(t *testing.T) {
	for _, c := range []struct {
		name             string
		x, contact       table.Inches
		made             bool
		meetsA, orMeetsB drill.WingMiss
	}{
		{name: "at the best place", x: -12, made: true},
		{name: "just inside", x: -13.9, made: true},
		{name: "too far in", x: -4, meetsA: drill.MissSideRail},
		{name: "too far out", x: -20, meetsA: drill.MissFootRail, orMeetsB: drill.MissKissed},
		{name: "nearly, in", x: -9.8, meetsA: drill.MissJaws, orMeetsB: drill.MissSideRail},
		{name: "too far out, mended by contact", x: -16, contact: 0.25, made: true},
		{name: "too far in, mended by contact", x: -8, contact: -0.25, made: true},
		{name: "contact to the far side is like in", x: -12, contact: 0.25, meetsA: drill.MissSideRail},
		{name: "contact to the break side is like out", x: -12, contact: -0.25, meetsA: drill.MissFootRail, orMeetsB: drill.MissKissed},
	} {
		s := drill.StandardSetup(rack.NineBall, table.Left, table.NineFoot())
		s.Cue.X, s.Contact = c.x, c.contact
		rng := rand.New(rand.NewPCG(5, 5))
		for range 50 {
			b := certainCurve().Break(s, rng)
			if b.WingMade(s) != c.made || !c.made && b.WingMiss != c.meetsA && b.WingMiss != c.orMeetsB {
				t.Errorf("%s: made %v, miss %q", c.name, b.WingMade(s), b.WingMiss)
				break
			}
		}
	}
}

func TestCurve_WhereTheCueBallGoes(t *testing.T) {
	share := func(tip drill.RadiusFraction, contact table.Inches, speed table.Mph, is func(drill.Break) bool) float64 {
		s := drill.StandardSetup(rack.NineBall, table.Left, table.NineFoot())
		s.Tip, s.Contact, s.Speed = tip, contact, speed
		c := certainCurve()
		c.SpreadX, c.SpreadY, c.FlySpeed, c.ContactSpread = 7, 10, 22, 0.05
		n, rng := 0, rand.New(rand.NewPCG(6, 6))
		for range 400 {
			if is(c.Break(s, rng)) {
				n++
			}
		}
		return float64(n) / 400
	}
	on := func(p drill.CuePath) func(drill.Break) bool {
		return func(b drill.Break) bool { return b.CuePath == p }
	}
	in := func(p table.Pocket) func(drill.Break) bool {
		return func(b drill.Break) bool { return b.Cue.Scratch == p }
	}
	for _, c := range []struct {
		name          string
		usual, spoilt float64
	}{
		{"draw and the head rail", share(-0.1, 0, 18, on(drill.PathHeadRail)), share(-0.4, 0, 18, on(drill.PathHeadRail))},
		{"follow and forward", share(-0.1, 0, 18, on(drill.PathForward)), share(0.2, 0, 18, on(drill.PathForward))},
		{"far contact and the far side pocket", share(-0.1, 0, 18, in(table.SideRight)), share(-0.1, 0.3, 18, in(table.SideRight))},
		{"draw and the head corners", share(-0.1, 0, 18, in(table.HeadRight)), share(-0.5, 0, 18, in(table.HeadRight))},
		{"power and flying balls", share(-0.1, 0, 18, drill.Break.HasBallsOff), share(-0.1, 0, 23, drill.Break.HasBallsOff)},
	} {
		if c.usual > 0.06 || c.spoilt < c.usual+0.06 {
			t.Errorf("%s: %.3f usually, %.3f when overdone", c.name, c.usual, c.spoilt)
		}
	}
}

func TestTenth_NoNegativeZero(t *testing.T) {
	if v := roundToTenth(-0.01); math.Signbit(float64(v)) {
		t.Error("a place would be written as -0")
	}
}
