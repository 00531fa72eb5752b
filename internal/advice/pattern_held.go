package advice

import "breakwright/internal/belief"

// What holds a pattern's answer back. Breaks stranger than strangeBreaks are like nothing
// that was computed.
const (
	mayHelp       = 0.5
	forbiddenHarm = 0.3
	missesHarm    = 0.4 // of patterns of misses
	strangeBreaks = 1.5
)

// beliefForbids reports whether a pattern's answer goes against everything seen
// together: it may well harm, or gives up the room's three points, or has been tried
// and found worse, or most likely nothing is amiss; or, unless the pattern is one of
// misses, it hardly helps or is of a part that is likely as it should be. A scratch or
// a foul is a loss whatever else was seen, so that its answer is held back for harm
// alone, and that of breaks like nothing computed only when harm is likelier than not.
func (l *analysis) beliefForbids(d *decision, name RuleName, c proposedChange) bool {
	if l.hands == nil || c.variable == VaryRack {
		return false
	}
	e := l.hands.Compare(l.weights, l.kind, l.currentSetup(), c.to)
	switch {
	case l.wasTriedAndWorse(c), !l.keepsThreePoints(c):
		return true
	case l.hands.Surprise() > strangeBreaks:
		return e.Harm > 0.5
	case isLoss(name):
		return e.Harm > forbiddenHarm
	case isOfMisses(name):
		return e.Harm > missesHarm || d.shareOf(belief.Nothing) > likelyNothing
	}
	return e.Harm > forbiddenHarm || d.shareOf(belief.Nothing) > likelyNothing || e.Help < mayHelp || !l.answersLikelyCause(d, c)
}

// isOfMisses reports whether a pattern reads the wing ball's misses. They say left and
// right on any table, where the cue ball's way depends on the cloth and the cushions.
func isOfMisses(name RuleName) bool {
	switch name {
	case RuleMissBalance, RuleThrownWide, RuleWingUnseen:
		return true
	}
	return false
}

// isLoss reports whether a pattern is itself a loss of the break.
func isLoss(name RuleName) bool {
	switch name {
	case RuleWeak, RuleSideScratch, RuleHeadScratch, RuleFootScratch:
		return true
	}
	return false
}
