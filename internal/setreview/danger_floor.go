package setreview

import (
	"breakwright/internal/advice"
	"breakwright/internal/drill"
)

// The laxest that the rule about balls that leave the table may be: it still
// speaks after one set of ten in which three did. It cannot be switched off,
// because a ball in somebody's face is not a matter of taste (common practice,
// no source).
const (
	LaxestDangerLine      = 0.10
	LaxestDangerCertainty = 0.90
	LaxestDangerBreaks    = drill.UsualBreaks
	LeastDangerStepMph    = 0.5
)

// raiseToFloor holds the rule of safety at its floor.
func raiseToFloor(n advice.Numbers) advice.Numbers {
	n.On = true
	n.Line = min(n.Line, LaxestDangerLine)
	n.Certainty = min(n.Certainty, LaxestDangerCertainty)
	n.Onward = min(n.Onward, LaxestDangerCertainty)
	n.Step = max(n.Step, LeastDangerStepMph)
	n.MinBreaks = min(n.MinBreaks, LaxestDangerBreaks)
	return n
}

// checkFloor refuses what is laxer, a sentence a field.
func checkFloor(n advice.Numbers, p *drill.Problems) {
	floor := raiseToFloor(n)
	for _, c := range []struct {
		number string
		holds  bool
		says   string
	}{
		{"on", n.On, "this rule cannot be switched off: a ball that leaves the table can hurt somebody"},
		{"line", n.Line == floor.Line, "at most 10 percent: beyond that, somebody can be hurt before the rules speak"},
		{"certainty", n.Certainty == floor.Certainty, "at most 90 percent: where people can be hurt, waiting to be surer is the mistake"},
		{"onward", n.Onward == floor.Onward, "at most 90 percent: where people can be hurt, waiting to be surer is the mistake"},
		{"step", n.Step == floor.Step, "at least half a mile an hour: less changes nothing about where balls fly"},
		{"min_breaks", n.MinBreaks == floor.MinBreaks, "at most ten breaks: one set is enough to speak of balls that fly"},
	} {
		if !c.holds {
			p.Add(string(advice.RuleDanger)+"."+c.number, c.says)
		}
	}
}
