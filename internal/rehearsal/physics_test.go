//go:build !quick && !race

package rehearsal

import (
	"math"
	"math/rand/v2"
	"reflect"
	"testing"

	"breakwright/internal/breaksim"
	"breakwright/internal/drill"
	"breakwright/internal/rack"
	"breakwright/internal/response"
	"breakwright/internal/table"
)

// computedStudent draws a student; the first four stand at one of the worlds that
// TestWorld asks for, since what is best in each takes a second to find.
func computedStudent(f Fault, n int) Student {
	return DrawComputedStudent(response.Racks()[0], f, rand.New(rand.NewPCG(1154, uint64(n))))
}

func TestPhysics_StudentsAndTheirBreaksArePossible(t *testing.T) {
	for _, f := range ComputedFaults() {
		for n := range 2 {
			s := computedStudent(f, n)
			if err := s.Start.Check(s.Kind); err != nil {
				t.Errorf("%s %d: %v", f, n, err)
			}
			rng := rand.New(rand.NewPCG(uint64(n), 2))
			for i := range 12 {
				b := s.Break(s.Start, rng)
				b.Number = i + 1
				if err := b.Check(s.Start, s.Kind); err != nil {
					t.Errorf("%s %d: %+v: %v", f, n, b, err)
				}
			}
		}
	}
}

// A student of one seed is one student, and one luck gives one break.
func TestPhysics_SameSeedSameStudentSameBreaks(t *testing.T) {
	for _, f := range ComputedFaults() {
		a, b := computedStudent(f, 3), computedStudent(f, 3)
		if !reflect.DeepEqual(a, b) {
			t.Errorf("%s: %+v and %+v", f, a, b)
		}
		one := a.Break(a.Start, rand.New(rand.NewPCG(1, 2)))
		if same := b.Break(b.Start, rand.New(rand.NewPCG(1, 2))); !reflect.DeepEqual(one, same) {
			t.Errorf("%s: %+v and %+v", f, one, same)
		}
		if other := a.Break(a.Start, rand.New(rand.NewPCG(1, 3))); reflect.DeepEqual(one, other) {
			t.Errorf("%s: other luck gave the same break", f)
		}
	}
}

func TestPhysics_RightIsTheMirrorOfLeft(t *testing.T) {
	for _, f := range ComputedFaults() {
		for n := range 4 {
			s := computedStudent(f, n)
			for luck := range uint64(8) {
				left := s.Break(s.Start.ForSide(table.Left), rand.New(rand.NewPCG(luck, 3)))
				right := s.Break(s.Start.ForSide(table.Right), rand.New(rand.NewPCG(luck, 3)))
				if !reflect.DeepEqual(left.Mirror(), right) {
					t.Errorf("%s %d: left %+v\nright %+v", f, n, left, right)
				}
			}
		}
	}
}

// Setups to the very limits of what is taught, with hands far off, are broken
// without a panic.
func TestPhysics_AnySetupThatIsTaughtCanBeBroken(t *testing.T) {
	k := table.SevenFoot()
	wild := practisedStudent(defaultTable(t, k))
	wild.Pull, wild.Raise, wild.Rush, wild.Widening, wild.SlopePerMph, wild.LiftSpeed = 0.4, -0.3, -9, 0.6, 3, 15
	for _, tip := range []drill.RadiusFraction{-drill.MaxTip, drill.MaxTip} {
		for _, contact := range []table.Inches{-drill.MaxContact, drill.MaxContact} {
			for _, speed := range []table.Mph{0, drill.SlowestBreak, drill.FastestBreak} {
				s := drill.StandardSetup(rack.NineBall, table.Left, k)
				s.Tip, s.Contact, s.Speed, s.Spin = tip, contact, speed, drill.MaxSpin
				s.Cue = table.Place{X: -drill.OutermostCue(k), Y: k.HeadString() - drill.FurthestBehind}
				b := wild.Break(s, rand.New(rand.NewPCG(4, 4)))
				b.Number = 1
				if err := b.Check(s, k); err != nil {
					t.Errorf("%+v: %v", s, err)
				}
			}
		}
	}
}

// A world's best setup is worth clearly more than places six inches further in and
// than tips a third of a radius away.
func TestWorld_BestBeatsItsNeighbours(t *testing.T) {
	for index := range 2 {
		w := sharedWorlds.find(response.Racks()[0], index)
		truth := newRateCounter(Student{Breaker: practisedStudent(w.table), Kind: w.kind, Window: w.kind.StandardWindow()}, 99)
		at := truth.usualRates(w.best)
		for what, change := range map[string]func(*drill.Setup){
			"six inches in": func(s *drill.Setup) { s.Cue.X += 6 },
			"a high tip":    func(s *drill.Setup) { s.Tip += 0.33 },
		} {
			other := w.best
			change(&other)
			// A standard error of the difference over a thousand breaks is some 0.04.
			if got := truth.usualRates(other); got.Worth > at.Worth-0.08 {
				t.Errorf("world %d: %s is worth %.2f, the best %.2f", index, what, got.Worth, at.Worth)
			}
		}
	}
}

// A fault costs what it is said to cost, its remedy gives some of it back, and what
// has no effect cannot be helped.
func TestOracle_FindsTheRemedy(t *testing.T) {
	for f, want := range map[Fault]struct {
		number      int
		most, least float64
	}{
		Tip: {4, 3, 0.1}, LooseRack: {1, 3, 0.1}, NoEffect: {1, 0, 0},
	} {
		s := computedStudent(f, want.number)
		truth := newRateCounter(s, 1)
		truth.fineBreaks, truth.roughBreaks = 100, 30
		best := findBestChange(s, truth)
		if gain := best.value - s.valueOf(truth.fineRates(s.Start)); gain < want.least || gain > want.most {
			t.Errorf("%s: the best change gains %.2f", f, gain)
		}
		if f == LooseRack && best.setup != s.Start {
			t.Errorf("of a loose rack %+v is changed", best.setup)
		}
	}
}

// The best of many by a few breaks is also the luckiest: what it gains by other breaks is
// what it gains in truth.
func TestOracle_CountsNoLuckAsGain(t *testing.T) {
	const students, tolerance = 200, 0.02
	counted, inTruth := 0.0, 0.0
	for n := range students {
		s := DrawStudent(NoFault, rand.New(rand.NewPCG(5, uint64(n))))
		few, many := newRateCounter(s, uint64(n)), newRateCounter(s, uint64(n+1000))
		few.fineBreaks, few.roughBreaks = 40, 20
		best := findBestChange(s, few)
		counted += best.value - s.valueOf(few.fineRates(s.Start))
		inTruth += s.valueOf(many.fineRates(best.setup)) - s.valueOf(many.fineRates(s.Start))
	}
	if off := (counted - inTruth) / students; math.Abs(off) > tolerance {
		t.Errorf("counted as %.3f a break more than it is", off)
	}
}

func TestPhysics_DeliversWhatIsHidden(t *testing.T) {
	p := practisedStudent(defaultTable(t, table.NineFoot()))
	p.Scatter = breaksim.StrokeScatter{Aim: 0.2, Tip: 0.05}
	p.Pull, p.Raise, p.Rush, p.ControlSpeed, p.Widening, p.LiftSpeed, p.SlopePerMph = 0.25, -0.2, 1, 18, math.Ln2, 20, 3
	s := drill.StandardSetup(rack.NineBall, table.Left, table.NineFoot())
	for _, c := range []struct {
		instructed, speed table.Mph
		aim, slope        breaksim.Degrees
	}{
		{17, 18, 0.2, 3}, // in control
		{18, 19, 0.4, 3}, // a mile above it: twice as wide
		{21, 22, 3.2, 9}, // the cue rises, too
		{0, 19, 0.4, 3},  // nothing told: the student's own
	} {
		s.Speed = c.instructed
		in := p.deliverStroke(s, rand.New(rand.NewPCG(1, 1)))
		if in.Speed != c.speed || math.Abs(float64(in.Scatter.Aim-c.aim)) > 1e-9 || math.Abs(float64(in.Elevation-c.slope)) > 1e-9 {
			t.Errorf("told %v: %+v", c.instructed, in)
		}
		if in.Contact != 0.25 || math.Abs(float64(in.Tip)+0.3) > 1e-9 {
			t.Errorf("contact %v, tip %v", in.Contact, in.Tip)
		}
	}
}

func defaultTable(t *testing.T, k table.Kind) *breaksim.Table {
	t.Helper()
	on, err := breaksim.NewTable(breaksim.Defaults(), k)
	if err != nil {
		t.Fatal(err)
	}
	return on
}

// A break is weak that pockets nothing and sends fewer than four balls to a rail, which every
// student's true rates know, whatever the student notes.
func TestTruth_KnowsWeakBreaks(t *testing.T) {
	s := computedStudent(NoFault, 0)
	p := s.Breaker.(Physics)
	p.Habit, p.Rush, p.OwnSpeed = Habit{}, 0, 7
	s.Breaker, s.Start.Speed = p, 7
	soft := newRateCounter(s, 1)
	soft.usualBreaks = 40
	if r := soft.usualRates(s.Start); r.Weak == 0 || r.Weak > r.Dry {
		t.Errorf("at 7 mph %.2f are weak and %.2f dry", r.Weak, r.Dry)
	}
}
