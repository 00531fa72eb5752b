package advice

import (
	"math"
	"reflect"
	"slices"
	"strings"
	"testing"

	"breakwright/internal/belief"
	"breakwright/internal/drill"
	"breakwright/internal/evidence"
	"breakwright/internal/say"
	"breakwright/internal/table"
)

// What a change answers is a part that is amiss, a line that it makes up for, or neither:
// place and hit turn the same line, and nothing else does.
func TestCauseName_OfWhatIsAnswered(t *testing.T) {
	l := believed(scripted(t, setupAtDistance(12), "sssssssmmm", "brwfrbwrrb"))
	place, hit, tip := l.moveCueBallOut(2, reasonPlain), l.shiftContact(-0.1, reasonPlain), l.raiseTip(0.1, reasonPlain)
	wants := func(c belief.Cause) string {
		if l.hands.ShareOf(belief.Nothing) > l.hands.ShareOf(c) {
			return "wants "
		}
		return ""
	}
	for _, c := range []struct {
		likeliest, answered belief.Cause
		change              proposedChange
		want                string
	}{
		{belief.Place, belief.Place, place, "place " + wants(belief.Place) + "more"},
		{belief.Contact, belief.Contact, hit, "contact " + wants(belief.Contact) + "less"},
		{belief.Tip, belief.Tip, tip, "tip " + wants(belief.Tip) + "more"},
		{belief.Contact, belief.Place, place, "contact made up for"},
		{belief.Place, belief.Contact, hit, "line brought back"},
		{belief.Tip, belief.Place, place, "whichever"},
		{belief.Tip, belief.Contact, hit, "whichever"},
		{belief.Place, belief.Tip, tip, "whichever"},
		{belief.Contact, belief.Tip, tip, "whichever"},
	} {
		d := decision{cause: c.answered, causes: []belief.CauseShare{{Cause: belief.Nothing, Share: 0.3}, {Cause: c.likeliest, Share: 0.5}}}
		if got := newAdviceWriter(l, d, false).causeName(c.change); got != c.want {
			t.Errorf("a change of %s while %s is likeliest: %q, want %q", c.change.variable, c.likeliest, got, c.want)
		}
	}
}

// What else it could be is named from a fifth on, and never the cause itself.
func TestListRivals_FromAFifthOn(t *testing.T) {
	l := believed(scripted(t, setupAtDistance(12), "sssssssmmm", "brwfrbwrrb"))
	for share, want := range map[float64][]string{0.19: nil, 0.2: {string(belief.Tip)}, 0.3: {string(belief.Tip)}} {
		d := decision{cause: belief.Place, causes: []belief.CauseShare{{Cause: belief.Place, Share: 0.5}, {Cause: belief.Tip, Share: share}}}
		if got := newAdviceWriter(l, d, false).listRivals(); !slices.Equal(got, want) {
			t.Errorf("another cause with a share of %v: %q", share, got)
		}
	}
}

// A rack is looked at where it is in doubt, or where, of eight breaks or more that were
// weighed, a loose one is a fifth as likely as everything.
func TestRackMayBeLoose_FromAFifthOn(t *testing.T) {
	for _, c := range []struct {
		name   string
		breaks int
		share  float64
		weighs bool
		inside bool // in doubt
		want   bool
	}{
		{"a fifth", 8, 0.2, true, false, true},
		{"less", 8, 0.19, true, false, false},
		{"after seven breaks", 7, 0.5, true, false, false},
		{"nothing was weighed", 8, 0.5, false, false, false},
		{"in doubt", 3, 0, false, true, true},
	} {
		l := analysisOf(scripted(t, standardSetup(), ordinaryWing, "w"))
		if c.weighs {
			l.believe()
		}
		l.currentTally().breaks = c.breaks
		d := decision{checkRack: c.inside, causes: []belief.CauseShare{{Cause: belief.LooseRack, Share: c.share}}}
		if got := newAdviceWriter(l, d, false).rackMayBeLoose(); got != c.want {
			t.Errorf("%s: %v", c.name, got)
		}
	}
}

// The first choice that has no room left is said so, of a place as of any other part.
func TestRuleReason_NamesWhatHasNoRoom(t *testing.T) {
	l := analysisOf(scripted(t, standardSetup(), ordinaryWing, "w"))
	w := newAdviceWriter(l, decision{chosenRule: &missBalanceRule}, false)
	for _, c := range []struct {
		change proposedChange
		want   string
	}{
		{proposedChange{variable: VaryContact, to: l.currentSetup(), reason: reasonAtLimit}, "no place"},
		{proposedChange{variable: VarySpeed, to: l.currentSetup(), reason: reasonAtLimit}, "no room"},
		{proposedChange{variable: VaryPlace, to: l.currentSetup(), reason: reasonHalfBack}, say.WentTooFar},
		{proposedChange{variable: VaryContact, to: l.currentSetup(), reason: reasonOffFull}, "off full"},
	} {
		if got := w.ruleReason(c.change).About; got != c.want {
			t.Errorf("%s %s: %q, want %q", c.change.variable, c.change.reason, got, c.want)
		}
	}
}

// The places tried stand on the student's own side, with a curve of shares around them.
func TestWritePlaces_OnTheStudentsOwnSide(t *testing.T) {
	history := []string{"m-------------------", "mm------------------"}
	left := analysisOf(scripted(t, setupAtDistance(20), history[0], "w"), scripted(t, setupAtDistance(18), history[1], "w"))
	for side, way := range map[table.Side]table.Inches{table.Left: -1, table.Right: 1} {
		p := newAdviceWriter(left, decision{}, side == table.Right).writePlaces()
		if p == nil || len(p.Tried) != 2 || p.Tried[0] != (TriedPlace{X: 20 * way, Made: 1, Breaks: 20}) || p.Tried[1] != (TriedPlace{X: 18 * way, Made: 2, Breaks: 20}) {
			t.Fatalf("from the %s: %+v", side, p)
		}
		if p.Curve[0].X != 0 || p.Curve[5].X != 5*way || p.Best*way < 0 || p.Best*way > 22 {
			t.Errorf("from the %s the curve goes over %v and %v, the best is at %v", side, p.Curve[0].X, p.Curve[5].X, p.Best)
		}
		for _, c := range p.Curve {
			if !(c.Low >= 0 && c.Low < c.Mean && c.Mean < c.High && c.High <= 1) {
				t.Errorf("at %v: from %v to %v around %v", c.X, c.Low, c.High, c.Mean)
			}
		}
	}
	if p := newAdviceWriter(analysisOf(scripted(t, setupAtDistance(20), history[0], "w")), decision{}, false).writePlaces(); p != nil {
		t.Errorf("of one place: %+v", p)
	}
}

// A best place outside the room's break box is called so; one in it, on its edge too, is
// not.
func TestWritePlaces_OutsideTheBreakBox(t *testing.T) {
	l := analysisOf(scripted(t, setupAtDistance(20), "mm------------------", "w"), scripted(t, setupAtDistance(6), "m-------------------", "w"))
	best := -newAdviceWriter(l, decision{}, false).writePlaces().Best
	for box, outside := range map[table.Inches]bool{0: false, best - 1: true, best: false, best + 1: false} {
		l.house.BreakBox = box
		if says := newAdviceWriter(l, decision{}, false).writePlaces().Says; strings.Contains(says, "outside the room's break box") != outside || !strings.Contains(says, "looks best so far") {
			t.Errorf("the best at %s, a box of %s: %q", best, box, says)
		}
	}
}

// The best of the places tried is so called, be it the furthest in or the furthest out.
func TestWritePlaces_AtTheEdgeOfThoseTried(t *testing.T) {
	good, poor := "mmmmmmmmmmmmmmm-----", "--------------------"
	for _, best := range []table.Inches{8, 20} {
		l := analysisOf(scripted(t, setupAtDistance(28-best), poor, "w"), scripted(t, setupAtDistance(best), good, "w"))
		if p := newAdviceWriter(l, decision{}, false).writePlaces(); p.Best != -best || p.Statement.About != "" || p.Statement.Way != 0 {
			t.Errorf("%v in out is good: the best is at %v, %+v", best, p.Best, p.Statement)
		}
	}
}

// A place where nothing was broken, to one side of all that were tried, is not between
// them, nor does it look like anything yet.
func TestWritePlaces_BeyondAllThatWereTried(t *testing.T) {
	few, none := "m-------------------", "----------"
	l := analysisOf(scripted(t, setupAtDistance(18), few, "w"), scripted(t, setupAtDistance(21), few, "w"), scripted(t, setupAtDistance(22.5), none, "w"))
	if p := newAdviceWriter(l, decision{}, false).writePlaces(); p.Best <= -18 || p.Statement.About != "further in" || p.Statement.Way != 0 {
		t.Errorf("18, 21 and 22.5 in out are all poor; the best is at %v: %q", p.Best, p.Says)
	}
	l = analysisOf(scripted(t, setupAtDistance(2), few, "w"), scripted(t, setupAtDistance(5), few, "w"))
	if p := newAdviceWriter(l, decision{}, false).writePlaces(); p.Best >= -5 || p.Statement.About != "further out" {
		t.Errorf("2 and 5 in out are both poor; the best is at %v: %q", p.Best, p.Says)
	}
}

// A speed measured well off the one asked is the first reason for a change of the speed
// that takes it back, and is asked to be looked at beside any other answer.
func TestMeasuredSpeed_BesideWhatWasAsked(t *testing.T) {
	for _, c := range []struct {
		measured table.Mph
		known    bool
	}{{0, false}, {18.4, false}, {19.4, false}, {19.5, true}, {16.5, true}} {
		before, set := scripted(t, setupWithSpeed(18), ordinaryWing, "w"), scripted(t, setupWithSpeed(18), ordinaryWing, "w")
		for i := range set.Breaks[1:] {
			set.Breaks[i].Speed = c.measured
		}
		for i := range before.Breaks {
			before.Breaks[i].Speed = 18.1 // as asked, the time before
		}
		l := believed(before, set)
		w := newAdviceWriter(l, decision{causes: l.hands.CauseShares()}, false)
		want := say.Statement{Kind: say.MeasuredSpeed, From: 18, To: float64(c.measured), Count: len(set.Breaks) - 1, Of: len(set.Breaks)}
		if got, found := w.measuredSpeed(); found != c.known || found && !reflect.DeepEqual(got, want) {
			t.Errorf("measured at %v, %v is said: %v", c.measured, got, found)
			continue
		}
		isMeasured := func(s say.Statement) bool { return s.Kind == say.MeasuredSpeed }
		if got := slices.ContainsFunc(w.listChecks(), isMeasured); got != c.known {
			t.Errorf("measured at %v, the check is listed: %v", c.measured, got)
		}
		for by, want := range map[float64]bool{-2: c.measured > 18 && c.known, 2: c.measured < 18 && c.known} {
			speed := l.raiseSpeed(by, reasonPlain)
			reasons := w.listReasons(speed)
			if got := len(reasons) > 0 && isMeasured(reasons[0]); got != want || slices.ContainsFunc(reasons, func(s say.Statement) bool { return s.Kind == "" }) {
				t.Errorf("measured at %v, %v mph more: the first reason is %v", c.measured, by, reasons)
			}
			w.decision.change = &speed
			if slices.ContainsFunc(w.listChecks(), isMeasured) {
				t.Error("the speed is asked to be looked at, though it is what changes")
			}
			w.decision.change = nil
		}
		for _, by := range []float64{-0.1, 0.1} {
			if reasons := w.listReasons(l.raiseTip(by, reasonPlain)); slices.ContainsFunc(reasons, isMeasured) {
				t.Errorf("measured at %v, it is a reason to move the tip", c.measured)
			}
		}
	}
	if l := believed(scripted(t, setupWithSpeed(0), ordinaryWing, "w")); l.speedUnknown {
		l.currentRecord().played[0].Breaks[0].Speed = 12
		if got, found := newAdviceWriter(l, decision{}, false).measuredSpeed(); found {
			t.Errorf("nobody asked for a speed, and %v is said", got)
		}
	} else {
		t.Error("a setup without a speed has one")
	}
}

// A reason names the two counts that speak most, each of another thing; one where only one
// speaks, and all that was seen where none does by itself.
func TestBeliefReason_TheTwoWeightiestCounts(t *testing.T) {
	for _, c := range []struct {
		name string
		l    *analysis
		want int // counts
	}{
		{"many speak", believed(scripted(t, standardSetup(), "sssssssssf", "SSSfffoooo")), 2},
		{"one speaks", believed(scripted(t, standardSetup(), "mf", "wb")), 1},
		{"none speaks", believed(scripted(t, standardSetup(), "mu", "?")), 0},
	} {
		w := newAdviceWriter(c.l, decision{cause: belief.Place, causes: []belief.CauseShare{{Cause: belief.Place, Share: 0.5}}}, false)
		change := c.l.moveCueBallOut(2, reasonPlain)
		var groups []string
		for _, s := range c.l.weighSigns(change, w.handsOf(belief.Place)) {
			if !slices.Contains(groups, s.group) {
				groups = append(groups, s.group)
			}
		}
		got := w.beliefReason(change).Parts
		if want := max(c.want, 1); len(got) != want || (got[0].Kind == say.AllTogether) != (c.want == 0) {
			t.Errorf("%s: of %v it says %+v", c.name, groups, got)
		}
	}
}

// A pattern that is sure and asks for the same is named before any sign, and what it
// counts is not said a second time; one that asks for the opposite, or is off, is not named.
func TestListReasons_PatternsThatAskForTheSame(t *testing.T) {
	low := setupWithTip(-0.3)
	back := Rules{Numbers: map[RuleName]Numbers{RuleBackTooFar: {On: false}}}
	for _, c := range []struct {
		name  string
		cue   string
		rules Rules
		by    float64
		want  []RuleName // of the findings among the reasons
	}{
		{"higher, it comes back", "bbbbbbbbbw", Rules{}, 0.1, []RuleName{RuleBackTooFar}},
		{"lower, it comes back", "bbbbbbbbbw", Rules{}, -0.1, nil},
		{"higher, it goes on", "ffffffffff", Rules{}, 0.1, nil},
		{"lower, it goes on", "ffffffffff", Rules{}, -0.1, []RuleName{RuleForward}},
		{"higher, it comes back and scratches", "HHHHHbbbbb", Rules{}, 0.1, []RuleName{RuleHeadScratch, RuleBackTooFar}},
		{"higher, the rule is off", "bbbbbbbbbw", back, 0.1, nil},
	} {
		l := newAnalysis([]drill.Set{scripted(t, low, "mmmmmmmsff", c.cue)}, Brief{Rules: c.rules})
		l.believe()
		d := l.applyRules()
		d.cause, d.causes = belief.Tip, []belief.CauseShare{{Cause: belief.Tip, Share: 0.9}}
		var named []RuleName
		signs := 0
		for _, s := range newAdviceWriter(l, d, false).listReasons(l.moveTip(c.by)) {
			switch s.Kind {
			case say.Finding:
				named = append(named, RuleName(s.About))
			case say.Sign:
				if signs++; strings.HasPrefix(s.About, "cue ") && len(named) > 0 {
					t.Errorf("%s: %q is said beside %v", c.name, s.About, named)
				}
			}
		}
		if !slices.Equal(named, c.want) {
			t.Errorf("%s: %v is named, and %d signs", c.name, named, signs)
		}
	}
}

// The hands that speak for a cause are those of the cause, and sound ones beside them where
// it is the setup that is wrong for them.
func TestHandsOf_SoundOnesWhereTheSetupIsWrong(t *testing.T) {
	l := believed(scripted(t, setupAtDistance(12), "sssssssmmm", "brwfrbwrrb"))
	raised := l.hands.CauseShares()
	for i := range raised {
		if raised[i].Cause == belief.Place {
			raised[i].Share += 0.1
		}
	}
	for name, c := range map[string]struct {
		causes []belief.CauseShare
		want   []belief.Cause
	}{
		"the hands": {l.hands.CauseShares(), []belief.Cause{belief.Place}},
		"the setup": {raised, []belief.Cause{belief.Place, belief.Nothing}},
	} {
		if got := newAdviceWriter(l, decision{causes: c.causes}, false).handsOf(belief.Place); !slices.Equal(got, c.want) {
			t.Errorf("%s: %v", name, got)
		}
	}
}

// What to look for is what gains three points in a hundred breaks or more on what was seen,
// be that a single break; what nobody saw is not looked for.
func TestExpectGain_FromThreePointsInAHundredOn(t *testing.T) {
	l := believed(scripted(t, setupAtDistance(12), "sssssssmmm", "w"))
	l.weights = belief.Weights{Wing: 1}
	change := l.moveCueBallOut(4, reasonPlain)
	now, then := l.hands.Expect(l.kind, l.currentSetup()).Wing, l.hands.Expect(l.kind, change.to).Wing
	expected := now + 1.4*(then-now) // so much of a change comes
	for _, c := range []struct {
		name    string
		made    float64 // of the watched
		watched int
		want    string
	}{
		{"a little more", expected - 0.031, 10_000, ExpectWing},
		{"less", expected - 0.029, 10_000, ""},
		{"one break", 0, 1, ExpectWing},
		{"none", 0, 0, ""},
	} {
		*l.currentTally() = breakTally{watched: c.watched, wingMade: int(c.made * float64(c.watched))}
		if got := newAdviceWriter(l, decision{}, false).expectGain(change); got.What != c.want {
			t.Errorf("%s: %+v is looked for", c.name, got)
		}
	}
}

// Where the cue ball stops is looked for like any other part.
func TestExpectGain_OfWhereTheCueBallStops(t *testing.T) {
	l := believed(scripted(t, setupWithTip(-0.3), "mmmmmmmsff", "bbbbbbbbbb"))
	l.weights = belief.Weights{Middle: 1}
	for stopped, want := range map[int]string{0: ExpectMiddle, 10: ""} {
		l.currentTally().cue.rests = make([]evidence.Point, 10)
		for i := range stopped {
			l.currentTally().cue.rests[i].Y = float64(l.kind.HeadString())
		}
		if got := newAdviceWriter(l, decision{}, false).expectGain(l.raiseTip(0.2, reasonPlain)); got.What != want || want != "" && (got.Shown != stopped || got.Of != 10) {
			t.Errorf("%d of ten stopped there: %+v", stopped, got)
		}
	}
}

// A best place between those that were tried is called so.
func TestWritePlaces_BetweenThoseTried(t *testing.T) {
	l := analysisOf(scripted(t, setupAtDistance(12), "mmmmmm--------------", "w"), scripted(t, setupAtDistance(18), "mmmmmm--------------", "w"))
	if p := newAdviceWriter(l, decision{}, false).writePlaces(); p.Best >= -12 || p.Best <= -18 || p.Statement.About != "" || p.Statement.Way != 1 {
		t.Errorf("12 and 18 in out are alike; the best is at %v: %+v", p.Best, p.Statement)
	}
}

// The chance that a change helps is told with caution: nine in ten as a little less
// (internal/rehearsal/REHEARSAL.md).
func TestWritePrescription_TellsTheChanceWithCaution(t *testing.T) {
	l := believed(scripted(t, setupAtDistance(12), "sssssssmmm", "brwfrbwrrb"))
	c := l.moveCueBallOut(2, reasonPlain)
	d := decision{change: &c, helps: 0.9, cause: belief.Place, chosenRule: &missBalanceRule}
	if got := newAdviceWriter(l, d, false).writePrescription().HelpP; math.Abs(got-0.873) > 1e-9 {
		t.Errorf("told %v, want 0.873", got)
	}
}
