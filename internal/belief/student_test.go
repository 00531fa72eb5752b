package belief_test

import (
	"math"
	"math/rand/v2"
	"reflect"
	"testing"

	"breakwright/internal/belief"
	"breakwright/internal/breaksim"
	"breakwright/internal/drill"
	"breakwright/internal/rack"
	"breakwright/internal/response"
	"breakwright/internal/table"
)

var nineBall = response.Rack{Game: rack.NineBall, Spot: rack.HeadOnSpot}

func setup() drill.Setup { return drill.StandardSetup(rack.NineBall, table.Left, table.NineFoot()) }

// breaksOf computes breaks of a stroke that differs from the setup, as a student
// who watches everything writes them down.
func breaksOf(t *testing.T, n int, differ func(*breaksim.BreakInput), seed uint64) []drill.Break {
	t.Helper()
	return breaksOn(t, breaksim.Defaults(), n, differ, seed)
}

// breaksOn does the same on a table with other constants.
func breaksOn(t *testing.T, constants breaksim.ModelParams, n int, differ func(*breaksim.BreakInput), seed uint64) []drill.Break {
	t.Helper()
	tb, err := breaksim.NewTable(constants, table.NineFoot())
	if err != nil {
		t.Fatal(err)
	}
	return breaksAt(t, tb, n, differ, seed)
}

// breaksAt does the same at a table.
func breaksAt(t *testing.T, tb *breaksim.Table, n int, differ func(*breaksim.BreakInput), seed uint64) []drill.Break {
	t.Helper()
	s := setup()
	in := breaksim.BreakInput{
		Game: s.Game, Spot: s.Spot, Order: s.Order, Side: table.Left, Cue: s.Cue,
		Tip: breaksim.RadiusFraction(s.Tip), Speed: s.Speed, Elevation: 3,
		Scatter: breaksim.StrokeScatter{Aim: 0.2, Speed: 0.5, Tip: 0.05, Place: 0.2, Gap: 0.002},
	}
	differ(&in)
	rng := rand.New(rand.NewPCG(seed, 3))
	breaks := make([]drill.Break, n)
	for i := range breaks {
		r, err := tb.ComputeBreak(in, rng)
		if err != nil {
			t.Fatal(err)
		}
		breaks[i] = noted(r, s)
		breaks[i].Number = i + 1
	}
	return breaks
}

func noted(r breaksim.BreakResult, s drill.Setup) drill.Break {
	var b drill.Break
	for _, p := range r.Pocketed {
		b.Pocketed = append(b.Pocketed, drill.Pocketed{Ball: p.Ball, Pocket: p.Pocket})
	}
	b.Cue = drill.CueEnd{How: drill.Stopped, Place: r.CueBallEnd().Place}
	if cue := r.CueBallEnd(); cue.End == breaksim.Dropped {
		b.Cue = drill.CueEnd{How: drill.Scratched, Scratch: cue.Pocket}
	} else {
		b.CuePath = drill.CuePath(r.CuePath)
	}
	if wing, _ := r.BallInSlot(s.Wing); wing.End == breaksim.Stopped {
		b.WingMiss = drill.WingMiss(wing.Met)
	}
	b.Rails, b.PastString = drill.ObservedCount(r.Rails), drill.ObservedCount(r.PastString)
	return b
}

// Where balls hand on a blow from pair to pair, as in many models and on no table, fewer go
// down and the rack spreads less; twenty breaks show that it is that, and no loose rack.
func TestStudent_RackThatHandsOnABlowOtherwise(t *testing.T) {
	tb, err := breaksim.NewTable(breaksim.Defaults(), table.NineFoot())
	if err != nil {
		t.Fatal(err)
	}
	tight, loose := 0, 0
	for seed := range uint64(6) {
		isLoose := func(breaks []drill.Break) bool { return observed(t, breaks).ShareOf(belief.LooseRack) > 0.5 }
		if isLoose(breaksAt(t, tb.WithInstantContacts(), 20, func(*breaksim.BreakInput) {}, 40+seed)) {
			tight++
		}
		if isLoose(breaksOf(t, 20, func(in *breaksim.BreakInput) { in.Scatter.Gap = 0.02 }, 40+seed)) {
			loose++
		}
	}
	if tight > 1 || loose < 5 {
		t.Errorf("of six tight racks there %d, of six loose ones on ordinary tables %d are taken for loose", tight, loose)
	}
}

func observed(t *testing.T, breaks []drill.Break) *belief.Student {
	t.Helper()
	s, known := belief.NewStudent(nineBall, drill.TablesPlay{})
	if !known {
		t.Fatal("nine-ball with the head ball on the spot is not known")
	}
	s.Observe(table.NineFoot(), setup(), breaks)
	return s
}

// Thirty computed breaks of a stroke with one thing amiss make that cause the likeliest,
// well above what it had before.
func TestStudent_FindsTheCause(t *testing.T) {
	for _, c := range []struct {
		cause  belief.Cause
		differ func(*breaksim.BreakInput)
	}{
		{belief.Contact, func(in *breaksim.BreakInput) { in.Contact = -0.4 }},
		{belief.Tip, func(in *breaksim.BreakInput) { in.Tip = 0.25 }},
		{belief.Speed, func(in *breaksim.BreakInput) { in.Speed = 10 }},
		{belief.LooseRack, func(in *breaksim.BreakInput) { in.Scatter.Gap = 0.02 }},
	} {
		s := observed(t, breaksOf(t, 30, c.differ, 5))
		before, share := observed(t, nil).ShareOf(c.cause), s.ShareOf(c.cause)
		if share < 2.5*before || s.CauseShares()[0].Cause != c.cause {
			t.Errorf("%s: a share of %.2f, %.2f before: %v", c.cause, share, before, s.CauseShares())
		}
	}
}

// A speed that is amiss is so to one side: what is too soft is not too hard, and both
// together are the cause.
func TestStudent_ASpeedIsAmissToOneSide(t *testing.T) {
	for name, c := range map[string]struct {
		speed  table.Mph
		harder bool
	}{"too soft": {10, false}, "too hard": {26, true}} {
		s := observed(t, breaksOf(t, 30, func(in *breaksim.BreakInput) { in.Speed = c.speed }, 5))
		this, other := s.ShareOfSpeed(c.harder), s.ShareOfSpeed(!c.harder)
		if this < 0.12 || other > 0.02 || math.Abs(this+other-s.ShareOf(belief.Speed)) > 1e-12 {
			t.Errorf("%s: %.3f to that side, %.3f to the other, together %.3f", name, this, other, s.ShareOf(belief.Speed))
		}
	}
}

func TestStudent_AFaultlessStrokeIsLeftAlone(t *testing.T) {
	s := observed(t, breaksOf(t, 40, func(*breaksim.BreakInput) {}, 6))
	if top := s.CauseShares()[0]; top.Cause != belief.Nothing && top.Cause != belief.Place {
		t.Errorf("the likeliest cause is %s (%.2f)", top.Cause, top.Share)
	}
	softer := setup()
	softer.Speed -= 4
	if e := s.Compare(belief.StandardWeights(), table.NineFoot(), setup(), softer); e.Help > 0.8 {
		t.Errorf("softer helps with a chance of %.2f", e.Help)
	}
}

// The order of breaks, and how they are cut into sets, changes nothing.
func TestStudent_OrderAndSplittingDoNotMatter(t *testing.T) {
	breaks := breaksOf(t, 20, func(in *breaksim.BreakInput) { in.Contact = 0.3 }, 7)
	turned := make([]drill.Break, len(breaks))
	for i, b := range breaks {
		turned[len(breaks)-1-i] = b
	}
	once, back := observed(t, breaks), observed(t, turned)
	if !reflect.DeepEqual(once.CauseShares(), back.CauseShares()) {
		t.Errorf("in order %v, from the end %v", once.CauseShares(), back.CauseShares())
	}
	split := observed(t, breaks[:7])
	split.Observe(table.NineFoot(), setup(), breaks[7:])
	for i, c := range split.CauseShares() {
		if d := c.Share - once.CauseShares()[i].Share; d > 1e-6 || d < -1e-6 {
			t.Errorf("%s: %.6f in two parts, %.6f in one", c.Cause, c.Share, once.CauseShares()[i].Share)
		}
	}
}

func TestStudent_NoBreaksIsThePrior(t *testing.T) {
	s, _ := belief.NewStudent(nineBall, drill.TablesPlay{})
	sum := 0.0
	for _, c := range s.CauseShares() {
		sum += c.Share
	}
	if sum < 0.999999 || sum > 1.000001 {
		t.Errorf("the shares add up to %v", sum)
	}
	if _, known := belief.NewStudent(response.Rack{Game: rack.TenBall, Spot: rack.CentreOnSpot}, drill.TablesPlay{}); known {
		t.Error("a rack that is never racked so is known")
	}
}

// A stroke that scatters is steadier when it is slower, so that less speed is an answer to
// it; to one that scatters from a loose rack, or in nothing, it is none.
func TestStudent_SteadierWhenSlower(t *testing.T) {
	wild := observed(t, breaksOf(t, 20, func(in *breaksim.BreakInput) {
		in.Scatter.Aim, in.Scatter.Tip, in.Scatter.Speed = 0.8, 0.1, 1.5
	}, 5))
	if likeliest := wild.CauseShares()[0]; likeliest.Cause != belief.Unsteady {
		t.Fatalf("a stroke four times as wild as is ordinary is likeliest %v", likeliest)
	}
	gain := func(by table.Mph) float64 {
		slower := setup()
		slower.Speed += by
		return wild.Compare(belief.StandardWeights(), table.NineFoot(), setup(), slower).Gain
	}
	if slower, faster := gain(-4), gain(2); slower < 0.05 || faster > 0 {
		t.Errorf("four miles an hour less gain %.3f a break, two more %.3f", slower, faster)
	}
}

// An observer thinks every cause as common as any other, and believes what is seen in full.
func TestNewObserver_BelievesInFull(t *testing.T) {
	observer, known := belief.NewObserver(nineBall)
	if !known {
		t.Fatal("the model does not know nine-ball")
	}
	for _, c := range belief.Causes() {
		if share := observer.ShareOf(c); share < 0.124 || share > 0.126 {
			t.Errorf("before a break %s has %.3f of eight causes", c, share)
		}
	}
	breaks := breaksOf(t, 10, func(in *breaksim.BreakInput) { in.Scatter.Gap = 0.02 }, 11)
	observer.Observe(table.NineFoot(), setup(), breaks)
	if full, tempered := observer.ShareOf(belief.LooseRack), observed(t, breaks).ShareOf(belief.LooseRack); full < 0.8 || full <= tempered {
		t.Errorf("a loose rack has %.3f, tempered %.3f", full, tempered)
	}
	if observer, known := belief.NewObserver(response.Rack{}); known || observer != nil {
		t.Error("an observer of no game is known")
	}
}

// Control before power (common practice, no source): before a break was seen, who is asked
// for more speed is likelier to be unsteady, whenever it was asked for.
func TestStudent_WhoIsAskedForMoreIsLikelierUnsteady(t *testing.T) {
	ordinary, fast := setup(), setup()
	ordinary.Speed, fast.Speed = 17, 21
	unsteady := func(told ...drill.Setup) float64 {
		s, _ := belief.NewStudent(nineBall, drill.TablesPlay{})
		for _, one := range told {
			s.Observe(table.NineFoot(), one, nil)
		}
		return s.ShareOf(belief.Unsteady)
	}
	if less, more := unsteady(ordinary), unsteady(fast); more < 3*less {
		t.Errorf("unsteady with %.3f at 17 mph, %.3f at 21", less, more)
	}
	if first, last := unsteady(fast, ordinary), unsteady(ordinary, fast); first != last {
		t.Errorf("unsteady with %.3f where it was asked for first, %.3f where last", first, last)
	}
}
