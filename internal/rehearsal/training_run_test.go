package rehearsal

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"breakwright/internal/advice"
	"breakwright/internal/drill"
	"breakwright/internal/rack"
	"breakwright/internal/table"
)

func TestChangeOf_NamesVariableAndWay(t *testing.T) {
	start := drill.StandardSetup(rack.NineBall, table.Left, table.NineFoot())
	swapped, err := start.Order.SwapSlots(start.Game, "2L", "2R")
	if err != nil {
		t.Fatal(err)
	}
	for name, c := range map[string]struct {
		change func(*drill.Setup)
		want   Remedy
		is     bool
	}{
		"nothing":          {func(*drill.Setup) {}, Remedy{}, false},
		"out":              {func(s *drill.Setup) { s.Cue.X -= 2 }, Remedy{Variable: advice.VaryPlace, Up: true}, true},
		"in":               {func(s *drill.Setup) { s.Cue.X += 2 }, Remedy{Variable: advice.VaryPlace}, true},
		"back":             {func(s *drill.Setup) { s.Cue.Y -= 2 }, Remedy{Variable: advice.VaryPlace}, true},
		"to the far side":  {func(s *drill.Setup) { s.Contact += 0.1 }, Remedy{Variable: advice.VaryContact, Up: true}, true},
		"lower":            {func(s *drill.Setup) { s.Tip -= 0.1 }, Remedy{Variable: advice.VaryTip}, true},
		"faster":           {func(s *drill.Setup) { s.Speed++ }, Remedy{Variable: advice.VarySpeed, Up: true}, true},
		"another rack":     {func(s *drill.Setup) { s.Order = swapped }, Remedy{Variable: advice.VaryRack}, true},
		"less than a hair": {func(s *drill.Setup) { s.Tip += 0.001 }, Remedy{}, false},
	} {
		to := start
		c.change(&to)
		for _, side := range []table.Side{table.Left, table.Right} {
			if got, is := findChange(start.ForSide(side), to.ForSide(side)); got != c.want || is != c.is {
				t.Errorf("%s from the %s: %+v %v, want %+v %v", name, side, got, is, c.want, c.is)
			}
		}
	}
}

// scriptedBreaker is a breaker whose wing ball falls as it is told.
type scriptedBreaker struct{ made []bool }

func (s *scriptedBreaker) Break(setup drill.Setup, _ *rand.Rand) drill.Break {
	b := drill.Break{Cue: drill.CueEnd{How: drill.Stopped, Place: table.Place{Y: 40}}}
	if s.made[0] {
		b.Pocketed = []drill.Pocketed{{Ball: setup.WingBall(), Pocket: setup.WingPocket()}}
	}
	s.made = append(s.made[1:], s.made[0])
	return b
}

func scriptedStudent(perSet ...int) Student {
	var s scriptedBreaker
	for _, made := range perSet {
		for i := range drill.UsualBreaks {
			s.made = append(s.made, i < made)
		}
	}
	k := table.NineFoot()
	return Student{Name: "S", Breaker: &s, Kind: k, Start: drill.StandardSetup(rack.NineBall, table.Right, k), Window: k.StandardWindow()}
}

func TestInchwise_TurnsWhenASetWasWorse(t *testing.T) {
	s := scriptedStudent(2, 3, 1, 2, 5, 4)
	known := newRateCounter(s, 1)
	known.student = scriptedStudent(1) // true rates must not use the script up
	l := runTraining(s, inchwiseAdviser{0.5}, known, 6, 1)
	var places []table.Inches
	for _, setup := range l.setups {
		places = append(places, setup.Cue.X)
	}
	if want := []table.Inches{18, 17, 16, 17, 18, 18, 17}; !slices.Equal(places, want) {
		t.Errorf("places %v, want %v", places, want)
	}
	if l.changedAfter != 1 || l.change != (Remedy{Variable: advice.VaryPlace}) {
		t.Errorf("first change %+v after %d", l.change, l.changedAfter)
	}
}

func TestTruth_CountsWingWindowAndBoth(t *testing.T) {
	s := scriptedStudent(3)
	if got, want := newRateCounter(s, 1).usualRates(s.Start), (Rates{Wing: 0.3, Window: 1, Good: 0.3, Middle: 1, Dry: 0.7, Clean: 0.3, Worth: 0.3}); got != want {
		t.Errorf("%+v, want %+v", got, want)
	}
}

// Worth: 1 for each clean break and each open shot, less 1 for a scratch or a weak break, less
// 2 for a ball on the floor.
func TestRates_WhatBreaksAreWorth(t *testing.T) {
	c := breakCounts{breaks: 100, clean: 60, openShot: 41, scratch: 10, weak: 20, off: 5}
	if got := c.toRates(); math.Abs(got.Worth-(0.60+0.41-0.10-0.20-0.10)) > 1e-12 || got.Weak != 0.2 {
		t.Errorf("%+v", got)
	}
}

func TestTrainingRun_WhatIsMadeOfTheTruth(t *testing.T) {
	l := trainingRun{trueRates: []Rates{{Good: 0.2}, {Good: 0.35}, {Good: 0.385}, {Good: 0.1}}}
	if got := l.setsUntilClose(0.4); got != 2 {
		t.Errorf("near the best after %d sets, want 2", got)
	}
	if l.setsUntilClose(0.5) != 0 || l.isClose(l.finalRates(), 0.4) {
		t.Error("near a best that was not reached or not kept")
	}
	if got := l.meanValue(); got < 0.3116 || got > 0.3117 {
		t.Errorf("mean %v: the setup after the last set must not count", got)
	}
	l.good = []bool{false, true, false}
	if l.wronglyCalledGood(0.4, 0.1) || !l.wronglyCalledGood(0.5, 0.1) {
		t.Error("0.35 is called good: right when the best is 0.4, wrong when it is 0.5")
	}
	if got := l.gain(); got > -0.09 || got < -0.11 {
		t.Errorf("gain %v, want -0.1", got)
	}
	l.student.byWorth = true
	if l.gain() != 0 {
		t.Error("of a computed student the worth counts, not the good breaks")
	}
}

func TestTrainingRun_ToAndFroIsTwoReversalsOfOnePart(t *testing.T) {
	setupsAt := func(places ...table.Inches) (list []drill.Setup) {
		for _, x := range places {
			s := drill.StandardSetup(rack.NineBall, table.Left, table.NineFoot())
			s.Cue.X = x
			list = append(list, s)
		}
		return list
	}
	for name, c := range map[string]struct {
		places []table.Inches
		want   int
	}{
		"on and on":             {[]table.Inches{-18, -16, -14, -14, -12}, 0},
		"there and back":        {[]table.Inches{-18, -16, -18, -18}, 1},
		"there, back and there": {[]table.Inches{-18, -16, -18, -18, -16}, 2},
	} {
		if got := (trainingRun{setups: setupsAt(c.places...)}).countReversals(); got != c.want {
			t.Errorf("%s: %d reversals, want %d", name, got, c.want)
		}
	}
}

// What is right of a first change: the fault's own part without harm, or a change as
// good as the best; of those who cannot be helped, one that helps all the same.
func TestStudentOutcome_RightAndUseless(t *testing.T) {
	from := studentSource{margin: 0.08, worthwhile: 0.12}
	in := Remedy{Variable: advice.VaryPlace}
	for name, c := range map[string]struct {
		advised        Remedy
		best, then     float64
		right, useless bool
	}{
		"the fault's own part":         {in, 0.5, 0.1, true, false},
		"the same, with harm":          {in, 0.5, -0.2, false, true},
		"another part, as good":        {Remedy{Variable: advice.VaryTip}, 0.5, 0.45, true, false},
		"another part, half as good":   {Remedy{Variable: advice.VaryTip}, 0.5, 0.25, false, false},
		"nobody can help, and nothing": {Remedy{Variable: advice.VaryTip}, 0.05, 0.01, false, true},
		"nobody can help, a little":    {Remedy{Variable: advice.VaryTip}, 0.1, 0.09, true, false},
		"the rack":                     {Remedy{Variable: checkOfRack}, 0.5, 0, false, false},
	} {
		o := studentOutcome{
			student: Student{byWorth: true, Remedies: []Remedy{in}}, best: bestChange{value: 1 + c.best},
			start:   Rates{Worth: 1},
			advised: trainingRun{change: c.advised, changedAfter: 2, changedTo: Rates{Worth: 1 + c.then}},
		}
		if right, useless := from.isFirstChangeRight(o), o.isFirstChangeUseless(); right != c.right || useless != c.useless {
			t.Errorf("%s: right %v, useless %v", name, right, useless)
		}
	}
}
