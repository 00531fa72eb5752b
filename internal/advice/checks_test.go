package advice

import (
	"slices"
	"strings"
	"testing"

	"breakwright/internal/drill"
	"breakwright/internal/say"
)

// What is asked to be recorded or looked at, at the number from which it is asked.
func TestListChecks_FromHowManyOn(t *testing.T) {
	seen := func(change func(*breakTally)) breakTally {
		n := breakTally{breaks: 20, watched: 20, wingMade: 10, misses: missCounts{side: 5, foot: 5}, cue: cueTally{inWindow: 10}}
		change(&n)
		return n
	}
	sure := func(name RuleName, certainty float64) map[RuleName]observation {
		return map[RuleName]observation{name: {certainty: certainty}}
	}
	for _, c := range []struct {
		name         string
		tip          drill.RadiusFraction
		seen         breakTally
		observations map[RuleName]observation
		wanted       string
		want         bool
	}{
		{"one ball flew", -0.1, seen(func(n *breakTally) { n.off = 1 }), nil, "ball flew", true},
		{"none flew", -0.1, seen(func(*breakTally) {}), nil, "ball flew", false},
		{"three misses, two of them unseen", -0.1, seen(func(n *breakTally) { n.wingMade, n.misses = 17, missCounts{side: 1, unseen: 2} }), nil, "record misses", true},
		{"two misses, unseen", -0.1, seen(func(n *breakTally) { n.wingMade, n.misses = 18, missCounts{unseen: 2} }), nil, "record misses", false},
		{"half the misses unseen", -0.1, seen(func(n *breakTally) { n.wingMade, n.misses = 16, missCounts{side: 2, unseen: 2} }), nil, "record misses", false},
		{"two of five unseen", -0.1, seen(func(n *breakTally) { n.wingMade, n.misses = 15, missCounts{side: 3, unseen: 2} }), nil, "record misses", false},
		{"twice at the foot end under much draw", -0.3, seen(func(n *breakTally) { n.cue.lostFoot = 2 }), nil, "watch cue ball", true},
		{"once", -0.3, seen(func(n *breakTally) { n.cue.lostFoot = 1 }), nil, "watch cue ball", false},
		{"twice under little draw", -0.1, seen(func(n *breakTally) { n.cue.lostFoot = 2 }), nil, "watch cue ball", false},
		{"no shot, likely", -0.1, seen(func(*breakTally) {}), sure(RuleNoShot, 0.85), "record low balls", true},
		{"no shot, perhaps", -0.1, seen(func(*breakTally) {}), sure(RuleNoShot, 0.75), "record low balls", false},
		{"dry, surely", -0.1, seen(func(*breakTally) {}), sure(RuleDry, 0.95), "rack after dry", true},
		{"dry, likely", -0.1, seen(func(*breakTally) {}), sure(RuleDry, 0.85), "rack after dry", false},
		{"dry, and too central", -0.1, seen(func(n *breakTally) { n.misses = missCounts{side: 10} }), sure(RuleDry, 0.95), "rack after dry", false},
		{"dry, and too far out", -0.1, seen(func(n *breakTally) { n.misses = missCounts{foot: 10} }), sure(RuleDry, 0.95), "rack after dry", false},
		{"weak, likely", -0.1, seen(func(*breakTally) {}), sure(RuleWeak, 0.85), "rack after weak", true},
		{"weak, perhaps", -0.1, seen(func(*breakTally) {}), sure(RuleWeak, 0.75), "rack after weak", false},
		{"ten misses balanced, few makes", -0.1, seen(func(n *breakTally) { n.wingMade = 5 }), nil, "misses balanced", true},
		{"nine misses balanced", -0.1, seen(func(n *breakTally) { n.wingMade, n.misses = 5, missCounts{side: 5, foot: 4} }), nil, "misses balanced", false},
		{"six on one side and four on the other", -0.1, seen(func(n *breakTally) { n.wingMade, n.misses = 5, missCounts{side: 6, foot: 4} }), nil, "misses balanced", true},
		{"seven and four", -0.1, seen(func(n *breakTally) { n.wingMade, n.misses = 5, missCounts{side: 7, foot: 4} }), nil, "misses balanced", false},
		{"balanced at the target", -0.1, seen(func(n *breakTally) { n.wingMade = 10 }), nil, "misses balanced", false},
	} {
		l := analysisWith(t, setupWithTip(c.tip), c.seen)
		asked := newAdviceWriter(l, decision{observations: c.observations}, false).listChecks()
		if got := slices.ContainsFunc(asked, func(s say.Statement) bool { return s.About == c.wanted }); got != c.want {
			t.Errorf("%s: %q is asked %v; %+v", c.name, c.wanted, got, asked)
		}
	}
}

// The rack is asked about once, by what speaks most for it.
func TestListChecks_OfTheRackOnce(t *testing.T) {
	l := analysisWith(t, setupWithTip(-0.1), breakTally{breaks: 20, watched: 20, wingMade: 10, misses: missCounts{side: 5, foot: 5}})
	l.believe()
	both := map[RuleName]observation{RuleDry: {certainty: 0.99}, RuleWeak: {certainty: 0.99}}
	for name, d := range map[string]decision{
		"rack may be loose": {observations: both, checkRack: true},
		"rack after dry":    {observations: both},
		"rack after weak":   {observations: map[RuleName]observation{RuleWeak: {certainty: 0.99}}},
	} {
		var asked []string
		for _, s := range newAdviceWriter(l, d, false).listChecks() {
			if strings.HasPrefix(s.About, "rack ") {
				asked = append(asked, s.About)
			}
		}
		if !slices.Equal(asked, []string{name}) {
			t.Errorf("%s: %q is asked", name, asked)
		}
	}
}

// More speed and a lower tip are told with a word of caution, the third time that balls fly
// with another.
func TestCaution_WhereForceOrHeightIsInvolved(t *testing.T) {
	for _, c := range []struct {
		name   string
		rule   *patternRule
		change func(*analysis) proposedChange
		flew   int // setups under which balls flew
		want   string
	}{
		{"less speed, balls flew", &dangerRule, func(l *analysis) proposedChange { return l.raiseSpeed(-1, reasonPlain) }, 1, "balls fly"},
		{"twice", &dangerRule, func(l *analysis) proposedChange { return l.raiseSpeed(-1, reasonPlain) }, 2, "balls fly"},
		{"the third time", &dangerRule, func(l *analysis) proposedChange { return l.raiseSpeed(-1, reasonPlain) }, 3, "third time"},
		{"another rule then", &unsteadyRule, func(l *analysis) proposedChange { return l.raiseSpeed(-1, reasonPlain) }, 3, ""},
		{"more speed", &weakBreakRule, func(l *analysis) proposedChange { return l.raiseSpeed(0.9, reasonPlain) }, 0, "more speed"},
		{"less speed", &unsteadyRule, func(l *analysis) proposedChange { return l.raiseSpeed(-1, reasonPlain) }, 0, ""},
		{"a lower tip", &forwardRule, func(l *analysis) proposedChange { return l.raiseTip(-0.1, reasonPlain) }, 0, "low tip"},
		{"a higher tip", &backTooFarRule, func(l *analysis) proposedChange { return l.raiseTip(0.1, reasonPlain) }, 0, ""},
		{"the place", &missBalanceRule, func(l *analysis) proposedChange { return l.moveCueBallOut(2, reasonPlain) }, 0, ""},
	} {
		l := analysisOf(scripted(t, setupWithSpeed(20), ordinaryWing, "w"), scripted(t, setupWithSpeed(18), ordinaryWing, "w"), scripted(t, setupWithSpeed(16), ordinaryWing, "w"))
		for i := range c.flew {
			l.records[i].tally.off = 4
		}
		w := newAdviceWriter(l, decision{chosenRule: c.rule}, false)
		if got := w.cautionOf(c.change(l)).About; got != c.want {
			t.Errorf("%s: %q, want %q", c.name, got, c.want)
		}
	}
}

// What to look for is the target, or, from less than half of it, half of the way there.
func TestExpectedRate_HalfOfTheWayFromFarOff(t *testing.T) {
	l := analysisOf(scripted(t, standardSetup(), ordinaryWing, "w"))
	l.targets = drill.Targets{Wing: 0.5, Window: 0.6}
	few, less, some := observeShare(1, 20, 0.5), observeShare(4, 20, 0.5), observeShare(8, 20, 0.5)
	for _, c := range []struct {
		fact RuleName
		seen observation
		want float64
	}{
		{FactWing, some, 0.5}, {FactWindow, some, 0.6},
		{FactWing, less, (less.rateBelief().Mean() + 0.5) / 2}, {FactWing, few, (few.rateBelief().Mean() + 0.5) / 2}, {FactWindow, few, (few.rateBelief().Mean() + 0.6) / 2},
	} {
		w := newAdviceWriter(l, decision{observations: map[RuleName]observation{c.fact: c.seen}}, false)
		if got := w.expectedRate(c.fact); got != c.want {
			t.Errorf("%s after %d of %d: %v, want %v", c.fact, c.seen.count, c.seen.of, got, c.want)
		}
	}
}

// Before eight breaks it is too early, whatever was seen.
func TestWriteTooEarly_UnderEightBreaks(t *testing.T) {
	for breaks, want := range map[int]say.StatementKind{7: say.TooEarly, 8: say.NotEnough} {
		l := analysisWith(t, standardSetup(), breakTally{breaks: breaks, watched: breaks})
		if got := newAdviceWriter(l, decision{}, false).writeTooEarly().Kind; got != want {
			t.Errorf("after %d breaks: %v", breaks, got)
		}
	}
}
