package advice

import (
	"testing"

	"breakwright/internal/drill"
)

// A setup loses the cue ball from the second ball on the floor on, or when it scratches
// likelier than not in more than a fifth of the breaks.
func TestLosesCueBall_FloorAndScratches(t *testing.T) {
	for _, c := range []struct {
		off, scratches int
		want           bool
	}{{0, 0, false}, {1, 0, false}, {2, 0, true}, {0, 3, false}, {0, 4, true}, {1, 3, false}} {
		l := analysisWith(t, standardSetup(), breakTally{breaks: 20, watched: 20, off: c.off, cue: cueTally{scratchFoot: c.scratches}})
		if got := l.losesCueBall(); got != c.want {
			t.Errorf("%d on the floor and %d scratches in twenty: %v", c.off, c.scratches, got)
		}
	}
}

// A break that leaves an open shot clearly less often than one in three is not called good,
// from eight on of which the shot was noted.
func TestSeldomLeavesShot_OneInThree(t *testing.T) {
	for _, c := range []struct {
		open, seen int
		want       bool
	}{{0, 7, false}, {0, 8, true}, {1, 10, true}, {2, 10, false}, {3, 20, true}, {4, 20, true}, {5, 20, false}} {
		l := analysisWith(t, standardSetup(), breakTally{breaks: 20, watched: 20, openShot: c.open, shotSeen: c.seen})
		if got := l.seldomLeavesShot(); got != c.want {
			t.Errorf("%d open of %d noted: seldom is %v", c.open, c.seen, got)
		}
	}
}

// A goal that nobody wrote anything down of is neither met nor missed; one break is
// something.
func TestSurestMiss_OfAGoalNobodyNoted(t *testing.T) {
	with := func(shots observation) float64 {
		d := decision{observations: map[RuleName]observation{FactWing: observeShare(19, 20, 0.5), FactShot: shots}}
		return d.surestMiss()
	}
	if got := with(observeShare(0, 0, 0.5)); got != 0.5 {
		t.Errorf("no shot noted: %v", got)
	}
	if got := with(observeShare(0, 1, 0.5)); !(got > 0.6) {
		t.Errorf("no shot in one break: %v", got)
	}
	if got := with(observeShare(20, 20, 0.5)); !(got < 0.1) {
		t.Errorf("a shot in each of twenty: %v", got)
	}
}

// Before eight breaks a set more is asked for, whatever they show. Then it is the pattern
// nearest to its certainty that says how many: the surest of those that more breaks could
// settle, and that the coach has not decided against.
func TestBreaksToSettle_AsksTheNearestPattern(t *testing.T) {
	near, farther := observation{count: 7, of: 10, line: 0.5, certainty: 0.9, canSettle: true}, observation{count: 6, of: 10, line: 0.5, certainty: 0.7, canSettle: true}
	wing := observeShare(5, 10, 0.5)
	countNeeded := func(breaks int, seen map[RuleName]observation, change func(*analysis)) int {
		l := analysisWith(t, standardSetup(), breakTally{breaks: breaks, watched: breaks})
		change(l)
		seen[FactWing] = wing
		n, _ := l.breaksToSettle(&decision{observations: seen})
		return n
	}
	same := func(*analysis) {}
	if got := countNeeded(7, map[RuleName]observation{RuleForward: near}, same); got != drill.UsualBreaks {
		t.Errorf("after seven breaks %d more are asked for", got)
	}
	alone := map[string]int{
		"near":    countNeeded(10, map[RuleName]observation{RuleForward: near}, same),
		"farther": countNeeded(10, map[RuleName]observation{RuleForward: farther}, same),
		"wing":    countNeeded(10, map[RuleName]observation{}, same),
	}
	if alone["near"] == alone["wing"] || alone["near"] == alone["farther"] || alone["farther"] == alone["wing"] {
		t.Fatalf("the questions take as long as each other: %v", alone)
	}
	unsettled, doubtful := near, near
	unsettled.canSettle, doubtful.certainty = false, 0.59
	for _, c := range []struct {
		name string
		seen map[RuleName]observation
		do   func(*analysis)
		want string
	}{
		{"the surer of two", map[RuleName]observation{RuleSideScratch: farther, RuleForward: near}, same, "near"},
		{"the surer of two, asked first", map[RuleName]observation{RuleSideScratch: near, RuleForward: farther}, same, "near"},
		{"none that breaks can settle", map[RuleName]observation{RuleForward: unsettled}, same, "wing"},
		{"none nearer than three in five", map[RuleName]observation{RuleForward: doubtful}, same, "wing"},
		{"one that only reports", map[RuleName]observation{RuleDry: near}, same, "wing"},
		{"one decided against", map[RuleName]observation{RuleForward: near}, func(l *analysis) { l.overrides = []Override{{Rule: RuleForward, Breaks: 10}} }, "wing"},
	} {
		if got := countNeeded(10, c.seen, c.do); got != alone[c.want] {
			t.Errorf("%s: %d breaks, want %d as of %s alone", c.name, got, alone[c.want], c.want)
		}
	}
	if got := countNeeded(8, map[RuleName]observation{RuleForward: farther}, same); got != alone["farther"] {
		t.Errorf("after eight breaks %d more are asked for, want %d", got, alone["farther"])
	}
}

// Forty breaks without a pattern near the target are enough to stop looking, thirty to say
// that a target is surely missed with no pattern in sight: then a coach looks.
func TestSettle_AfterManyBreaksWithoutAPattern(t *testing.T) {
	settle := func(breaks, wing, window int, change func(*decision, *breakTally)) decision {
		seen := breakTally{breaks: breaks, watched: breaks, wingMade: wing, cue: cueTally{inWindow: window}}
		l := analysisWith(t, standardSetup(), seen)
		d := decision{observations: map[RuleName]observation{FactWing: observeShare(wing, breaks, 0.5), FactWindow: observeShare(window, breaks, 0.5)}}
		change(&d, l.currentTally())
		l.settleWithoutChange(&d)
		return d
	}
	same := func(*decision, *breakTally) {}
	lost := func(_ *decision, n *breakTally) { n.off = 2 }
	for _, c := range []struct {
		name                string
		d                   decision
		good, level, missed bool
	}{
		{"twenty good breaks", settle(20, 16, 16, same), true, false, false},
		{"nineteen", settle(19, 16, 16, same), false, false, false},
		{"good, and balls on the floor", settle(20, 16, 16, lost), false, false, false},
		{"good, and one danger likelier than not", settle(20, 16, 16, func(d *decision, _ *breakTally) { d.observations[RuleDanger] = observation{certainty: 0.55} }), false, false, false},
		{"forty near the target", settle(40, 20, 20, same), false, true, false},
		{"thirty-nine", settle(39, 20, 19, same), false, false, false},
		{"forty near the target, and balls on the floor", settle(40, 20, 20, lost), false, false, false},
		{"forty, the rack in doubt", settle(40, 20, 20, func(d *decision, _ *breakTally) { d.checkRack = true }), false, false, false},
		{"thirty surely short", settle(30, 6, 15, same), false, false, true},
		{"twenty-nine surely short", settle(29, 6, 15, same), false, false, false},
		{"twenty, and no change left", settle(20, 10, 10, func(d *decision, _ *breakTally) { d.exhaustedRule = &missBalanceRule }), false, true, false},
		{"nineteen, and no change left", settle(19, 10, 10, func(d *decision, _ *breakTally) { d.exhaustedRule = &missBalanceRule }), false, false, false},
	} {
		if c.d.setupIsGood != c.good || c.d.setupIsLevel != c.level || c.d.missesTarget != c.missed {
			t.Errorf("%s: good %v, level %v, missed %v", c.name, c.d.setupIsGood, c.d.setupIsLevel, c.d.missesTarget)
		}
		if settled := c.d.setupIsGood || c.d.setupIsLevel && c.d.exhaustedRule != nil; settled != (c.d.breaksNeeded == 0) {
			t.Errorf("%s: %d more breaks are asked for", c.name, c.d.breaksNeeded)
		}
	}
}

// So many breaks are asked for as settle it with an even chance, or with the club's own.
func TestBreaksToSettle_WithAnEvenChance(t *testing.T) {
	for chance, want := range map[float64]int{0: 30, 0.4: 20, 0.625: 40} {
		l := analysisWith(t, standardSetup(), breakTally{breaks: 16, watched: 16, wingMade: 8})
		if chance != 0 {
			l.rules = DefaultRules()
			n := l.rules.Numbers[RuleTooEarly]
			n.Line = chance
			l.rules.Numbers[RuleTooEarly] = n
		}
		d := decision{observations: map[RuleName]observation{FactWing: observeShare(8, 16, l.targets.Wing)}}
		if got, _ := l.breaksToSettle(&d); got != want {
			t.Errorf("with a chance of %v: %d breaks, want %d", chance, got, want)
		}
	}
}
