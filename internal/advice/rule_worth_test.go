package advice

import (
	"strings"
	"testing"

	"breakwright/internal/belief"
	"breakwright/internal/drill"
)

func TestWeights_AreTheStandardAsTheyCome(t *testing.T) {
	if got := (Rules{}).weights(drill.Targets{}, drill.HouseRules{}); got != belief.StandardWeights() {
		t.Errorf("%+v, want %+v", got, belief.StandardWeights())
	}
	if got := DefaultRules().weights(drill.Targets{}, drill.HouseRules{}); got != belief.StandardWeights() {
		t.Errorf("of the default rules %+v, want %+v", got, belief.StandardWeights())
	}
}

func TestWeights_FollowTheClubAndTheDrill(t *testing.T) {
	rules := DefaultRules()
	n := rules.Numbers[WorthScratch]
	n.Step = 2.5
	rules.Numbers[WorthScratch] = n
	if err := rules.Check(); err != nil {
		t.Errorf("a scratch that costs 2.5: %v", err)
	}
	want := belief.StandardWeights()
	want.Scratch = -2.5
	if got := rules.weights(drill.Targets{}, drill.HouseRules{}); got != want {
		t.Errorf("%+v, want %+v", got, want)
	}
	want.OpenShot = 1.5
	for _, asks := range []drill.Targets{{Shot: 0.5}, {RanOut: 0.2}} {
		if got := rules.weights(asks, drill.HouseRules{}); got != want {
			t.Errorf("under %+v %+v, want %+v", asks, got, want)
		}
	}
	n.Step = 0
	rules.Numbers[WorthScratch] = n
	if rules.Check() == nil {
		t.Error("a scratch that costs nothing is accepted")
	}
}

// A setup that meets its wing ball and window, with a drill that asks for a shot: it is
// good with shots, short without, and neither where nobody looked.
func TestSettle_AsksForTheDrillsShots(t *testing.T) {
	open, none := drill.ShotOpen, drill.ShotNone
	for name, c := range map[string]struct {
		shots   [2]drill.Shot // of two breaks in turn
		targets drill.Targets
		good    bool
	}{
		"shots":                {[2]drill.Shot{open, open}, drill.Targets{Shot: 0.5}, true},
		"no shots":             {[2]drill.Shot{none, none}, drill.Targets{Shot: 0.5}, false},
		"some, fewer asked":    {[2]drill.Shot{open, none}, drill.Targets{Shot: 0.3}, true},
		"some, more asked":     {[2]drill.Shot{open, none}, drill.Targets{Shot: 0.7}, false},
		"nobody looked":        {[2]drill.Shot{}, drill.Targets{Shot: 0.5}, false},
		"nobody asked":         {[2]drill.Shot{}, drill.Targets{}, true},
		"run-outs never noted": {[2]drill.Shot{open, open}, drill.Targets{RanOut: 0.2}, false},
	} {
		set := scripted(t, standardSetup(), strings.Repeat("mmmmms", 6), "w")
		for i := range set.Breaks {
			set.Breaks[i].Shot = c.shots[i%2]
		}
		l := newAnalysis([]drill.Set{set}, Brief{Targets: c.targets})
		d := l.applyRules()
		if d.setupIsGood != c.good {
			t.Errorf("%s: good is %t; %+v", name, d.setupIsGood, d.findings)
		}
	}
}

// kissedAndForward is a set of which all together asks for a change and no pattern alone.
func kissedAndForward(t *testing.T) []drill.Set {
	t.Helper()
	history := numberSets(scripted(t, standardSetup(), "kkmkfkkfkm", "fffwfwffww"))
	if a := judgePatterns(history, Brief{}); a.Verdict == Change {
		t.Fatalf("the patterns alone: %s", a.Says)
	}
	return history
}

// What a club counts turns what is told of the same breaks.
func TestJudge_WeighsByTheClubsPoints(t *testing.T) {
	rules := DefaultRules()
	for name, points := range map[RuleName]float64{WorthDown: 0.01, WorthShot: 0.01, WorthWing: 0.01, WorthCue: 0.9} {
		n := rules.Numbers[name]
		n.Step = points
		rules.Numbers[name] = n
	}
	standard, own := Judge(kissedAndForward(t), Brief{}), Judge(kissedAndForward(t), Brief{Rules: rules})
	if standard.Verdict != Change || standard.Prescription.Variable != VaryContact {
		t.Fatalf("as it comes: %s", standard.Says)
	}
	if own.Says == standard.Says {
		t.Errorf("where only the cue ball counts it is still %q", own.Says)
	}
}

// Switched off, nothing is weighed; asked for more certainty, less is told.
func TestJudge_WeighsAsSurelyAsTheClubAsks(t *testing.T) {
	judgeWith := func(change func(*Numbers)) Advice {
		rules := DefaultRules()
		n := rules.Numbers[RuleWeighing]
		change(&n)
		rules.Numbers[RuleWeighing] = n
		if err := rules.Check(); err != nil {
			t.Fatal(err)
		}
		return Judge(kissedAndForward(t), Brief{Rules: rules})
	}
	if a := judgeWith(func(*Numbers) {}); a.Verdict != Change || len(a.Causes) == 0 {
		t.Errorf("as it comes: %s", a.Says)
	}
	if a := judgeWith(func(n *Numbers) { n.Certainty = 0.999 }); a.Verdict == Change {
		t.Errorf("asked to be 99.9 %% sure: %s", a.Says)
	}
	if a := judgeWith(func(n *Numbers) { n.On = false }); len(a.Causes) != 0 {
		t.Errorf("switched off: %v", a.Causes)
	}
	if a := judgeWith(func(n *Numbers) { n.MinBreaks = 10 }); a.Verdict != Change {
		t.Errorf("asked for ten breaks: %s", a.Says)
	}
	if a := judgeWith(func(n *Numbers) { n.MinBreaks = 11 }); a.Verdict == Change {
		t.Errorf("asked for eleven breaks: %s", a.Says)
	}
}

// Side scratches ask for less speed; where the room plays three points, of which softer
// breaks fall short, they do not.
func TestJudge_KeepsTheRoomsThreePoints(t *testing.T) {
	history := numberSets(scripted(t, setupWithContact(-0.2), ordinaryWing+ordinaryWing, "SwwSSwwSwwSwwSSwwSww"))
	if a := Judge(history, Brief{}); a.Verdict != Change || a.Next.Speed >= 18 {
		t.Fatalf("without the rule: %s", a.Says)
	}
	if a := Judge(history, Brief{House: drill.HouseRules{ThreePoints: true}}); a.Next.Speed < 18 {
		t.Errorf("under the three-point rule: %s", a.Says)
	}
}
