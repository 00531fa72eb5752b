package rehearsal

import (
	"math"
	"math/rand/v2"
	"reflect"
	"testing"

	"breakwright/internal/breaksim"
	"breakwright/internal/drill"
	"breakwright/internal/rack"
	"breakwright/internal/table"
)

func physicalStudent(f Fault, n int) Student {
	return sharedRoom.DrawStudent(f, rand.New(rand.NewPCG(17, uint64(n))))
}

func TestPhysics_StudentsAndTheirBreaksArePossible(t *testing.T) {
	for _, f := range Faults() {
		for n := range 2 {
			s := physicalStudent(f, n)
			for what, setup := range map[string]drill.Setup{"start": s.Start, "best": s.Best} {
				if err := setup.Check(s.Kind); err != nil {
					t.Errorf("%s %d: %s: %v", f, n, what, err)
				}
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
	for _, f := range Faults() {
		a, b := physicalStudent(f, 3), physicalStudent(f, 3)
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
	for _, f := range Faults() {
		for n := range 4 {
			s := physicalStudent(f, n)
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
	wild := practisedStudent(sharedRoom.tableOf(k))
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

// The best place makes the wing ball clearly more often than places five inches
// further in, and neither tip height a sixth of a radius away holds the cue ball
// as often in the window.
func TestRoom_BestBeatsItsNeighbours(t *testing.T) {
	for _, k := range []table.Kind{table.SevenFoot(), table.NineFoot()} {
		best := sharedRoom.bestSetup(k)
		truth := newRateCounter(Student{Breaker: practisedStudent(sharedRoom.tableOf(k)), Kind: k, Window: k.StandardWindow()}, 99)
		at := truth.usualRates(best)
		central, low, high := best, best, best
		central.Cue.X += 5
		low.Tip -= 0.17
		high.Tip += 0.17
		// Two and a third standard errors of a difference over a thousand breaks.
		if got := truth.usualRates(central); got.Wing > at.Wing-0.05 {
			t.Errorf("%s: five inches in: %+v, best %+v", k, got, at)
		}
		for _, tip := range []drill.Setup{low, high} {
			if got := truth.usualRates(tip); got.Window > at.Window-0.02 {
				t.Errorf("%s: tip %.2f: %+v, best %.2f: %+v", k, float64(tip.Tip), got, float64(best.Tip), at)
			}
		}
	}
}

// A fault costs what it is said to cost, and the remedy gives it back.
func TestPhysics_FaultsCostAndBestMends(t *testing.T) {
	const students = 3
	for f, measure := range map[Fault]func(Rates) float64{
		Place: func(r Rates) float64 { return r.Wing }, Contact: func(r Rates) float64 { return r.Wing },
		Tip: func(r Rates) float64 { return r.Window }, Speed: func(r Rates) float64 { return r.Good },
		Steadiness: func(r Rates) float64 { return r.Wing },
	} {
		gain, worse := 0.0, 0
		for n := range students {
			s := physicalStudent(f, n)
			truth := newRateCounter(s, uint64(n))
			truth.usualBreaks = 200
			by := measure(truth.usualRates(s.Best)) - measure(truth.usualRates(s.Start))
			gain += by / students
			if by < -0.05 {
				worse++
			}
		}
		if gain < 0.03 || worse > 1 {
			t.Errorf("%s: the remedy gains %.3f, and costs %d of %d students", f, gain, worse, students)
		}
	}
}

func TestPhysics_DeliversWhatIsHidden(t *testing.T) {
	p := practisedStudent(sharedRoom.tableOf(table.NineFoot()))
	p.Scatter = breaksim.StrokeScatter{Aim: 0.2, Tip: 0.05}
	p.Pull, p.Raise, p.Rush, p.ControlSpeed, p.Widening, p.LiftSpeed, p.SlopePerMph = 0.25, -0.2, 1, 18, math.Ln2, 20, 3
	s := drill.StandardSetup(rack.NineBall, table.Left, table.NineFoot())
	for _, c := range []struct {
		told, speed table.Mph
		aim, slope  breaksim.Degrees
	}{
		{17, 18, 0.2, 3}, // in control
		{18, 19, 0.4, 3}, // a mile above it: twice as wide
		{21, 22, 3.2, 9}, // the cue rises, too
		{0, 19, 0.4, 3},  // nothing told: the student's own
	} {
		s.Speed = c.told
		in := p.deliverStroke(s, rand.New(rand.NewPCG(1, 1)))
		if in.Speed != c.speed || math.Abs(float64(in.Scatter.Aim-c.aim)) > 1e-9 || math.Abs(float64(in.Elevation-c.slope)) > 1e-9 {
			t.Errorf("told %v: %+v", c.told, in)
		}
		if in.Contact != 0.25 || math.Abs(float64(in.Tip)+0.3) > 1e-9 {
			t.Errorf("contact %v, tip %v", in.Contact, in.Tip)
		}
	}
}
