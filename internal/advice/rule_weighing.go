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

// weighing gives what the club asks.
func (r Rules) weighing() weighing {
	n := r.numbersOf(weighingRule)
	return weighing{
		on: n.On, breaks: n.MinBreaks,
		help: n.Certainty, turn: max(certainTurn, n.Certainty),
		knownCause: n.Certainty - knownCauseRelief, harm: n.Line,
	}
}

// limits are those that no change is told beyond, whatever is amiss.
func (w weighing) limits() belief.Limits {
	return belief.Limits{LeastHelp: w.knownCause, MostHarm: w.harm}
}
