package advice

import "breakwright/internal/belief"

// weighingRule is what weighs all the breaks of a student together: see applyBelief. It
// has no pattern of its own; a club sets how sure it must be, or switches it off and is
// left with the patterns.
var weighingRule = Rule{
	Name: RuleWeighing, Number: "",
	Title:     "All the breaks together",
	Pattern:   "Everything that was noted, under every setup played on this kind of table, weighed together: what may be amiss, and what each single change would bring.",
	Answer:    "The one change that most likely helps. Where a loose rack explains as much, the rack is checked first; where nothing is sure enough, the patterns below speak.",
	LineMeans: "most chance to harm",
	Source:    "computed breaks, tempered by the student's own",
	Numbers:   Numbers{On: true, Line: mostHarm, Certainty: certainHelp, MinBreaks: fewestBreaks},
}

// weighing is whether everything is weighed together, from how many breaks on, and how
// sure a change must be to be told.
type weighing struct {
	on     bool
	breaks int
	// help is asked of any change, turn of one that turns the last one back, and
	// knownCause of one whose part is very likely amiss; harm is the most there may be.
	help, turn, knownCause, harm float64
}

// weighing returns what the club asks.
func (r Rules) weighing() weighing {
	n := r.numbersOf(weighingRule)
	return weighing{
		on: n.On, breaks: n.MinBreaks,
		help: n.Certainty, turn: max(certainTurn, n.Certainty),
		knownCause: 1 - knownCauseDoubt*(1-n.Certainty), harm: n.Line,
	}
}

// limits are those that no change is told beyond, whatever is amiss.
func (w weighing) limits() belief.Limits {
	return belief.Limits{LeastHelp: w.knownCause, MostHarm: w.harm}
}

// What holds a pattern's answer back. Breaks stranger than strangeBreaks are like nothing
// that was computed.
const (
	mayHelp       = 0.5
	forbiddenHarm = 0.3
	unseenHarm    = 0.4 // of the first look for misses that nobody noted
	strangeBreaks = 1.5
)

// beliefForbids reports whether a pattern's answer goes against everything seen
// together: it may well harm, or gives up the room's three points, or has been tried
// and found worse, or most likely nothing is amiss, or it hardly helps; or, unless the
// pattern is one of misses, it is of a part that is likely as it should be. A scratch or a
// foul is a loss whatever else was seen, so that its answer is held back for harm alone,
// where that is likelier than help; that of breaks like nothing computed only where harm is
// likelier than not, but even then nobody is slowed down for a scatter whose stroke is
// likelier too soft. Misses that nobody noted leave little to weigh, and a first look may
// be had.
func (l *analysis) beliefForbids(d *decision, name RuleName, c proposedChange) bool {
	if l.hands == nil || c.variable == VaryRack {
		return false
	}
	e := l.hands.Compare(l.weights, l.kind, l.currentSetup(), c.to)
	switch {
	case l.wasTriedAndWorse(c), !l.keepsThreePoints(c), name == RuleUnsteady && !l.answersLikelyCause(d, c):
		return true
	case l.hands.Surprise() > strangeBreaks:
		return e.Harm > 0.5
	case isLoss(name):
		return e.Harm > forbiddenHarm && e.Harm > e.Help
	case name == RuleWingUnseen:
		return e.Harm > unseenHarm || d.shareOf(belief.Nothing) > likelyNothing
	}
	return e.Harm > forbiddenHarm || d.shareOf(belief.Nothing) > likelyNothing || e.Help < mayHelp ||
		!isOfMisses(name) && !l.answersLikelyCause(d, c)
}

// isOfMisses reports whether a pattern reads the wing ball's misses: they say left and
// right on any table, where the cue ball's way depends on the cloth and the cushions.
func isOfMisses(name RuleName) bool {
	return name == RuleMissBalance || name == RuleThrownWide
}

// isLoss reports whether a pattern is itself a loss of the break.
func isLoss(name RuleName) bool {
	switch name {
	case RuleWeak, RuleSideScratch, RuleHeadScratch, RuleFootScratch:
		return true
	}
	return false
}
