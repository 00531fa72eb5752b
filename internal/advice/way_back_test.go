package advice

import (
	"testing"

	"breakwright/internal/drill"
	"breakwright/internal/table"
)

// What took speed off because balls flew is not taken back.
func TestIsSafetyChange_LessSpeedAfterBallsFlew(t *testing.T) {
	l := analysisOf(scripted(t, standardSetup(), ordinaryWing, "w"))
	flew, quiet := &setupRecord{tally: breakTally{breaks: 10, off: 3}}, &setupRecord{tally: breakTally{breaks: 10}}
	for _, c := range []struct {
		name string
		m    pastChange
		want bool
	}{
		{"slower after balls flew", pastChange{variable: VarySpeed, by: -1, from: flew}, true},
		{"faster after balls flew", pastChange{variable: VarySpeed, by: 0.9, from: flew}, false},
		{"slower", pastChange{variable: VarySpeed, by: -1, from: quiet}, false},
		{"a lower tip after balls flew", pastChange{variable: VaryTip, by: -0.1, from: flew}, false},
	} {
		if got := l.isSafetyChange(c.m); got != c.want {
			t.Errorf("%s: %v", c.name, got)
		}
	}
}

// A setup that was left step by step is gone back to when it was surely better, on eight
// breaks or more, and differs in one part alone; of several, the one with the most good
// breaks.
func TestFindBetterTried_OnePartApart(t *testing.T) {
	good, better := "mmmmmmmfmm", "mmmmmmmmmm"
	bad := scripted(t, setupAtDistance(14), "ssfssssfssssfsssssfs", "w")
	far := setupAtDistance(18)
	two := far
	two.Tip = -0.3
	for _, c := range []struct {
		name  string
		tried []drill.Set
		want  table.Inches // out; 0 for none
	}{
		{"none", nil, 0},
		{"better", []drill.Set{scripted(t, far, good, "w")}, 18},
		{"better, on eight breaks", []drill.Set{scripted(t, far, better[:8], "w")}, 18},
		{"better, on seven", []drill.Set{scripted(t, far, better[:7], "w")}, 0},
		{"better, two parts apart", []drill.Set{scripted(t, two, good, "w")}, 0},
		{"not better", []drill.Set{scripted(t, far, "sfsfsfsfsf", "w")}, 0},
		{"two alike, the one tried first", []drill.Set{scripted(t, far, good, "w"), scripted(t, setupAtDistance(20), good, "w")}, 18},
		{"two, the first the better", []drill.Set{scripted(t, setupAtDistance(20), better, "w"), scripted(t, far, good, "w")}, 20},
		{"two, the second the better", []drill.Set{scripted(t, far, good, "w"), scripted(t, setupAtDistance(20), better, "w")}, 20},
	} {
		l := analysisOf(append(c.tried, bad)...)
		m, _, found := l.findBetterTried()
		if found != (c.want != 0) || found && distanceOut(m.from.setup) != c.want {
			t.Errorf("%s: found %v", c.name, found)
		}
	}
}

// The way back is told from ten breaks after the change on, unless a coach has decided on
// it, the room's box forbids it or the rule is off.
func TestApplyFollowUp_WhenTheWayBackIsTold(t *testing.T) {
	history := func(after int) []drill.Set {
		return numberSets(scripted(t, setupAtDistance(18), "mmmmmmmmmmmmmmmmmmmm", "w"), scripted(t, setupAtDistance(14), "ssssfssssfss"[:after], "w"))
	}
	off := DefaultRules()
	n := off.Numbers[RuleFollowUp]
	n.On = false
	off.Numbers[RuleFollowUp] = n
	for _, c := range []struct {
		name  string
		after int
		brief Brief
		want  bool
	}{
		{"ten breaks", 10, Brief{}, true},
		{"nine", 9, Brief{}, false},
		{"a coach's decision", 10, Brief{Overrides: []Override{{Rule: RuleFollowUp, Breaks: 10}}}, false},
		{"a box of sixteen inches", 10, Brief{House: drill.HouseRules{BreakBox: 16}}, false},
		{"switched off", 10, Brief{Rules: off}, false},
	} {
		l := newAnalysis(history(c.after), c.brief)
		var d decision
		l.applyFollowUp(&d)
		if changed := d.change != nil; changed != c.want || changed && distanceOut(d.change.to) != 18 {
			t.Errorf("%s: the way back is told %v, %+v", c.name, changed, d.change)
		}
	}
	l := newAnalysis(history(10), Brief{})
	first := l.moveCueBallOut(1, reasonPlain)
	d := decision{change: &first}
	if l.applyFollowUp(&d); d.change != &first {
		t.Error("it takes the place of what was more pressing")
	}
}

// The name of how it turned out tells too early from not enough to tell.
func TestOutcomeName_TooEarlyUnderEightBreaks(t *testing.T) {
	for _, c := range []struct {
		how   Outcome
		after int
		want  string
	}{{InTrial, 7, "too early"}, {InTrial, 8, "in trial"}, {Hurt, 7, "hurt"}} {
		if got := outcomeName(&FollowUp{Outcome: c.how, OfAfter: c.after}); got != c.want {
			t.Errorf("%s after %d: %s", c.how, c.after, got)
		}
	}
}

// Whoever broke slower because balls flew is not sent back to the speed, though more fly.
func TestFollowUp_LeavesASafetyChange(t *testing.T) {
	history := numberSets(scripted(t, setupWithSpeed(20), ordinaryWing+ordinaryWing, "oowwowwwwwoowwowwwww"), scripted(t, setupWithSpeed(18), ordinaryWing+ordinaryWing, "o"))
	l := newAnalysis(history, Brief{})
	last, _ := l.lastChange()
	if how, _, _ := last.judgeOutcome(l.undoCertainty()); how != Hurt {
		t.Fatalf("the slower breaks are %s, want hurt", how)
	}
	var d decision
	if l.applyFollowUp(&d); d.change != nil {
		t.Errorf("told to break at %v again", d.change.to.Speed)
	}
	if m, _, found := l.findBetterTried(); found {
		t.Errorf("%v mph was better", m.from.setup.Speed)
	}
}

// Of a step back to an earlier setup what came since counts, not what was seen there before.
func TestChangeFrom_TheLastStepOrSeveralAsOne(t *testing.T) {
	near, far := scripted(t, setupAtDistance(14), ordinaryWing, "w"), scripted(t, setupAtDistance(18), ordinaryWing, "w")
	l := analysisOf(near, far, scripted(t, setupAtDistance(20), ordinaryWing, "w"), far, near)
	for n, want := range map[int]struct {
		after  int
		isLast bool
	}{1: {10, true}, 2: {20, false}} {
		m := l.changeFrom(l.records[n])
		if m.from != l.records[n] || m.to != l.currentRecord() || m.after.breaks != want.after || l.isLastChange(m) != want.isLast {
			t.Errorf("from %v out: %d breaks after, the last is %v", distanceOut(m.from.setup), m.after.breaks, l.isLastChange(m))
		}
	}
	if none := analysisOf(near); none.isLastChange(pastChange{}) {
		t.Error("nothing is the last change of one setup")
	}
}

func TestShareOfGood_OfWatchedBreaks(t *testing.T) {
	for _, c := range []struct {
		tally breakTally
		want  float64
	}{
		{breakTally{}, 0},
		{breakTally{watched: 1, wingMade: 1}, 1},
		{breakTally{watched: 10, wingMade: 6, clean: 3}, 0.9},
	} {
		if got := shareOfGood(&setupRecord{tally: c.tally}); got != c.want {
			t.Errorf("of %d watched: %v, want %v", c.tally.watched, got, c.want)
		}
	}
}

// Only rules that are on and change something say how sure a change was.
func TestUndoCertainty_OfRulesThatChangeSomething(t *testing.T) {
	for i := range patternRules {
		for _, on := range []bool{true, false} {
			l := analysisOf(scripted(t, standardSetup(), ordinaryWing, "w"))
			l.rules = DefaultRules()
			n := l.rules.Numbers[patternRules[i].Name]
			n.On, n.Certainty = on, 0.999
			l.rules.Numbers[patternRules[i].Name] = n
			if counts := l.undoCertainty() == 0.999; counts != (on && patternRules[i].proposeChanges != nil) {
				t.Errorf("%s, on %v: counts %v", patternRules[i].Name, on, counts)
			}
		}
	}
}
