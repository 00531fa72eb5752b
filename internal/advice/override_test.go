package advice

import (
	"strings"
	"testing"

	"breakwright/internal/drill"
)

func TestOverride_SamePointRestsUntilEvidenceDoubles(t *testing.T) {
	set := scripted(t, setupAtDistance(12), "sssssssmmm", "brwfrbwrrb")
	kept := Override{Rule: RuleMissBalance, Breaks: 10}
	if a := Judge(numberSets(set), Brief{Overrides: []Override{kept}}); a.Verdict == Change {
		t.Errorf("argued again at once: %s", a.Prescription.Reason)
	}
	a := Judge(numberSets(set, set), Brief{Overrides: []Override{kept}})
	if a.Verdict != Change || a.Prescription.Rule != RuleMissBalance {
		t.Errorf("twice the breaks: %s, want the point again", a.Verdict)
	}
	other := Override{Rule: RuleForward, Breaks: 9}
	if a := Judge(numberSets(set), Brief{Overrides: []Override{other}}); a.Verdict != Change {
		t.Error("a decision on another rule silences this one")
	}
	elsewhere := Override{Rule: RuleMissBalance, Breaks: 10, Table: "South"}
	if a := Judge(numberSets(set), Brief{Overrides: []Override{elsewhere}}); a.Verdict != Change {
		t.Error("a decision for another table silences this one")
	}
}

func TestOverride_TheCoachsSetupIsNext(t *testing.T) {
	set := scripted(t, setupAtDistance(12), "sssssssmmm", "brwfrbwrrb")
	chosen := setupAtDistance(13)
	o := Override{Rule: RuleMissBalance, Breaks: 10, Under: setupAtDistance(12), Instead: chosen}
	a := Judge(numberSets(set), Brief{Overrides: []Override{o}})
	if a.Verdict != Keep || a.Next != chosen {
		t.Errorf("%s, next %+v, want the coach's own", a.Verdict, a.Next)
	}
	turned := Override{Rule: RuleMissBalance, Breaks: 10, Under: setupAtDistance(12).Mirror(), Instead: chosen.Mirror()}
	if a := Judge(mirrorHistory(numberSets(set)), Brief{Overrides: []Override{turned}}); a.Next != chosen.Mirror() {
		t.Errorf("from the right: next %+v", a.Next)
	}
	played := numberSets(set, scripted(t, chosen, ordinaryWing, "w"))
	if a := Judge(played, Brief{Overrides: []Override{o}}); a.Next != chosen || a.Verdict != More {
		t.Errorf("once played: %s, next %+v", a.Verdict, a.Next)
	}
}

// A coach who declined has looked: until the next break the setup stays, and no look is
// asked for, though no rule has an answer any more.
func TestOverride_ADeclineIsALook(t *testing.T) {
	set := scripted(t, setupAtDistance(12), strings.Repeat("sssssssmmm", 4), strings.Repeat("brwfrbwrrb", 4))
	declined := Override{Rule: RuleMissBalance, Breaks: 40, Under: setupAtDistance(12)}
	a := Judge(numberSets(set), Brief{Overrides: []Override{declined}})
	if a.Verdict != Keep || a.NeedsCoach || a.Prescription != nil || a.Next != set.Setup || a.Says != "Your coach decided: the same setup again." {
		t.Errorf("%s, a look is asked for: %v, next %+v, %q", a.Verdict, a.NeedsCoach, a.Next, a.Says)
	}
	one := scripted(t, setupAtDistance(12), "s", "b")
	if later := Judge(numberSets(set, one), Brief{Overrides: []Override{declined}}); later.Says == a.Says {
		t.Errorf("after another break: %q", later.Says)
	}
}

func TestOverride_OfAnotherSetupDoesNotCount(t *testing.T) {
	o := Override{Rule: RuleMissBalance, Breaks: 10, Under: drill.Setup{Game: "nine-ball", Tip: 0.4}}
	if a := Judge(numberSets(scripted(t, setupAtDistance(12), "sssssssmmm", "brwfrbwrrb")), Brief{Overrides: []Override{o}}); a.Verdict != Change {
		t.Error("a decision made under another setup silences this one")
	}
}
