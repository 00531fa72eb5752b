package advice

import (
	"slices"
	"testing"

	"breakwright/internal/belief"
	"breakwright/internal/drill"
	"breakwright/internal/table"
)

// Where most likely nothing is amiss a gain must be clearer, but of a place, whose misses
// show when it is told wrongly.
func TestIsGainClear_WhereMostLikelyNothingIsAmiss(t *testing.T) {
	well := believed(scripted(t, standardSetup(), "ssssssssss", "b")) // the same each time: the setup is wrong, not the hands
	amiss := believed(scripted(t, standardSetup(), "kkmkfkkfkm", "fffwfwffww"))
	if !(well.hands.ShareOf(belief.Nothing) > likelyNothing) || amiss.hands.ShareOf(belief.Nothing) > likelyNothing {
		t.Fatalf("nothing is amiss with %v and %v", well.hands.ShareOf(belief.Nothing), amiss.hands.ShareOf(belief.Nothing))
	}
	for _, c := range []struct {
		name     string
		l        *analysis
		variable Variable
		gain     float64
		want     bool
	}{
		{"amiss, a tip that gains a little", amiss, VaryTip, 0.08, true},
		{"amiss, a tip that gains less", amiss, VaryTip, 0.06, false},
		{"well, a tip that gains a little", well, VaryTip, 0.08, false},
		{"well, a tip that gains much", well, VaryTip, 0.16, true},
		{"well, a place that gains a little", well, VaryPlace, 0.08, true},
		{"well, a place that gains less", well, VaryPlace, 0.06, false},
		{"amiss, a place that gains a little", amiss, VaryPlace, 0.08, true},
	} {
		w := weighedChange{proposedChange{variable: c.variable, to: c.l.currentSetup()}, belief.Effect{Gain: c.gain}}
		if got := c.l.isGainClear(w); got != c.want {
			t.Errorf("%s: %v", c.name, got)
		}
	}
}

// A student who loses the cue ball too often is told what loses it less often, by a tenth at
// least, and nothing else; anyone else may be told either.
func TestKeepsCueBall_OfAStudentWhoLosesIt(t *testing.T) {
	l := believed(scripted(t, standardSetup(), ordinaryWing+ordinaryWing, "SwwSSwwSwwSwwSSwwSww"))
	if !l.losesCueBall() {
		t.Fatal("eight scratches of twenty are not too many")
	}
	lost := func(s drill.Setup) float64 { e := l.hands.Expect(l.kind, s); return e.Scratch + e.CueOff }
	now := lost(l.currentSetup())
	kept, refused := 0, 0
	for _, c := range l.listSingleChanges() {
		want := lost(c.to) < 0.9*now
		if got := l.keepsCueBall(c); got != want {
			t.Errorf("%s: from %.3f to %.3f is kept %v", c.variable, now, lost(c.to), got)
		}
		if want {
			kept++
		} else if lost(c.to) < 1.1*now {
			refused++ // about as often as now
		}
	}
	if kept == 0 || refused == 0 {
		t.Errorf("%d changes lose it less often and %d about as often", kept, refused)
	}
	l.currentTally().cue = cueTally{inWindow: 20}
	for _, c := range l.listSingleChanges() {
		if !l.keepsCueBall(c) {
			t.Fatalf("%s is refused of a student who keeps the cue ball", c.variable)
		}
	}
}

// Only what differs in the place alone, and where the balls were watched, tells of places.
func TestPlaceSets_OfThePlaceAlone(t *testing.T) {
	tip := setupAtDistance(14)
	tip.Tip = -0.3
	one := scripted(t, setupAtDistance(10), "m", "w")
	unwatched := scripted(t, setupAtDistance(12), "s", "w")
	unwatched.Breaks[0].WingMiss, unwatched.Breaks[0].Pocketed = drill.NotWatched, nil
	l := analysisOf(one, unwatched, scripted(t, tip, ordinaryWing, "w"), scripted(t, setupAtDistance(18), ordinaryWing, "w"))
	var places []float64
	for _, s := range l.placeSets() {
		places = append(places, s.Place)
	}
	if len(places) != 2 || places[0] != 10 || places[1] != 18 {
		t.Errorf("places %v, want those at 10 and 18 in", places)
	}
}

// The share of the benefit of the doubt falls from all to none.
func TestDoubtBenefit_FallsFromAllToNone(t *testing.T) {
	for off, want := range map[float64]float64{-3: 1, 0: 1, 1: 0.75, 2: 0.5, 4: 0, 9: 0} {
		if got := doubtBenefit(off, 4); got != want {
			t.Errorf("%v off of 4: %v, want %v", off, got, want)
		}
	}
}

// A change is told that helps four times in five and harms at most twelve in a hundred. It
// may help less surely where its part is very likely amiss, and must more surely where it
// turns the last change back.
func TestIsSureEnough_HelpAndHarm(t *testing.T) {
	first := believed(scripted(t, setupAtDistance(12), "sssssssmmm", "w"))
	after := believed(scripted(t, setupAtDistance(14), "sssssssmmm", "w"), scripted(t, setupAtDistance(12), "sssssssmmm", "w"))
	for _, c := range []struct {
		name       string
		l          *analysis
		share      float64 // of the place, as a cause
		help, harm float64
		want       bool
	}{
		{"helps four in five, harms twelve in a hundred", first, 0.5, 0.8, 0.12, true},
		{"helps less", first, 0.5, 0.79, 0.1, false},
		{"harms more", first, 0.5, 0.8, 0.13, false},
		{"very likely amiss, helps more than three in five", first, 0.75, 0.61, 0.1, true},
		{"very likely amiss, helps less", first, 0.75, 0.59, 0.1, false},
		{"likely amiss, helps three in five", first, 0.65, 0.61, 0.1, false},
		{"turns back, helps nine in ten", after, 0.75, 0.91, 0, false},
		{"turns back, helps more surely", after, 0.75, 0.93, 0, true},
	} {
		change := weighedChange{c.l.moveCueBallOut(2, reasonPlain), belief.Effect{Gain: 0.3, Help: c.help, Harm: c.harm}}
		d := &decision{causes: []belief.CauseShare{{Cause: belief.Place, Share: c.share}}}
		if got := c.l.isSureEnough(d, change); got != c.want {
			t.Errorf("%s: %v", c.name, got)
		}
	}
}

// Of a pattern's answer the size is told that gains most, of its own part and way, and none
// that is not likely to help or may not be told.
func TestBestSize_OfThePartAndWay(t *testing.T) {
	l := believed(scripted(t, setupAtDistance(12), "sssssssmmm", "w"))
	told := l.moveCueBallOut(4, reasonPlain)
	weighed := func(c proposedChange, gain, help, harm float64) weighedChange {
		return weighedChange{c, belief.Effect{Gain: gain, Help: help, Harm: harm}}
	}
	further, in := l.moveCueBallOut(6, reasonPlain), l.moveCueBallOut(-2, reasonPlain)
	for _, c := range []struct {
		name    string
		weighed []weighedChange
		want    proposedChange
	}{
		{"nothing weighed", nil, proposedChange{}},
		{"further out gains more", []weighedChange{weighed(told, 0.1, 0.9, 0), weighed(further, 0.2, 0.9, 0)}, further},
		{"further out gains less", []weighedChange{weighed(told, 0.3, 0.9, 0), weighed(further, 0.2, 0.9, 0)}, told},
		{"further out may not help", []weighedChange{weighed(further, 0.2, 0.6, 0)}, proposedChange{}},
		{"further out may harm", []weighedChange{weighed(further, 0.2, 0.9, 0.2)}, proposedChange{}},
		{"the other way", []weighedChange{weighed(in, 0.2, 0.9, 0)}, proposedChange{}},
		{"another part", []weighedChange{weighed(l.shiftContact(0.2, reasonPlain), 0.2, 0.9, 0)}, proposedChange{}},
	} {
		got, found := l.bestSize(&decision{weighed: c.weighed}, told)
		if got.proposedChange != c.want || found != (c.want != proposedChange{}) {
			t.Errorf("%s: to %v, %v", c.name, got.to.Cue, found)
		}
	}
}

// A rack that is loose with two chances in five is looked at before anything is changed;
// one with a chance in four where it is as likely as what the change would answer.
func TestIsRackFirst_TwoInFiveOrAsLikely(t *testing.T) {
	for _, c := range []struct {
		loose, answered float64
		want            bool
	}{
		{0.4, 0.6, true}, {0.39, 0.6, false},
		{0.3, 0.3, true}, {0.3, 0.31, false},
		{0.25, 0.1, true}, {0.24, 0.1, false},
	} {
		if got := isRackFirst(c.loose, c.answered); got != c.want {
			t.Errorf("loose with %v, and the cause with %v: first is %v", c.loose, c.answered, got)
		}
	}
}

// softStrokes are breaks of a speed that nobody named, few of whose balls cross the head
// string or meet a rail.
func softStrokes(t *testing.T, instructed table.Mph, crossed, rails int) drill.Set {
	t.Helper()
	set := scripted(t, setupWithSpeed(instructed), "sfsfsfsmsm", "w")
	for i := range set.Breaks {
		set.Breaks[i].PastString, set.Breaks[i].Rails = drill.ObservedCount(crossed), drill.ObservedCount(rails)
	}
	return set
}

// A stroke of unknown speed is asked for a mile an hour more than an ordinary break when it
// is surely four softer than that, and not while that may be wrong.
func TestIsSurelySoft_OfAStrokeOfUnknownSpeed(t *testing.T) {
	for _, c := range []struct {
		name string
		sets []drill.Set
		want bool
	}{
		{"surely soft", []drill.Set{softStrokes(t, 0, 0, 2)}, true},
		{"surely soft, of a known speed", []drill.Set{softStrokes(t, 18, 0, 2)}, false},
		{"surely soft, by less than four", slices.Repeat([]drill.Set{softStrokes(t, 0, 1, 2)}, 2), false},
		{"soft by more than four, not so surely", slices.Repeat([]drill.Set{softStrokes(t, 0, 2, 8)}, 2), false},
	} {
		l := believed(c.sets...)
		if got := l.isSurelySoft(); got != c.want {
			t.Errorf("%s: %v; slower than ordinary with %.2f, by %.1f", c.name, got, l.hands.ShareOf(belief.Speed), -l.hands.MeanSpeedOffset())
		}
	}
	history := []drill.Set{softStrokes(t, 0, 0, 2)}
	if a := Judge(history, Brief{}); a.Verdict != Change || a.Next.Speed != ordinarySpeed+1 {
		t.Errorf("a soft stroke: %s, at %v", a.Says, a.Next.Speed)
	}
	rules := DefaultRules()
	n := rules.Numbers[RuleWeak]
	n.On = false
	rules.Numbers[RuleWeak] = n
	if a := Judge(history, Brief{Rules: rules}); a.Next.Speed > ordinarySpeed {
		t.Errorf("a soft stroke where the club asks for no force: %s", a.Says)
	}
}

// A pattern is there from its rule's fewest breaks on, and as sure as the rule asks is sure
// enough.
func TestShowsPatternOf_FromTheRulesBreaksAndCertaintyOn(t *testing.T) {
	seen := breakTally{breaks: 10, watched: 10, cue: cueTally{forward: 6}}
	for _, c := range []struct {
		breaks int
		surer  float64
		want   bool
	}{{10, 0, true}, {11, 0, false}, {10, 0.001, false}, {9, -0.001, true}} {
		l := analysisWith(t, standardSetup(), seen)
		n := l.rules.numbersOf(forwardRule.Rule)
		n.MinBreaks, n.Certainty = c.breaks, forwardRule.observe(l, n).certainty+c.surer
		l.rules = Rules{Numbers: map[RuleName]Numbers{RuleForward: n}}
		if got := l.showsPatternOf(l.raiseTip(-0.1, reasonPlain)); got != c.want {
			t.Errorf("from %d breaks on, %v surer than it is: %v", c.breaks, c.surer, got)
		}
	}
}

// Where the room plays three points, no change is told that falls short of them in three
// more of a hundred breaks; elsewhere that says nothing.
func TestKeepsThreePoints_ThreeInAHundredGivenUp(t *testing.T) {
	kept, refused := 0, 0
	for _, s := range []drill.Setup{standardSetup(), setupWithSpeed(20), setupWithTip(-0.3), setupWithContact(0.3)} {
		l := believed(scripted(t, s, ordinaryWing, "w"))
		short := func(s drill.Setup) float64 { return l.hands.Expect(l.kind, s).Short }
		for _, c := range l.listSingleChanges() {
			more := short(c.to) - short(s)
			if l.house.ThreePoints = true; l.keepsThreePoints(c) != (more <= 0.03) {
				t.Errorf("%s that falls short %.4f more often is kept %v", c.variable, more, l.keepsThreePoints(c))
			}
			if l.house.ThreePoints = false; !l.keepsThreePoints(c) {
				t.Errorf("%s is refused where nobody counts points", c.variable)
			}
			switch {
			case more > 0.02 && more <= 0.03:
				kept++
			case more > 0.03 && more < 0.0375:
				refused++
			}
		}
	}
	if kept == 0 || refused == 0 {
		t.Errorf("%d changes fall short nearly three times more in a hundred, %d a little more often than that", kept, refused)
	}
}
