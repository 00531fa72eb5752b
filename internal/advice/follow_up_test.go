package advice

import (
	"strings"
	"testing"

	"breakwright/internal/drill"
	"breakwright/internal/table"
)

func TestFollowUp_SaysHowTheChangeTurnedOut(t *testing.T) {
	for _, c := range []struct {
		name          string
		before, after string
		want          Outcome
	}{
		{"helped", "sssssssssm", "mmfmsmmmsm", Helped},
		{"hurt", "mmmmsmmfmm", "ssffkssfsf", Hurt},
		{"too early", "mmmmsmmfmm", "ssffs", InTrial},
		{"luck", "sfssmfssmm", "sfmsmfssmm", InTrial},
		{"no difference", strings.Repeat("ms", 150), strings.Repeat("mf", 150), NoDifference},
	} {
		t.Run(c.name, func(t *testing.T) {
			a := Judge(numberSets(scripted(t, setupAtDistance(14), c.before, "w"), scripted(t, setupAtDistance(18), c.after, "w")), Brief{})
			f := a.FollowUp
			if f == nil || f.Outcome != c.want {
				t.Fatalf("follow-up %+v, want %s", f, c.want)
			}
			if f.Variable != VaryPlace || f.From.Number != -14 || f.To.Number != -18 || f.Measure != wingMeasure.name {
				t.Errorf("follow-up of %s from %s to %s by %s", f.Variable, f.From, f.To, f.Measure)
			}
			if sum := f.HelpedP + f.NoDifferenceP + f.HurtP; sum < 0.999999 || sum > 1.000001 {
				t.Errorf("the three probabilities sum to %v", sum)
			}
		})
	}
}

// What was seen under a setup long before a change went back to it did not come since.
func TestFollowUp_CountsOnlyWhatCameSince(t *testing.T) {
	earlier, between, back := scripted(t, setupAtDistance(18), strings.Repeat("m", 20), "w"), scripted(t, setupAtDistance(14), "mmssssssss", "w"), scripted(t, setupAtDistance(18), "msssssssss", "w")
	f := Judge(numberSets(earlier, between, back), Brief{}).FollowUp
	if f == nil || f.CountBefore != 2 || f.OfBefore != 10 || f.CountAfter != 1 || f.OfAfter != 10 {
		t.Fatalf("%+v, want 2 of 10 before and 1 of 10 since", f)
	}
	if f.Outcome != InTrial {
		t.Errorf("2 of 10 before and 1 of 10 since have %s, only for what was seen long before", f.Outcome)
	}
}

func TestFollowUp_BackToTheSetupBeforeWhenItHurt(t *testing.T) {
	history := numberSets(scripted(t, setupWithTip(-0.1), "mmsfmmsmfm", "wwwwfwwwww"), scripted(t, setupWithTip(-0.3), "msffmsmkfm", "bbxbxbwbbx"), scripted(t, setupWithTip(-0.3), "msffmsmkfm", "bbxbxbwbbx"))
	a := Judge(history, Brief{})
	p := a.Prescription
	if p == nil || p.Rule != RuleFollowUp || p.Variable != VaryTip || p.To.Number != -0.1 {
		t.Fatalf("after harm: %+v, want the tip back to -0.1", p)
	}
}

// Going back must take at least the certainty that any rule goes on with.
func TestFollowUp_AsksMoreToGoBackThanToGoOn(t *testing.T) {
	l := newAnalysis(numberSets(scripted(t, standardSetup(), ordinaryWing, "w")), Brief{})
	for _, r := range patternRules {
		if n := l.rules.numbersOf(r.Rule); n.On && l.undoCertainty() < n.Certainty {
			t.Errorf("%s changes at %v, undone at %v", r.Name, n.Certainty, l.undoCertainty())
		}
	}
	own := DefaultRules()
	n := own.Numbers[RuleForward]
	n.Certainty = 0.995
	own.Numbers[RuleForward] = n
	if l.rules = own; l.undoCertainty() < 0.995 {
		t.Errorf("a club's own certainty of 0.995 is undone at %v", l.undoCertainty())
	}
}

// What was tried from here and hurt is not proposed again.
func TestFollowUp_DoesNotProposeWhatHurt(t *testing.T) {
	a := scripted(t, setupWithTip(0), "mmsfmmsmfm", "fffffffwww")
	b := scripted(t, setupWithTip(-0.2), "ssfksfsffs", "bbbbbbbbbb")
	history := numberSets(a, b, a)
	if p := Judge(history, Brief{}).Prescription; p != nil && p.Variable == VaryTip && p.To.Number <= -0.2 {
		t.Errorf("proposes the tip at %v again, which hurt", p.To)
	}
}

func TestFollowUp_MeasuredSpeedsThatWanderAreNoChange(t *testing.T) {
	history := numberSets(scripted(t, setupWithSpeed(17.6), ordinaryWing, "w"), scripted(t, setupWithSpeed(18.3), ordinaryWing, "w"))
	a := Judge(history, Brief{})
	if a.FollowUp != nil {
		t.Errorf("a follow-up of a speed nobody changed: %+v", a.FollowUp)
	}
}

func TestJudge_LeavesOutOtherTablesAndSides(t *testing.T) {
	south := scripted(t, standardSetup(), farWing, "w")
	south.Table = "South"
	right := scripted(t, standardSetup(), farWing, "w").Mirror()
	history := numberSets(south, right, scripted(t, standardSetup(), ordinaryWing, "w"))
	a := Judge(history, Brief{})
	if a.Verdict == Change || a.Stint.Breaks != 10 || len(a.Stint.LeftOut) != 2 {
		t.Fatalf("%s on %+v", a.Verdict, a.Stint)
	}
	for i, want := range []string{"another table", "other side"} {
		if why := a.Stint.LeftOut[i].Why; !strings.Contains(why, want) {
			t.Errorf("left out since %q, want %q", why, want)
		}
	}
}

func TestJudge_NothingRecorded(t *testing.T) {
	a := Judge(nil, Brief{})
	if a.Verdict != More || a.BreaksNeeded == nil || a.Says == "" || a.Findings == nil {
		t.Errorf("nothing recorded: %+v", a)
	}
}

func TestJudge_GoodAndCertainKeepsTheSetup(t *testing.T) {
	wing := strings.Repeat("mmmsm", 4)
	a := Judge(numberSets(scripted(t, standardSetup(), wing, "w")), Brief{})
	p := a.Prescription
	if a.Verdict != Keep || p == nil || p.Rule != RuleProgress || p.Variable != VaryNone || a.Next != standardSetup() {
		t.Fatalf("good: %s, %+v", a.Verdict, p)
	}
	if a.Card == nil || a.Card.Setup != standardSetup() || a.Card.Wing.Count != 16 || a.Card.Wing.Of != 20 {
		t.Errorf("break card: %+v", a.Card)
	}
}

func TestJudge_TheBriefsOwnTargetsAndWindow(t *testing.T) {
	wing := strings.Repeat("mmmsm", 4)
	a := Judge(numberSets(scripted(t, standardSetup(), wing, "w")), Brief{Targets: drill.Targets{Wing: 0.9}})
	if a.Verdict == Keep {
		t.Error("a target of nine in ten is met by 16 of 20")
	}
	high := table.Window{Left: -10, Right: 10, Head: 60, Foot: 90}
	a = Judge(numberSets(scripted(t, standardSetup(), wing, "w")), Brief{Window: high})
	for _, f := range a.Findings {
		if f.Rule == FactWindow && f.Count != 0 {
			t.Errorf("%d in a window nobody reached", f.Count)
		}
	}
}

func TestJudge_ThreeTimesDangerCallsTheCoach(t *testing.T) {
	off := "owwowwowww"
	history := numberSets(
		scripted(t, setupWithSpeed(20), ordinaryWing, off), scripted(t, setupWithSpeed(17), ordinaryWing, off), scripted(t, setupWithSpeed(15), ordinaryWing, off),
	)
	a := Judge(history, Brief{})
	if !a.NeedsCoach || a.Prescription == nil || !strings.Contains(a.Prescription.Caution, "third time") {
		t.Errorf("the third time: tell coach %v, %+v", a.NeedsCoach, a.Prescription)
	}
	if a := Judge(history[:2], Brief{}); a.NeedsCoach {
		t.Error("the coach is called the second time already")
	}
}

// A change that is taken back on less certainty than is asked of the last one alone is
// told with what was found to be worse, and with what came since.
func TestFollowUp_TellsWhatCameSinceAChangeTakenBack(t *testing.T) {
	history := numberSets(
		scripted(t, setupAtDistance(14), strings.Repeat("mmsmmfmmsm", 2), "w"), scripted(t, setupAtDistance(18), "mmssssssss", "w"))
	l := newAnalysis(history, Brief{})
	last, _ := l.lastChange()
	if how, _, effect := last.judgeOutcome(l.undoCertainty()); how == Hurt {
		t.Fatalf("hurt with %.3f: surely enough for the last change alone", effect.Hurt)
	}
	p := Judge(history, Brief{}).Prescription
	if p == nil || p.Rule != RuleFollowUp {
		t.Fatalf("%+v, want the way back", p)
	}
	if want := "The last change made it worse: wing ball 14 of 20 before, two of ten since."; !strings.Contains(p.Reason, want) {
		t.Errorf("%q, want %q in it", p.Reason, want)
	}
}

// The way back is judged by what the way there made worse: the tip was about the window,
// and went back for the good breaks that it cost.
func TestFollowUp_TheWayBackIsJudgedByWhatItWasFor(t *testing.T) {
	made := "mmsmmfmmsm"
	before, lower, back := scripted(t, setupWithTip(-0.1), made+made, "bbbbbbbwbbbbbbbbbbwb"), scripted(t, setupWithTip(-0.3), made, "bHHHHbHHHH"), scripted(t, setupWithTip(-0.1), made, "bbbbbwbbbH")
	there := Judge(numberSets(before, lower), Brief{}).FollowUp
	if there == nil || there.Outcome != Hurt || there.Measure != worthMeasure.name {
		t.Fatalf("the way there: %+v, want good breaks hurt", there)
	}
	again := Judge(numberSets(before, lower, back), Brief{}).FollowUp
	if again == nil || again.Measure != worthMeasure.name || again.CountBefore != 2 || again.CountAfter != 9 || again.Outcome != Helped {
		t.Errorf("the way back: %+v, want good breaks, two of ten before and nine of ten since: helped", again)
	}
}
