package advice

import (
	"strings"
	"testing"

	"breakwright/internal/drill"
	"breakwright/internal/rack"
	"breakwright/internal/table"
)

func setupWithTip(tip drill.RadiusFraction) drill.Setup { s := standardSetup(); s.Tip = tip; return s }
func setupWithContact(c table.Inches) drill.Setup       { s := standardSetup(); s.Contact = c; return s }
func setupWithSpeed(v table.Mph) drill.Setup            { s := standardSetup(); s.Speed = v; return s }

func setupCentreOnSpot() drill.Setup { s := standardSetup(); s.Spot = rack.CentreOnSpot; return s }

// ordinary is a set that nothing is wrong with.
const ordinaryWing, ordinaryCue = "mmsfmsmmfj", "wwfwxwwbww"

// Each rule on its own pattern: what it changes and to what.
func TestRules_FireOnTheirPattern(t *testing.T) {
	for _, c := range []struct {
		name      string
		setup     drill.Setup
		wing, cue string
		rule      RuleName
		vary      Variable
		to        float64
	}{
		{"two balls off in ten", standardSetup(), ordinaryWing, "wwowwwwoww", RuleDanger, VarySpeed, 16},
		{"two balls off in twenty", standardSetup(), ordinaryWing + ordinaryWing, "wwowwwwwwwwwwowwwwww", RuleDanger, VarySpeed, 17},
		{"far too fast", setupWithSpeed(23), ordinaryWing, "owwowwwoww", RuleDanger, VarySpeed, 18},
		{"faster than is taught", setupWithSpeed(26), ordinaryWing, "w", RuleLimits, VarySpeed, 24},
		{"beyond the miscue limit", setupWithTip(-0.7), ordinaryWing, "w", RuleLimits, VaryTip, -0.5},
		{"against the side rail", setupAtDistance(24), ordinaryWing, "w", RuleLimits, VaryPlace, -22.75},
		{"side scratches", standardSetup(), ordinaryWing, "SwwSSwwSww", RuleSideScratch, VaryContact, -0.2},
		{"near side scratches", standardSetup(), ordinaryWing, "swwsswwsww", RuleSideScratch, VaryContact, 0.2},
		{"side scratches, contact there already", setupWithContact(-0.2), ordinaryWing, "SwwSSwwSww", RuleSideScratch, VarySpeed, 17},
		{"head corner scratches", setupWithTip(-0.3), ordinaryWing, "HwwHHwwHww", RuleHeadScratch, VaryTip, -0.2},
		{"foot corner scratches", setupWithTip(0), ordinaryWing, "FwwFFwwFww", RuleFootScratch, VaryTip, -0.1},
		{"foot corner scratches off full", setupWithContact(0.3), ordinaryWing, "FwwFFwwFww", RuleFootScratch, VaryContact, 0.1},
		{"forward", setupWithTip(0), ordinaryWing, "fffwfffwfw", RuleForward, VaryTip, -0.2},
		{"forward, path not seen, no draw", setupWithTip(0), ordinaryWing, "???w???w?w", RuleForward, VaryTip, -0.2},
		{"forward with the tip far too high", setupWithTip(0.3), ordinaryWing, "ffffffffff", RuleForward, VaryTip, 0.1},
		{"back", setupWithTip(-0.3), ordinaryWing, "bbrwrbbwbw", RuleBackTooFar, VaryTip, -0.1},
		{"back, tip at centre", setupWithTip(0), ordinaryWing, "bbrwbbbbbw", RuleBackTooFar, VaryTip, 0.2},
		{"back without draw", setupWithTip(0.2), ordinaryWing, "bbrwrbbbbw", RuleBackTooFar, VarySpeed, 17},
		{"back, and fast", setupWithSpeed(21), ordinaryWing, "bbrwrbbbbw", RuleBackTooFar, VarySpeed, 19},
		{"side rail first", setupAtDistance(12), "sssssssmmm", "w", RuleMissBalance, VaryPlace, -16},
		{"foot rail first", setupAtDistance(20), "fffkffffmm", "w", RuleMissBalance, VaryPlace, -16},
		{"side rail first, contact off full", setupWithContact(0.3), "sssssssmmm", "w", RuleMissBalance, VaryContact, 0},
		{"side rail first, no room left", setupAtDistance(22.5), "sssssssmmm", "w", RuleMissBalance, VaryContact, -0.3},
		{"side rail first, cue ball thrown", standardSetup(), "sssssssmmm", "wxxwwwwSSS", RuleMissBalance, VaryContact, -0.3},
		{"cue ball wide on the far side", standardSetup(), ordinaryWing, "xxxxxxxxww", RuleThrownWide, VaryContact, -0.2},
		{"misses not recorded", standardSetup(), "m-------------------", "w", RuleWingUnseen, VaryPlace, -16},
		{"everything scatters", setupWithSpeed(20), "sfmskfsfmf", "xbfwSfxbfb", RuleUnsteady, VarySpeed, 18},
	} {
		t.Run(c.name, func(t *testing.T) {
			a := judgePatterns(numberSets(scripted(t, c.setup, c.wing, c.cue)), Brief{})
			if a.Verdict != Change || a.Prescription == nil {
				t.Fatalf("verdict %s, want a change; findings %+v", a.Verdict, a.Findings)
			}
			p := a.Prescription
			if p.Rule != c.rule || p.Variable != c.vary || p.To.Number != c.to {
				t.Errorf("%s: %s to %s, want %s: %s to %v", p.Rule, p.Variable, p.To, c.rule, c.vary, c.to)
			}
			if p.Reason == "" || p.Expect == "" {
				t.Error("a change without its reason or its effect")
			}
		})
	}
}

// judgePatterns is what the patterns alone say, without weighing everything that
// was seen.
func judgePatterns(history []drill.Set, b Brief) Advice { return judge(history, b, false) }

// The answers for the head ball on the spot move nobody with the centre ball on
// it, nor in another game (coaching rules; computed breaks of two makers).
func TestRules_MoveNobodyOnAnotherRack(t *testing.T) {
	a := judgePatterns(numberSets(scripted(t, setupCentreOnSpot(), "mssssssssssssfffffff", "w")), Brief{})
	if a.Verdict == Change {
		t.Errorf("with the centre ball on the spot: %s", a.Says)
	}
}

// What luck commonly does with a good break moves nothing.
func TestRules_SilentOnLuck(t *testing.T) {
	for _, c := range []struct {
		name      string
		setup     drill.Setup
		wing, cue string
	}{
		{"an ordinary set", standardSetup(), ordinaryWing, ordinaryCue},
		{"one ball off", standardSetup(), ordinaryWing, "wwowwwwwww"},
		{"three scratches", standardSetup(), ordinaryWing, "wwSwSwwSww"},
		{"two scratches in different pockets", standardSetup(), ordinaryWing, "wwHwwwwFww"},
		{"four of ten forward", standardSetup(), ordinaryWing, "fwwfwwfwwf"},
		{"four of ten back", standardSetup(), ordinaryWing, "bwwbwwbwwb"},
		{"four of five misses on one side", standardSetup(), "mmssmsmmsf", "w"},
		{"all four misses on one side", standardSetup(), "mmssmsmmsm", "w"},
		{"six of eight misses on one side", standardSetup(), "mfssmsssfs", "w"},
		{"one of ten, misses not recorded", standardSetup(), "m---------", "w"},
		{"misses on one side, but the wing ball falls", standardSetup(), "mmmmmmssssmmmmmmmssm", "w"},
		{"foot end under much draw, path not seen", setupWithTip(-0.3), ordinaryWing, "???w???w?w"},
	} {
		t.Run(c.name, func(t *testing.T) {
			a := judgePatterns(numberSets(scripted(t, c.setup, c.wing, c.cue)), Brief{})
			if a.Verdict == Change {
				t.Fatalf("changed %s by %s: %s", a.Prescription.Variable, a.Prescription.Rule, a.Prescription.Reason)
			}
			if !a.Next.SameAs(c.setup) {
				t.Errorf("next is %+v, want the same setup", a.Next)
			}
		})
	}
}

func TestRules_WeakBreaksHitHarderOnlyWhenQuiet(t *testing.T) {
	weakSet := func(cue string) drill.Set {
		set := scripted(t, setupWithSpeed(16), "mmfsmsuujf", cue)
		for i := 2; i < 9; i++ {
			if set.Breaks[i].WingMiss != "" {
				set.Breaks[i].Pocketed, set.Breaks[i].Rails = nil, drill.ObservedCount(2)
			}
		}
		return set
	}
	if p := judgePatterns(numberSets(weakSet("w")), Brief{}).Prescription; p == nil || p.Rule != RuleWeak || p.To.Number != 18 {
		t.Errorf("weak breaks, most of them: %+v, want two notches more", p)
	}
	if p := judgePatterns(numberSets(weakSet("wwwwowwwww")), Brief{}).Prescription; p != nil && p.Variable == VarySpeed {
		t.Errorf("weak breaks with a ball off the table: %+v, want no more speed", p)
	}
}

// withDryBreaks is a set whose misses pocketed nothing and whose rails nobody counted.
func withDryBreaks(set drill.Set) drill.Set {
	for i := range set.Breaks {
		set.Breaks[i].Rails = nil
		if set.Breaks[i].WingMiss != "" {
			set.Breaks[i].Pocketed = nil
		}
	}
	return set
}

// Where the rails are not counted, a soft stroke that pockets nothing is still the
// first suspect; an ordinary one is not.
func TestRules_SoftAndDryWantsMoreSpeed(t *testing.T) {
	for instructed, want := range map[table.Mph]float64{15: 17, 18: 0} {
		p := judgePatterns(numberSets(withDryBreaks(scripted(t, setupWithSpeed(instructed), "msfkusfkuj", "w"))), Brief{}).Prescription
		if got := p != nil && p.Rule == RuleWeak; got != (want != 0) || got && p.To.Number != want {
			t.Errorf("nine of ten dry at %v mph: %+v, want %v", instructed, p, want)
		}
	}
}

func TestRules_NoShotPlansTheRack(t *testing.T) {
	set := scripted(t, standardSetup(), strings.Repeat("m", 20), "w")
	two, five := rack.Ball(2), rack.Ball(5) // in 2R and 3R
	for i := range set.Breaks {
		b := &set.Breaks[i]
		b.Shot = drill.ShotNone
		b.Rest = []drill.RestingBall{
			{Ball: two, Place: table.Place{X: 10, Y: 85}},
			{Ball: five, Place: table.Place{X: 10, Y: 20}},
		}
	}
	p := judgePatterns(numberSets(set), Brief{}).Prescription
	if p == nil || p.Rule != RuleNoShot || p.From.Text != "1-3-2-8-9-5-6-4-7" || p.To.Text != "1-3-5-8-9-2-6-4-7" {
		t.Errorf("no shot: %+v, want the 2 and the 5 swapped", p)
	}
	for i := range set.Breaks {
		set.Breaks[i].Rest = nil
	}
	a := judgePatterns(numberSets(set), Brief{})
	if a.Verdict == Change || len(a.Checks) == 0 || a.NeedsCoach {
		t.Errorf("no shot, rests unknown: %s, asks %q; want a request to record them", a.Verdict, a.Checks)
	}
}

func TestRules_HeadBallOnlyWhenAClubWatches(t *testing.T) {
	set := scripted(t, standardSetup(), strings.Repeat("mf", 10), "w")
	for i := range set.Breaks {
		b := &set.Breaks[i]
		b.Pocketed = nil
		if i%2 == 0 {
			b.Pocketed = []drill.Pocketed{{Ball: 8, Pocket: table.FootLeft}}
		}
		b.Rest = []drill.RestingBall{{Ball: 1, Place: table.Place{X: 20, Y: 70}}}
	}
	if a := judgePatterns(numberSets(set), Brief{}); a.Verdict == Change {
		t.Errorf("changed by %s while the rule is off", a.Prescription.Rule)
	}
	own := DefaultRules()
	n := own.Numbers[RuleHeadBall]
	n.On = true
	own.Numbers[RuleHeadBall] = n
	if p := judgePatterns(numberSets(set), Brief{Rules: own}).Prescription; p == nil || p.Rule != RuleHeadBall || p.To.Number != 0.1 {
		t.Errorf("with the rule on: %+v, want contact 0.1", p)
	}
}

func TestRules_DryBreaksAskForAChecklist(t *testing.T) {
	set := scripted(t, standardSetup(), "mfsfmsjfsm", "w")
	for i := range set.Breaks {
		if set.Breaks[i].WingMiss != "" {
			set.Breaks[i].Pocketed = nil
		}
	}
	a := judgePatterns(numberSets(set), Brief{})
	if a.Verdict == Change || !strings.Contains(strings.Join(a.Checks, " "), "rack is tight") {
		t.Errorf("dry: %s, asks %q; want the checklist and no change", a.Verdict, a.Checks)
	}
}

func TestRules_AClubsOwnNumbers(t *testing.T) {
	history := numberSets(scripted(t, setupAtDistance(12), "sssssssmmm", "w"))
	own := DefaultRules()
	n := own.Numbers[RuleMissBalance]
	n.Step = 2
	own.Numbers[RuleMissBalance], own.Version = n, "club 3"
	a := judgePatterns(history, Brief{Rules: own})
	if a.Prescription == nil || a.Prescription.To.Number != -14 || a.Rules != "club 3" {
		t.Errorf("step 2: %+v under %q", a.Prescription, a.Rules)
	}
	n.On = false
	own.Numbers[RuleMissBalance] = n
	if a := judgePatterns(history, Brief{Rules: own}); a.Verdict == Change {
		t.Errorf("rule off, yet changed by %s", a.Prescription.Rule)
	}
}

func TestCatalogue_EveryRuleHasItsWords(t *testing.T) {
	seen := map[RuleName]bool{}
	for _, r := range Catalogue() {
		if seen[r.Name] {
			t.Errorf("%s is there twice", r.Name)
		}
		seen[r.Name] = true
		if r.Title == "" || r.Pattern == "" || r.Answer == "" || r.Source == "" {
			t.Errorf("%s lacks a word: %+v", r.Name, r)
		}
		if n := DefaultRules().Numbers[r.Name]; n != r.Numbers {
			t.Errorf("%s: default numbers %+v, want %+v", r.Name, n, r.Numbers)
		}
	}
	for _, name := range []RuleName{RuleDanger, RuleLimits, RuleFollowUp, RuleThrownWide, RuleWeak, RuleSideScratch, RuleHeadScratch, RuleFootScratch,
		RuleForward, RuleBackTooFar, RuleMissBalance, RuleWingUnseen, RuleUnsteady, RuleNoShot, RuleHeadBall,
		RuleProgress, RuleTooEarly, RuleNewTable, RuleDry} {
		if !seen[name] {
			t.Errorf("%s is missing", name)
		}
	}
}
