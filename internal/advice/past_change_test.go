package advice

import (
	"encoding/json"
	"testing"

	"breakwright/internal/drill"
	"breakwright/internal/table"
)

// A change is judged by what was amiss before it: balls on the floor, scratches from two
// on in a fifth of the breaks, else what the part is moved for.
func TestPastChange_IsJudgedByWhatWasAmiss(t *testing.T) {
	scratches := func(n int) cueTally { return cueTally{scratchFar: n} }
	for _, c := range []struct {
		name     string
		variable Variable
		by       float64
		before   breakTally
		want     measure
	}{
		{"slower after a ball flew", VarySpeed, -1, breakTally{breaks: 10, off: 1}, offMeasure},
		{"slower", VarySpeed, -1, breakTally{breaks: 10}, windowMeasure},
		{"faster", VarySpeed, 0.9, breakTally{breaks: 10}, dryMeasure},
		{"faster though a ball flew", VarySpeed, 0.9, breakTally{breaks: 10, off: 1}, dryMeasure},
		{"the tip", VaryTip, -0.1, breakTally{breaks: 10}, windowMeasure},
		{"the tip after two scratches in ten", VaryTip, -0.1, breakTally{breaks: 10, cue: scratches(2)}, scratchMeasure},
		{"the tip after two in eleven", VaryTip, -0.1, breakTally{breaks: 11, cue: scratches(2)}, windowMeasure},
		{"the tip after one in four", VaryTip, -0.1, breakTally{breaks: 4, cue: scratches(1)}, windowMeasure},
		{"the spin", VarySpin, -0.1, breakTally{breaks: 10}, windowMeasure},
		{"the hit", VaryContact, -0.1, breakTally{breaks: 10}, wingMeasure},
		{"the hit after scratches", VaryContact, -0.1, breakTally{breaks: 10, cue: scratches(3)}, scratchMeasure},
		{"the place after scratches", VaryPlace, 2, breakTally{breaks: 10, cue: scratches(3)}, wingMeasure},
	} {
		m := pastChange{variable: c.variable, by: c.by, from: &setupRecord{tally: c.before}}
		if got := m.measure(); got.name != c.want.name {
			t.Errorf("%s: judged by %s, want %s", c.name, got.name, c.want.name)
		}
	}
}

// Where a change went back to a setup, what was seen there long before counts; but it has
// neither helped nor hurt while what came since rather says the opposite.
func TestPastChange_WaitsWhereWhatCameSinceSaysTheOpposite(t *testing.T) {
	wing := func(made, of int) breakTally { return breakTally{breaks: of, watched: of, wingMade: made} }
	for _, c := range []struct {
		name      string
		to, since breakTally
		how, want Outcome
	}{
		{"helped, since too", wing(30, 40), wing(8, 10), Helped, Helped},
		{"helped, since neither", wing(30, 40), wing(5, 10), Helped, Helped},
		{"hurt, since neither", wing(10, 40), wing(5, 10), Hurt, Hurt},
		{"helped, since worse", wing(30, 40), wing(2, 10), Helped, InTrial},
		{"helped, one break since, a miss", wing(30, 40), wing(0, 1), Helped, InTrial},
		{"hurt, since too", wing(10, 40), wing(2, 10), Hurt, Hurt},
		{"hurt, since better", wing(10, 40), wing(8, 10), Hurt, InTrial},
		{"helped, no earlier sets", wing(2, 10), wing(2, 10), Helped, Helped},
		{"hurt, no earlier sets", wing(8, 10), wing(8, 10), Hurt, Hurt},
	} {
		m := pastChange{variable: VaryPlace, from: &setupRecord{tally: wing(10, 20)}, to: &setupRecord{tally: c.to}, after: c.since}
		if got := m.unlessUnlikeSince(c.how, wingMeasure); got != c.want {
			t.Errorf("%s: %s, want %s", c.name, got, c.want)
		}
	}
}

// What hurt from here is what moved the same part the same way, as far or less far.
func TestHurtBefore_TheSameStepOrAFurtherOne(t *testing.T) {
	good, bad := scripted(t, setupWithTip(0), ordinaryWing+ordinaryWing, "w"), scripted(t, setupWithTip(-0.2), ordinaryWing+ordinaryWing, "b")
	l := analysisOf(good, bad, good)
	for _, c := range []struct {
		name   string
		change proposedChange
		hurt   bool
	}{
		{"the same", l.raiseTip(-0.2, reasonPlain), true},
		{"further", l.raiseTip(-0.3, reasonPlain), true},
		{"half of it", l.raiseTip(-0.1, reasonPlain), false},
		{"the other way", l.raiseTip(0.2, reasonPlain), false},
		{"another part", l.raiseSpeed(-2, reasonPlain), false},
	} {
		if got := l.hurtBefore(c.change, outcomeCertainty); got != c.hurt {
			t.Errorf("%s: hurt before is %v", c.name, got)
		}
	}
	if l := analysisOf(good, bad); l.hurtBefore(l.raiseTip(-0.2, reasonPlain), outcomeCertainty) {
		t.Error("a step from the setup before is taken for one from here")
	}
	if l := analysisOf(bad, good, bad); l.hurtBefore(l.raiseTip(0.2, reasonPlain), outcomeCertainty) {
		t.Error("what helped is taken for what hurt")
	}
}

// A rack order that hurt is that order alone.
func TestHurtBefore_ARackOrder(t *testing.T) {
	own := scripted(t, standardSetup(), "mmmmmmmmmmmmmmmmmmmm", "w")
	l := analysisOf(own)
	swapped, _ := l.swapBalls("2R", "3R")
	another, ok := l.swapBalls("2R", "4R")
	if !ok || swapped.to.Order == another.to.Order {
		t.Fatalf("no second order: %+v", another)
	}
	l = analysisOf(own, scripted(t, swapped.to, "ssssffffssssffffssss", "w"), own)
	if !l.hurtBefore(swapped, outcomeCertainty) || l.hurtBefore(another, outcomeCertainty) {
		t.Errorf("the order that hurt %v, another %v", l.hurtBefore(swapped, outcomeCertainty), l.hurtBefore(another, outcomeCertainty))
	}
	if !l.reversesLastChange(swapped) || l.reversesLastChange(l.raiseSpeed(-2, reasonPlain)) {
		t.Error("another order goes back on an order, and nothing else does")
	}
}

// A tenth of a radius is a step, and the next one goes on from it.
func TestChange_GoesOnByTenths(t *testing.T) {
	l := analysisOf(scripted(t, setupWithTip(0), ordinaryWing, "w"), scripted(t, setupWithTip(-0.1), ordinaryWing, "w"))
	lower, higher := l.raiseTip(-0.1, reasonPlain), l.raiseTip(0.1, reasonPlain)
	if !l.continuesLastChange(lower) || l.continuesLastChange(higher) || l.reversesLastChange(lower) || !l.reversesLastChange(higher) {
		t.Error("a lower tip after a lower tip goes on, a higher one goes back")
	}
	if inward := l.moveCueBallOut(4, reasonPlain); l.reversesLastChange(inward) {
		t.Error("a place goes back on a tip")
	}
}

// What is asked for is told by the inch, the tenth and the half mile; what would be less
// than that is not asked for, and a limit is never passed.
func TestChange_IsWorthTelling(t *testing.T) {
	with := func(change func(*drill.Setup)) *analysis {
		s := standardSetup()
		change(&s)
		return analysisOf(scripted(t, s, ordinaryWing, "w"))
	}
	place := func(out table.Inches) *analysis { return with(func(s *drill.Setup) { s.Cue.X = -out }) }
	hit := func(c table.Inches) *analysis { return with(func(s *drill.Setup) { s.Contact = c }) }
	tip := func(r drill.RadiusFraction) *analysis { return with(func(s *drill.Setup) { s.Tip = r }) }
	speed := func(v table.Mph) *analysis { return with(func(s *drill.Setup) { s.Speed = v }) }
	for _, c := range []struct {
		name      string
		got, want float64
	}{
		{"an inch out", float64(distanceOut(place(18).moveCueBallOut(1, reasonPlain).to)), 19},
		{"half an inch to the limit is none", float64(distanceOut(place(22).moveCueBallOut(2, reasonPlain).to)), 22},
		{"in, as far as the long string", float64(distanceOut(place(3).moveCueBallOut(-4, reasonPlain).to)), 0},
		{"a hit off the grain", float64(hit(0.24).shiftContact(0.1, reasonPlain).to.Contact), 0.3},
		{"a hit by less than a twentieth", float64(hit(0.26).shiftContact(0.05, reasonPlain).to.Contact), 0.26},
		{"a tip off the grain", float64(tip(-0.16).raiseTip(0.1, reasonPlain).to.Tip), -0.1},
		{"a tip at its limit", float64(tip(0.4).raiseTip(0.1, reasonPlain).to.Tip), 0.4},
		{"faster, never less than asked", float64(speed(17.3).raiseSpeed(0.9, reasonPlain).to.Speed), 18.5},
		{"slower, never less than asked", float64(speed(17.3).raiseSpeed(-0.9, reasonPlain).to.Speed), 16},
		{"no faster than is taught", float64(speed(24).raiseSpeed(1, reasonPlain).to.Speed), 24},
		{"another rack order moves nothing", partDifference(VaryRack, standardSetup(), setupAtDistance(12)), 0},
	} {
		if c.got != c.want {
			t.Errorf("%s: %v, want %v", c.name, c.got, c.want)
		}
	}
}

// A part that is no number, and one beyond what is taught, become what may be asked for.
func TestWithinLimits_WhatIsNoNumberIsOrdinary(t *testing.T) {
	nan := func() table.Inches { zero := table.Inches(0); return zero / zero }()
	k, s := table.NineFoot(), standardSetup()
	s.Cue, s.Contact, s.Tip, s.Spin, s.Speed = table.Place{X: nan, Y: nan}, nan, drill.RadiusFraction(nan), drill.RadiusFraction(nan), table.Mph(nan)
	if got := withinLimits(s, k); got != standardSetup() {
		t.Errorf("%+v, want the ordinary %+v", got, standardSetup())
	}
	s = standardSetup()
	s.Cue = table.Place{X: 0.5, Y: k.HeadString() + 2}
	if got := withinLimits(s, k).Cue; got != (table.Place{X: 0, Y: k.HeadString()}) {
		t.Errorf("from across the long string and the head string: %v", got)
	}
}

// A value is a number, a text or nothing, on the page and in JSON.
func TestValue_KeepsItsKind(t *testing.T) {
	for _, c := range []struct {
		value    Value
		text     string
		isNumber bool
	}{
		{NumberValue(18.25), "18.25", true}, {NumberValue(-0.1), "-0.1", true}, {TextValue("1-3-2"), "1-3-2", false}, {Value{}, "", false},
	} {
		written, err := json.Marshal(c.value)
		if err != nil {
			t.Fatal(err)
		}
		var read Value
		if err := json.Unmarshal(written, &read); err != nil || read != c.value || c.value.String() != c.text || c.value.IsNumber() != c.isNumber {
			t.Errorf("%s is read as %+v (%v), %q, a number is %v", written, read, err, c.value, c.value.IsNumber())
		}
	}
	for _, bad := range []string{"true", "[1]", "1e"} {
		if err := new(Value).UnmarshalJSON([]byte(bad)); err == nil {
			t.Errorf("%s is taken for a value", bad)
		}
	}
}

// Only a step that goes straight back takes back what the one before made worse.
func TestMadeWorse_StraightBackOnly(t *testing.T) {
	wing := func(made int) *setupRecord {
		return &setupRecord{tally: breakTally{breaks: 20, watched: 20, wingMade: made}}
	}
	good, bad, other := wing(18), wing(2), wing(18)
	m := pastChange{variable: VaryPlace, by: 2, from: good, to: bad}
	for _, c := range []struct {
		name     string
		from, to *setupRecord
		want     bool
	}{{"back", bad, good, true}, {"on from there", bad, other, false}, {"back from elsewhere", other, good, false}} {
		if got := m.madeWorse(pastChange{from: c.from, to: c.to}) != nil; got != c.want {
			t.Errorf("%s: takes it back %v", c.name, got)
		}
	}
}

// Measured speeds drift by themselves: from 0.8 mph on one was changed.
func TestCompareRecords_SpeedsThatDrift(t *testing.T) {
	for speed, changed := range map[table.Mph]bool{17.7: false, 17.9: true} {
		m := compareRecords(&setupRecord{setup: setupWithSpeed(17)}, &setupRecord{setup: setupWithSpeed(speed)})
		if m.drift == changed || (m.variable == VarySpeed) != changed {
			t.Errorf("from 17 to %v mph: %+v", speed, m)
		}
	}
}

// What came of a change is said from eight breaks on; that it made no real difference where
// it is 95 % sure that the rate moved by less than fifteen in a hundred: of half the breaks
// before and after 1.96 standard deviations of the difference of two normals with the spread of
// the two beta distributions (Abramowitz and Stegun 1964, table 26.1) are 0.1503 after
// 82 breaks, 0.1494 after 83. None of ten before and after is too few: a fifth of all makes
// ten misses in a row once in ten times.
func TestJudgeOutcome_FromHowManyBreaks(t *testing.T) {
	for _, c := range []struct {
		before, madeBefore, after, madeAfter int
		want                                 Outcome
	}{
		{20, 20, 7, 0, InTrial}, {20, 20, 8, 0, Hurt},
		{78, 39, 78, 39, InTrial}, {88, 44, 88, 44, NoDifference},
		{10, 0, 10, 0, InTrial}, {30, 0, 30, 0, NoDifference},
	} {
		record := func(of, made int) *setupRecord {
			return &setupRecord{tally: breakTally{breaks: of, watched: of, wingMade: made}}
		}
		m := pastChange{variable: VaryPlace, by: 2, from: record(c.before, c.madeBefore), to: record(c.after, c.madeAfter)}
		if how, by, _ := m.judgeOutcome(outcomeCertainty); how != c.want {
			t.Errorf("%d of %d, then %d of %d: %s, want %s (the same %.3f)", c.madeBefore, c.before, c.madeAfter, c.after, how, c.want, m.probSame(by))
		}
	}
}
