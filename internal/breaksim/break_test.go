package breaksim

import (
	"errors"
	"math"
	"reflect"
	"testing"

	"breakwright/internal/rack"
	"breakwright/internal/table"
)

// everyKind calls f with a break of each game on each size of table.
func everyKind(t *testing.T, f func(t *testing.T, tb *Table, in BreakInput)) {
	for _, k := range []table.Kind{table.SevenFoot(), table.EightFoot(), table.NineFoot()} {
		tb, err := NewTable(Defaults(), k)
		if err != nil {
			t.Fatal(err)
		}
		for _, g := range rack.Games() {
			for _, spot := range g.Spots() {
				in := leftBreak()
				in.Game, in.Spot, in.Order = g, spot, g.PracticeOrder(table.Left)
				in.Cue = table.Place{X: -k.Width() * 0.36, Y: k.HeadString()}
				in.Scatter = human()
				t.Run(k.String()+"/"+string(g)+"/"+string(spot), func(t *testing.T) { f(t, tb, in) })
			}
		}
	}
}

// Energy never grows from event to event of whole breaks; every ball is accounted
// for; every break settles, loses no ball and holds no NaN. Balls at rest do not
// overlap by more than the allowed overlap of touching balls and the slack of a
// pressed cluster.
func TestBreak_EnergyFallsAndEveryBallIsAccountedFor(t *testing.T) {
	everyKind(t, func(t *testing.T, tb *Table, in BreakInput) {
		for i := range 20 {
			s := tb.setUpBreak(in, seeded(i))
			energy := math.Inf(1)
			s.afterEvent = func(s *simulation) {
				if s.press.count > 0 {
					return // part of it is in the springs
				}
				now := totalEnergy(s)
				if now > energy*(1+1e-9)+1e-12 {
					t.Fatalf("break %d, %.6f s: energy grew from %.12g to %.12g J", i, s.now, energy, now)
				}
				energy = now
			}
			s.runToRest()
			r := s.buildResult(in.withDefaults())
			checkSettled(t, tb, r)
		}
	})
}

func totalEnergy(s *simulation) float64 {
	sum := 0.0
	for i := range s.n {
		b := s.balls[i]
		if b.isFree() {
			s.c.advanceBall(&b, s.now)
		}
		sum += s.c.ballEnergy(&b)
	}
	return sum
}

func checkSettled(t *testing.T, tb *Table, r BreakResult) {
	t.Helper()
	if r.Unsettled || r.Lost > 0 {
		t.Fatalf("unsettled %v, lost %d after %d events and %.1f s", r.Unsettled, r.Lost, r.Events, r.Seconds)
	}
	dropped := 0
	for i, a := range r.Balls {
		if math.IsNaN(float64(a.Place.X + a.Place.Y)) {
			t.Fatalf("ball %d rests at %v", i, a.Place)
		}
		if a.End == Dropped && i != cue {
			dropped++
		}
		for _, b := range r.Balls[:i] {
			if a.End == Stopped && b.End == Stopped {
				if gap := a.Place.Distance(b.Place) - table.BallDiameter; gap < -0.002 {
					t.Errorf("balls %v and %v rest overlapping by %s in", a.Ball, b.Ball, -gap)
				}
			}
		}
	}
	if dropped != len(r.Pocketed) || len(r.Balls) != 1+r.Game.BallCount() {
		t.Errorf("%d balls dropped, %d told, %d in all", dropped, len(r.Pocketed), len(r.Balls))
	}
}

// The break from the right is the mirror of the break from the left, to the last
// bit, with scatter and without, paths and all; from the long string too, where
// the Side says which is which.
func TestBreak_MirrorsToTheLastBit(t *testing.T) {
	everyKind(t, func(t *testing.T, tb *Table, in BreakInput) {
		in.Paths = true
		for i := range 10 {
			if i%3 == 1 {
				in.Cue.X, in.Contact, in.Spin = 0, 0.2, 0
			}
			if i%3 == 2 {
				in.Contact, in.Spin = -0.1, 0.1
			}
			left := mustBreak(t, tb, in, seeded(i))
			right := mustBreak(t, tb, in.Mirror(), seeded(i))
			if !reflect.DeepEqual(right.Mirror(), left) || !reflect.DeepEqual(right, left.Mirror()) {
				t.Fatalf("break %d from the right is not the mirror of the one from the left", i)
			}
			if left.Balls[0].Place == right.Balls[0].Place {
				t.Fatalf("break %d: the cue ball ends at the same place from both sides: nothing was mirrored", i)
			}
			if !reflect.DeepEqual(mustBreak(t, tb, in, nil), mustBreak(t, tb, in.Mirror(), nil).Mirror()) {
				t.Fatalf("without scatter break %d is not mirrored", i)
			}
		}
	})
}

// Mirroring swaps what has a side and nothing else.
func TestResult_MirrorSwapsSides(t *testing.T) {
	in := leftBreak()
	in.Paths, in.Contact = true, 0.1
	left := mustBreak(t, nineFoot(t, nil), in, nil)
	right := left.Mirror()
	if right.Hit.Offset != -left.Hit.Offset || right.Hit.Fullness != left.Hit.Fullness || right.Rails != left.Rails {
		t.Errorf("hit %+v and %+v, rails %d and %d", left.Hit, right.Hit, left.Rails, right.Rails)
	}
	for _, slot := range rack.NineBall.Slots() {
		a, _ := left.BallInSlot(slot)
		b, ok := right.BallInSlot(slot.Mirror())
		if !ok || b.Ball != a.Ball || b.Heading != table.FlipSign(a.Heading) || b.Place != a.Place.Mirror() || b.LeftAt != a.LeftAt || b.Met != a.Met {
			t.Errorf("slot %s: %+v became %+v", slot, a, b)
		}
		if a.End == Dropped && b.Pocket != a.Pocket.Mirror() {
			t.Errorf("slot %s dropped in %s and %s", slot, a.Pocket, b.Pocket)
		}
		if len(a.Path) > 0 && b.Path[0].Control != a.Path[0].Control.Mirror() {
			t.Errorf("slot %s: its path is not mirrored", slot)
		}
	}
	if _, ok := left.BallInSlot("5L"); ok {
		t.Error("nine-ball has a slot 5L")
	}
	if left.CueBallEnd().Ball != 0 || !reflect.DeepEqual(right.Mirror(), left) {
		t.Error("mirroring twice is not the identity")
	}
}

// The same seed gives the same break, another seed another one.
func TestBreak_DeterminedBySeed(t *testing.T) {
	tb := nineFoot(t, nil)
	in := leftBreak()
	in.Scatter, in.Paths = human(), true
	a, b, c := mustBreak(t, tb, in, seeded(1)), mustBreak(t, tb, in, seeded(1)), mustBreak(t, tb, in, seeded(2))
	if !reflect.DeepEqual(a, b) {
		t.Error("two breaks with the same seed differ")
	}
	if reflect.DeepEqual(a.Balls, c.Balls) {
		t.Error("two breaks with different seeds are the same")
	}
}

func TestBreak_RefusesWhatCannotBeBroken(t *testing.T) {
	tb := nineFoot(t, nil)
	nan := math.NaN()
	for name, spoil := range map[string]func(*BreakInput){
		"unknown game":        func(in *BreakInput) { in.Game = "snooker" },
		"order of other game": func(in *BreakInput) { in.Order = rack.TenBall.PracticeOrder(table.Left) },
		"cue ball in a rail":  func(in *BreakInput) { in.Cue.X = 25 },
		"cue ball in rack":    func(in *BreakInput) { in.Cue = table.Place{X: 0, Y: 74} },
		"cue ball nowhere":    func(in *BreakInput) { in.Cue.X = table.Inches(nan) },
		"no speed":            func(in *BreakInput) { in.Speed = 0 },
		"absurd speed":        func(in *BreakInput) { in.Speed = 400 },
		"speed not a number":  func(in *BreakInput) { in.Speed = table.Mph(nan) },
		"miscue":              func(in *BreakInput) { in.Tip, in.Spin = -0.5, 0.5 },
		"misses the rack":     func(in *BreakInput) { in.Contact = 2.3 },
		"cue upright":         func(in *BreakInput) { in.Elevation = 90 },
		"negative scatter":    func(in *BreakInput) { in.Scatter.Aim = -1 },
		"gap not a number":    func(in *BreakInput) { in.Scatter.Gap = table.Inches(nan) },
		"unknown spot":        func(in *BreakInput) { in.Spot = "tail" },
		"unknown side":        func(in *BreakInput) { in.Side = "middle" },
	} {
		in := leftBreak()
		spoil(&in)
		if _, err := tb.ComputeBreak(in, nil); !errors.Is(err, ErrInput) {
			t.Errorf("%s: error %v, want ErrInput", name, err)
		}
	}
	if tb.Kind() != table.NineFoot() || tb.Params() != Defaults() {
		t.Error("the table does not say what it was made of")
	}
	if _, err := NewTable(ModelParams{}, table.NineFoot()); !errors.Is(err, ErrParams) {
		t.Errorf("no constants: error %v, want ErrParams", err)
	}
	if _, err := NewTable(Defaults(), table.Kind{Feet: 6}); err == nil {
		t.Error("a table of 6 feet was made")
	}
}

// What was left empty is filled in.
func TestBreak_FillsInWhatIsUsual(t *testing.T) {
	tb := nineFoot(t, nil)
	full := leftBreak()
	short := BreakInput{Game: full.Game, Cue: full.Cue, Tip: full.Tip, Speed: full.Speed}
	if !reflect.DeepEqual(mustBreak(t, tb, full, nil), mustBreak(t, tb, short, nil)) {
		t.Error("a break with its usual parts left out is another break")
	}
}

// Every constant stands in its listing once, its default plausible, with words,
// unit and source; and each one matters or limits the computation.
func TestListParams_IsComplete(t *testing.T) {
	fields := reflect.TypeFor[ModelParams]().NumField()
	if len(ListParams()) != fields {
		t.Errorf("%d rows for %d constants", len(ListParams()), fields)
	}
	seen := map[string]bool{}
	for i, row := range ListParams() {
		if seen[row.Key] || row.Key == "" || row.Description == "" || row.Unit == "" || row.Source == "" {
			t.Errorf("row %q is double or incomplete", row.Key)
		}
		seen[row.Key] = true
		if !(row.Low <= row.Default && row.Default <= row.High) {
			t.Errorf("%s: default %g is not within %g to %g", row.Key, row.Default, row.Low, row.High)
		}
		p := Defaults()
		row.SetValueIn(&p, row.High+1)
		if p.Check() == nil {
			t.Errorf("%s of %g was taken", row.Key, row.High+1)
		}
		if got := reflect.ValueOf(p).Field(i).Float(); got != row.High+1 {
			t.Errorf("%s sets another constant: field %d is %g", row.Key, i, got)
		}
	}
}

// Extremes end, and say so when they are cut short.
func TestBreak_AlwaysEnds(t *testing.T) {
	tb := nineFoot(t, nil)
	for i := range 100 {
		in := leftBreak()
		in.Speed, in.Elevation = Fastest, Degrees(i%45)
		in.Tip, in.Spin = RadiusFraction(i%11-5)/11, RadiusFraction(i%5-2)/10
		in.Contact = table.Inches(i%7-3) / 2
		in.Scatter = StrokeScatter{Aim: 1, Speed: 1, Tip: 0.1, Place: 1, Gap: table.Inches(i%5) / 10}
		r := mustBreak(t, tb, in, seeded(i))
		checkSettled(t, tb, r)
	}
	short := nineFoot(t, func(p *ModelParams) { p.MaxEvents = 2000 })
	short.c.maxEvents = 10
	if r := mustBreak(t, short, leftBreak(), nil); !r.Unsettled || r.Events != 10 {
		t.Errorf("cut short after %d events: unsettled %v", r.Events, r.Unsettled)
	}
}
