package advice

import (
	"math/rand/v2"
	"reflect"
	"slices"
	"strings"
	"testing"

	"breakwright/internal/belief"
	"breakwright/internal/drill"
	"breakwright/internal/rack"
	"breakwright/internal/response"
	"breakwright/internal/table"
)

// A set that is not pooled says by what it differs, by nothing else.
func TestLeftOut_NamesTheDifference(t *testing.T) {
	here := poolKey{table: "North", kind: table.NineFoot(), game: string(rack.NineBall), side: table.Left, spot: string(rack.HeadOnSpot), wing: "3L"}
	for why, change := range map[string]func(*poolKey){
		"played on another table":                                  func(k *poolKey) { k.table = "South" },
		"the table's size or pockets are written down differently": func(k *poolKey) { k.kind = table.EightFoot() },
		"another game's rack":                                      func(k *poolKey) { k.game = string(rack.TenBall) },
		"broken from the other side":                               func(k *poolKey) { k.side = table.Right },
		"another ball on the foot spot":                            func(k *poolKey) { k.spot = string(rack.CentreOnSpot) },
		"another wing ball was played":                             func(k *poolKey) { k.wing = "3R" },
	} {
		there := here
		change(&there)
		if got := leftOutReason(there, here); got != why {
			t.Errorf("left out because %q, want %q", got, why)
		}
	}
}

// The sets that are judged and those before them under other setups are named apart.
func TestSummary_TellsUsedFromEarlier(t *testing.T) {
	history := numberSets(scripted(t, setupAtDistance(14), ordinaryWing, "w"), scripted(t, setupAtDistance(16), ordinaryWing, "w"))
	stint := Judge(history, Brief{}).Stint
	if !slices.Equal(stint.Used, []string{history[1].Name}) || !slices.Equal(stint.Earlier, []string{history[0].Name}) {
		t.Errorf("used are %v and earlier %v", stint.Used, stint.Earlier)
	}
}

// What is asked for lies within what is taught, and says a speed even where none was
// noted.
func TestWithinLimits_Speed(t *testing.T) {
	for asked, want := range map[table.Mph]table.Mph{0: ordinarySpeed, 1: drill.SlowestBreak, 20: 20, 90: drill.FastestBreak} {
		s := standardSetup()
		s.Speed = asked
		if got := withinLimits(s, table.NineFoot()).Speed; got != want {
			t.Errorf("%v is asked for as %v, want %v", asked, got, want)
		}
	}
}

// movedOut is an analysis whose latest change moved the cue ball from one distance to
// another.
func movedOut(t *testing.T, from, to table.Inches) *analysis {
	t.Helper()
	return newAnalysis(numberSets(scripted(t, setupAtDistance(from), ordinaryWing, "w"), scripted(t, setupAtDistance(to), ordinaryWing, "w")), Brief{})
}

// A change goes on in the way of the latest one or against it; one that stays where it is
// does neither, and neither does another part.
func TestChange_GoesOnOrTurnsBack(t *testing.T) {
	l := movedOut(t, 14, 16)
	for _, c := range []struct {
		name        string
		change      proposedChange
		on, against bool
	}{
		{"further out", l.moveCueBallOut(1, reasonPlain), true, false},
		{"an inch back", l.moveCueBallOut(-1, reasonPlain), false, true},
		{"nowhere", proposedChange{variable: VaryPlace, to: l.currentSetup()}, false, false},
		{"the tip", l.moveTip(0.2), false, false},
	} {
		if on, against := l.continuesLastChange(c.change), l.reversesLastChange(c.change); on != c.on || against != c.against {
			t.Errorf("%s: goes on %v, against %v", c.name, on, against)
		}
	}
}

// The coach's own setup waits until a break was recorded after the decision, in the stint
// in which it was decided.
func TestOverride_WaitsInItsOwnStint(t *testing.T) {
	history := numberSets(scripted(t, setupAtDistance(12), "sssssssmmm", "w"))
	chosen := setupAtDistance(13)
	for _, c := range []struct {
		name     string
		override Override
		waits    bool
	}{
		{"wherever it was decided", Override{Breaks: 10, Instead: chosen}, true},
		{"in this stint", Override{Breaks: 10, Instead: chosen, Under: setupAtDistance(12)}, true},
		{"in another stint", Override{Breaks: 10, Instead: chosen, Under: setupAtDistance(20)}, false},
		{"before the latest break", Override{Breaks: 9, Instead: chosen}, false},
		{"against a change, with nothing instead", Override{Breaks: 10}, true},
		{"against one before the latest break", Override{Breaks: 9}, false},
		{"against one in another stint", Override{Breaks: 10, Under: setupAtDistance(20)}, false},
		{"with the present one", Override{Breaks: 10, Instead: setupAtDistance(12)}, false},
	} {
		l := newAnalysis(history, Brief{})
		l.overrides = []Override{c.override}
		if got := l.pendingCoachSetup() != nil; got != c.waits {
			t.Errorf("decided %s: it waits is %v", c.name, got)
		}
	}
}

// What others' breaks show is of the racks that the model knows, and of sets that were
// broken.
func TestShow_LeavesOutWhatShowsNothing(t *testing.T) {
	one := scripted(t, standardSetup(), "m", "w")
	empty := one
	empty.Breaks = nil
	strange := one
	strange.Setup.Game = rack.Game("seven-ball")
	nineBall := response.Rack{Game: rack.NineBall, Spot: rack.HeadOnSpot}
	if shown := Show([]drill.Set{empty, strange}); len(shown) != 0 {
		t.Errorf("of no break of a known rack %v is shown", shown)
	}
	shown := Show([]drill.Set{one})[nineBall]
	if !shown.HasBreaks() {
		t.Error("one break shows nothing")
	}
	many := scripted(t, setupAtDistance(12), "sssssssmmm", "brwfrbwrrb")
	if left, right := Show([]drill.Set{many}), Show([]drill.Set{many.Mirror()}); !reflect.DeepEqual(left, right) {
		t.Error("broken from the other side the same breaks show something else")
	}
	if got, want := Show([]drill.Set{many})[nineBall], belief.Show(nineBall, many.Kind, many.Setup, many.Breaks); !reflect.DeepEqual(got.Seen, want.Seen) {
		t.Error("breaks from the left are not shown as they were seen")
	}
}

// One of one good breaks is no pattern; of a whole set of one break it is told.
func TestApplyRule_ShowsNoPatternOfOneOrTwoOfSome(t *testing.T) {
	for _, c := range []struct {
		seen  breakTally
		shown bool
	}{
		{breakTally{breaks: 20, watched: 20, noShot: 1, shotKnown: 1}, false},
		{breakTally{breaks: 20, watched: 20, noShot: 2, shotKnown: 2}, false},
		{breakTally{breaks: 20, watched: 20, noShot: 3, shotKnown: 3}, true},
		{breakTally{breaks: 20, watched: 20, noShot: 2, shotKnown: 3}, true},
		{breakTally{breaks: 20, watched: 20, noShot: 3, shotKnown: 4}, true},
	} {
		d := decision{observations: map[RuleName]observation{}}
		analysisWith(t, standardSetup(), c.seen).applyRule(&noShotRule, &d)
		if shown := len(d.findings) == 1; shown != c.shown {
			t.Errorf("no shot after %d of %d good breaks among %d: shown is %v", c.seen.noShot, c.seen.shotKnown, c.seen.breaks, shown)
		}
	}
}

// The goal of a shot is counted as the page's bar counts it: a scratch left none.
func TestAddFactFindings_AShotIsAskedOfEveryBreak(t *testing.T) {
	l := analysisWith(t, standardSetup(), breakTally{breaks: 10, watched: 10, openShot: 4, shotSeen: 6, shotLost: 4})
	l.targets.Shot = 0.5
	d := decision{observations: map[RuleName]observation{}}
	l.addFactFindings(&d)
	if got := d.findings[len(d.findings)-1].Says; got != "There was an open shot on the lowest ball in four of ten." {
		t.Errorf("four open, two not, four lost: %q", got)
	}
	l = analysisWith(t, standardSetup(), breakTally{breaks: 10, watched: 10})
	l.targets.Shot, l.targets.RanOut = 0.5, 0.5
	d = decision{observations: map[RuleName]observation{}}
	if l.addFactFindings(&d); len(d.findings) != 2 {
		t.Errorf("no shot and no run-out noted: %+v, want the wing ball and the window alone", d.findings)
	}
}

// A coach who chose the next setup has had the look that rules without an answer ask for.
func TestComposeAdvice_ACoachWhoChoseHasLooked(t *testing.T) {
	set := scripted(t, standardSetup(), ordinaryWing, "w")
	for _, chosen := range []*drill.Setup{nil, &set.Setup} {
		a := analysisOf(set).composeAdvice(decision{exhaustedRule: &missBalanceRule, coachSetup: chosen}, set, nil)
		if want := chosen == nil; a.NeedsCoach != want {
			t.Errorf("the coach chose %v: a look is asked for: %v", chosen != nil, a.NeedsCoach)
		}
	}
}

// A pattern of the wing ball's misses does not speak where a change hardly helps by all
// that was seen.
func TestBeliefForbids_MissesThatHardlyMatter(t *testing.T) {
	l := believed(scripted(t, setupAtDistance(10), "sssssssskm", "brwfrbwrrb"))
	c := l.moveCueBallOut(1, reasonPlain)
	if e := l.hands.Compare(l.weights, l.kind, l.currentSetup(), c.to); e.Help >= mayHelp || e.Harm > forbiddenHarm {
		t.Fatalf("an inch helps with %.2f and harms with %.2f", e.Help, e.Harm)
	}
	if d := (&decision{causes: l.hands.CauseShares()}); !l.beliefForbids(d, RuleMissBalance, c) {
		t.Error("it is told")
	}
}

// An answer is held back that may well harm, that hardly helps, whose part is likely as it
// should be, or where most likely nothing is amiss: each by itself is enough.
func TestBeliefForbids_ForEachReasonAlone(t *testing.T) {
	all := map[string]bool{}
	for _, set := range []drill.Set{
		scripted(t, setupAtDistance(12), "sssssssmmm", "w"), scripted(t, setupWithTip(0.2), ordinaryWing, "b"),
		scripted(t, setupWithTip(0.2), ordinaryWing, "ffwfwffwfw"), scripted(t, standardSetup(), "kkmkfkkfkm", "fffwfwffww"),
	} {
		l := believed(set)
		for _, nothing := range []float64{0, 1} {
			d := &decision{causes: []belief.CauseShare{{Cause: belief.Nothing, Share: nothing}}}
			for _, c := range l.listSingleChanges() {
				e := l.hands.Compare(l.weights, l.kind, l.currentSetup(), c.to)
				var why []string
				for reason, holds := range map[string]bool{
					"harm": e.Harm > 0.3, "little help": e.Help < 0.5, "another part": !l.answersLikelyCause(d, c), "nothing amiss": nothing > 0.5,
				} {
					if holds {
						why = append(why, reason)
					}
				}
				if got := l.beliefForbids(d, RuleForward, c); got != (len(why) > 0) {
					t.Errorf("%s to %v is held back %v, for %v", c.variable, c.to, got, why)
				}
				if len(why) < 2 {
					all[strings.Join(why, "")] = true
				}
			}
		}
	}
	for _, reason := range []string{"", "little help", "another part", "nothing amiss"} {
		if !all[reason] {
			t.Errorf("no change has the reason %q alone", reason)
		}
	}
}

// Nobody is slowed down for a scatter whose stroke is likelier too soft, not even where the
// breaks are like nothing that was computed.
func TestBeliefForbids_SofterOfATooSoftStroke(t *testing.T) {
	set := leaningHistory(rand.New(rand.NewPCG(0x3d7e8e33, 301)))[0]
	l := believed(set)
	softer := l.raiseSpeed(-1, reasonPlain)
	if e := l.hands.Compare(l.weights, l.kind, l.currentSetup(), softer.to); l.hands.Surprise() <= strangeBreaks || e.Harm > 0.5 || l.hands.ShareOfSpeed(false) < 10*l.hands.ShareOf(belief.Unsteady) {
		t.Fatalf("surprise %.2f, harm %.2f, too soft %.2f", l.hands.Surprise(), e.Harm, l.hands.ShareOfSpeed(false))
	}
	d := &decision{causes: l.hands.CauseShares()}
	if l.beliefForbids(d, RuleDanger, softer) {
		t.Error("balls that fly off ask for less speed all the same")
	}
	if !l.beliefForbids(d, RuleUnsteady, softer) {
		t.Error("it is told for the scatter")
	}
}
