package advice

import (
	"math"
	"slices"
	"testing"

	"breakwright/internal/belief"
	"breakwright/internal/drill"
	"breakwright/internal/table"
)

// believed is an analysis that has weighed its breaks.
func believed(sets ...drill.Set) *analysis {
	l := analysisOf(sets...)
	l.believe()
	return l
}

// The tip and the hit are weighed up to half a radius and half an inch from where they are,
// in tenths; side spin only to be left away, however little it is.
func TestSingleChanges_OfTheStroke(t *testing.T) {
	tenths := []float64{-0.5, -0.4, -0.3, -0.2, -0.1, 0.1, 0.2, 0.3, 0.4, 0.5}
	for _, c := range []struct {
		name     string
		change   func(*drill.Setup)
		variable Variable
		want     []float64
	}{
		{"the hit", func(*drill.Setup) {}, VaryContact, tenths},
		{"the hit, from off full", func(s *drill.Setup) { s.Contact = 0.2 }, VaryContact, []float64{-0.5, -0.4, -0.3, -0.2, -0.1, 0.1, 0.2, 0.3}},
		{"the tip, to its limit", func(s *drill.Setup) { s.Tip = 0 }, VaryTip, tenths[1:9]},
		{"the spin", func(s *drill.Setup) { s.Spin = 0.2 }, VarySpin, []float64{-0.2}},
		{"a little spin", func(s *drill.Setup) { s.Spin = -0.1 }, VarySpin, []float64{0.1}},
		{"no spin", func(*drill.Setup) {}, VarySpin, nil},
	} {
		s := standardSetup()
		c.change(&s)
		l := analysisOf(scripted(t, s, ordinaryWing, "w"))
		var got []float64
		for _, change := range l.listSingleChanges() {
			if change.variable == c.variable {
				got = append(got, math.Round(10*partDifference(c.variable, s, change.to))/10)
			}
		}
		slices.Sort(got)
		if !slices.Equal(got, c.want) {
			t.Errorf("%s by %v, want %v", c.name, got, c.want)
		}
	}
}

// Speed is added by three miles an hour at most where the break then is a fast one; it is
// taken off by up to six.
func TestSingleChanges_OfTheSpeed(t *testing.T) {
	for _, c := range []struct {
		instructed table.Mph
		want       []float64
	}{
		{15, []float64{-1, 1, 2, 3, 4, 6}},
		{17, []float64{-3, -2, -1, 1, 2, 3, 4}},
		{18, []float64{-4, -3, -2, -1, 1, 2, 3}},
		{20, []float64{-6, -4, -3, -2, -1, 1, 2, 3}},
	} {
		l := analysisOf(scripted(t, setupWithSpeed(c.instructed), ordinaryWing, "w"))
		var got []float64
		for _, change := range l.listSingleChanges() {
			if change.variable == VarySpeed {
				got = append(got, float64(change.to.Speed-c.instructed))
			}
		}
		slices.Sort(got)
		if !slices.Equal(got, c.want) {
			t.Errorf("told %v: by %v, want %v", c.instructed, got, c.want)
		}
	}
}

// Where a ball flew once at more speed, as much is not told again; less of it is.
func TestIsExcluded_NotBackToWhereBallsFlew(t *testing.T) {
	there, here := scripted(t, setupWithSpeed(20), ordinaryWing, "w"), scripted(t, setupWithSpeed(17), ordinaryWing, "w")
	for _, flew := range []bool{false, true} {
		l := believed(there, here)
		if flew {
			l.records[0].tally.off = 1
		}
		for by, want := range map[float64]bool{2: false, 3: flew, 4: flew} {
			if got := l.isExcluded(l.raiseSpeed(by, reasonPlain)); got != want {
				t.Errorf("a ball flew at 20 mph is %v; %v more than 17: excluded is %v", flew, by, got)
			}
		}
	}
	higher := setupWithSpeed(17)
	higher.Tip = 0.2
	l := believed(scripted(t, higher, ordinaryWing, "w"), here)
	if l.records[0].tally.off = 1; l.isExcluded(l.raiseSpeed(1, reasonPlain)) {
		t.Error("a ball flew at the same speed under a higher tip, and a mile an hour more is excluded")
	}
}

// More speed is not told while balls fly, nor what a coach has decided against, whose rule
// is off, or that was tried and found worse.
func TestIsExcluded_WhatMayNotBeTold(t *testing.T) {
	l := believed(scripted(t, setupWithSpeed(17), ordinaryWing, "w"))
	faster, slower, lower := l.raiseSpeed(1, reasonPlain), l.raiseSpeed(-1, reasonPlain), l.raiseTip(-0.1, reasonPlain)
	for _, c := range []struct {
		name   string
		off    int
		change proposedChange
		want   bool
	}{{"faster", 0, faster, false}, {"faster, a ball flew", 1, faster, true}, {"slower, a ball flew", 1, slower, false}, {"a lower tip, a ball flew", 1, lower, false}} {
		l.currentTally().off = c.off
		if got := l.isExcluded(c.change); got != c.want {
			t.Errorf("%s: excluded is %v", c.name, got)
		}
	}
	l.overrides = []Override{{Rule: RuleMissBalance, Breaks: 10}}
	for name, change := range map[string]proposedChange{"place": l.moveCueBallOut(-2, reasonPlain), "hit": l.shiftContact(0.1, reasonPlain)} {
		if !l.isExcluded(change) {
			t.Errorf("the %s is told, though the coach has decided on the wing ball's line", name)
		}
	}
	if l.isExcluded(slower) {
		t.Error("a decision on the wing ball's line silences the speed")
	}
	l.overrides = nil
	n := DefaultRules()
	off := n.Numbers[RuleUnsteady]
	off.On = false
	n.Numbers[RuleUnsteady] = off
	if l.rules = n; !l.isExcluded(slower) {
		t.Error("less speed is told though its rule is off")
	}
}

// A tip is told no higher than a tenth of a radius as it strikes, nor than 0.3 as it is told.
func TestIsTipTooHigh_AsItStrikes(t *testing.T) {
	for cue, want := range map[string]map[float64]bool{
		"f": {0: false, 0.1: false, 0.11: true, 0.3: true}, // it strikes higher than it is told
		"b": {0: false, 0.1: false, 0.11: false, 0.3: false, 0.31: true},
	} {
		l := believed(scripted(t, setupWithTip(0.2), ordinaryWing, cue))
		if offset := l.hands.MeanTipOffset(); (offset < -0.2) != (cue == "b") || (offset > 0) != (cue == "f") {
			t.Fatalf("of a cue ball that goes %s the tip is struck %v higher than it is told", cue, offset)
		}
		for instructed, want := range want {
			if got := l.isTipTooHigh(instructed); got != want {
				t.Errorf("a tip of %v, cue ball %s: too high is %v", instructed, cue, got)
			}
		}
	}
}

// A setup that was played on eight breaks or more, and was worse by its own, is not told
// again.
func TestWasTriedAndWorse_ByItsOwnBreaks(t *testing.T) {
	good, bad := breakTally{breaks: 20, watched: 20, clean: 16}, breakTally{breaks: 20, watched: 20, clean: 6}
	few, eight, alike := bad, bad, good
	few.breaks, eight.breaks, alike.clean = 7, 8, 15
	likelyWorse, littleWorse := breakTally{breaks: 16, watched: 16, clean: 10}, breakTally{breaks: 16, watched: 16, clean: 11}
	here, there := scripted(t, setupWithTip(-0.1), ordinaryWing, "w"), scripted(t, setupWithTip(-0.3), ordinaryWing, "w")
	for _, c := range []struct {
		name      string
		now, then breakTally
		change    drill.RadiusFraction
		want      bool
	}{
		{"worse", good, bad, -0.2, true},
		{"worse, on eight breaks", good, eight, -0.2, true},
		{"worse, on seven", good, few, -0.2, false},
		{"four times in five worse", good, likelyWorse, -0.2, true},
		{"less surely worse", good, littleWorse, -0.2, false},
		{"better", bad, good, -0.2, false},
		{"much alike", good, alike, -0.2, false},
		{"another setup", good, bad, -0.1, false},
	} {
		l := believed(there, here)
		l.records[0].tally, *l.currentTally() = c.then, c.now
		change := l.raiseTip(float64(c.change), reasonPlain)
		if got := l.wasTriedAndWorse(change); got != c.want || l.isExcluded(change) != c.want {
			t.Errorf("%s: tried and worse is %v, excluded %v", c.name, got, l.isExcluded(change))
		}
	}
}

// A change that has to make up for something must be of a part that may well be amiss: of a
// place or a hit where either is, of less speed where the stroke is not steady.
func TestAnswersLikelyCause_OfAPartThatMayBeAmiss(t *testing.T) {
	l := believed(scripted(t, setupAtDistance(10), "sssssssskm", "brwfrbwrrb"))
	if l.hands.ShareOf(belief.Nothing) > likelyNothing {
		t.Fatal("most likely nothing is amiss")
	}
	share := func(c belief.Cause, of float64) *decision {
		return &decision{causes: []belief.CauseShare{{Cause: c, Share: of}}}
	}
	for _, c := range []struct {
		name   string
		d      *decision
		change proposedChange
		want   bool
	}{
		{"the place, wrongly told", share(belief.Place, likelyCause), l.moveCueBallOut(2, reasonPlain), true},
		{"the hit, for a place that is wrongly told", share(belief.Place, likelyCause), l.shiftContact(-0.1, reasonPlain), true},
		{"the tip, for a place", share(belief.Place, 1), l.raiseTip(0.1, reasonPlain), l.hands.ShareOf(belief.Tip) >= likelyCause},
		{"less speed", share(belief.Place, 1), l.raiseSpeed(-1, reasonPlain), l.hands.ShareOfSpeed(true)+l.hands.ShareOf(belief.Unsteady) >= likelyCause},
		{"more speed", share(belief.Place, 1), l.raiseSpeed(1, reasonPlain), l.hands.ShareOfSpeed(false) >= likelyCause},
	} {
		if got := l.answersLikelyCause(c.d, c.change); got != c.want {
			t.Errorf("%s: answers is %v", c.name, got)
		}
	}
}

// Of changes that promise as much, what can be measured goes before what can only be felt.
func TestEase_MeasuredBeforeFelt(t *testing.T) {
	if !(easeOf[VaryPlace] > easeOf[VaryTip] && easeOf[VaryTip] > easeOf[VarySpeed] && easeOf[VarySpeed] > easeOf[VaryContact]) || easeOf[VarySpin] != easeOf[VaryPlace] {
		t.Errorf("%v", easeOf)
	}
}

// A hit is not moved where a place that is likelier wrong would do.
func TestBestChange_ThePlaceBeforeTheHit(t *testing.T) {
	l := believed(scripted(t, setupAtDistance(12), "sssssssmmm", "w"))
	sure := belief.Effect{Gain: 0.3, SoundGain: 0.3, Help: 0.95}
	place := weighedChange{l.moveCueBallOut(4, reasonPlain), sure}
	hit := weighedChange{l.shiftContact(-0.2, reasonPlain), sure}
	hit.effect.Gain = 0.6
	for _, c := range []struct {
		name       string
		place, hit float64
		changes    []weighedChange
		want       Variable
		found      bool
	}{
		{"a likelier place", 0.5, 0.3, []weighedChange{place, hit}, VaryPlace, true},
		{"as likely", 0.4, 0.4, []weighedChange{hit, place}, VaryPlace, true},
		{"a likelier hit", 0.3, 0.5, []weighedChange{place, hit}, VaryContact, true},
		{"no place that helps", 0.5, 0.3, []weighedChange{hit}, VaryContact, true},
		{"neither", 0.5, 0.3, nil, "", false},
	} {
		d := &decision{causes: []belief.CauseShare{{Cause: belief.Place, Share: c.place}, {Cause: belief.Contact, Share: c.hit}}}
		if got, found := l.bestChange(d, c.changes); found != c.found || got.variable != c.want {
			t.Errorf("%s: %s (%v), want %s", c.name, got.variable, found, c.want)
		}
	}
}

// A stroke that is not steady is answered by less speed, and by nothing else.
func TestAnswersLikelyCause_LessSpeedOfAnUnsteadyStroke(t *testing.T) {
	l := believed(scripted(t, standardSetup(), "sksssksssssksssksssk", "HSffxFFHfFrfFfHFSfHH"))
	if l.hands.ShareOf(belief.Unsteady) < 0.5 {
		t.Fatalf("unsteady is only %v", l.hands.ShareOf(belief.Unsteady))
	}
	halfMile := proposedChange{variable: VarySpeed, to: l.currentSetup()}
	halfMile.to.Speed += 0.5
	for name, c := range map[string]proposedChange{
		"less speed": l.raiseSpeed(-1, reasonPlain), "more speed": l.raiseSpeed(1, reasonPlain), "a little more speed": halfMile,
		"a lower tip": l.raiseTip(-0.1, reasonPlain), "a higher tip": l.raiseTip(0.1, reasonPlain),
	} {
		if got := l.answersLikelyCause(&decision{}, c); got != (name == "less speed") {
			t.Errorf("%s: answers is %v", name, got)
		}
	}
}
