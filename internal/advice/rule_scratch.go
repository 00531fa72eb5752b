package advice

import (
	"breakwright/internal/rack"
)

// Scratches are judged by pocket, because each pair has a cause of its own. An
// ordinary good breaker scratches in five to ten breaks of a hundred (from
// memory of hand tallies), shared among six pockets: hence the lines.

// sideScratchRule: the cue ball thrown across the table was sent off full. From the
// left, a contact right of full throws it to the far side pocket.
var sideScratchRule = patternRule{
	Rule: Rule{
		Name: RuleSideScratch, Number: "3",
		Title:     "Scratches in a side pocket",
		Pattern:   "The cue ball scratches in a side pocket, mostly the far one.",
		Answer:    "Contact 0.1 to 0.2 in toward the break side; if it is there already, less draw, or a notch less speed.",
		LineMeans: "share of breaks that scratch in a side pocket",
		Source:    UsualPractice,
		Support:   "agrees with a rigid-ball model of the break",
		StepUnit:  "in of contact",
		Numbers:   Numbers{On: true, Line: 0.15, Certainty: 0.95, Onward: 0.85, Step: 0.1, MinBreaks: fewestBreaks},
	},
	observe: func(l *analysis, n Numbers) observation {
		c := l.currentTally().cue
		s := observeShare(c.scratchFar+c.scratchNear, l.currentTally().breaks, n.Line)
		s.towards = outward
		if c.scratchNear > c.scratchFar {
			s.towards = inward
		}
		if l.currentSetup().Spot == rack.CentreOnSpot {
			s.certainty, s.canSettle = 0, false
		}
		return s
	},
	proposeChanges: func(l *analysis, n Numbers, s observation) []proposedChange {
		step := n.Step
		if float64(s.count)/float64(s.of) >= 0.3 {
			step *= 2
		}
		if s.towards == inward {
			return []proposedChange{l.shiftContact(step, reasonPlain), l.slowerStroke(reasonAtLimit)}
		}
		if l.currentSetup().Contact <= -0.2 || l.missesLean(inward) >= wingForbidsCertainty {
			// It is there already, or the wing ball says that it is.
			return l.proposeCalmerBreak(reasonAtLimit)
		}
		return append([]proposedChange{l.shiftContact(-step, reasonPlain)}, l.proposeCalmerBreak(reasonAtLimit)...)
	},
}

// thrownWideRule: a cue ball that keeps stopping wide on the far side was thrown
// there by the same off-full hit. The break side has no such rule, since a full
// hit with a little draw comes back along its own line, on that side.
var thrownWideRule = patternRule{
	Rule: Rule{
		Name: RuleThrownWide, Number: "3b",
		Title:     "Cue ball thrown across the table",
		Pattern:   "The cue ball stops beside the window on the far side, or scratches in the far side pocket.",
		Answer:    "Contact 0.1 in toward the break side, 0.2 if it is most breaks.",
		LineMeans: "share of breaks in which the cue ball goes wide on the far side",
		Source:    "follows from rule 3",
		Support:   "agrees with a rigid-ball model of the break",
		StepUnit:  "in of contact",
		Numbers:   Numbers{On: true, Line: 0.3, Certainty: 0.95, Onward: 0.85, Step: 0.1, MinBreaks: fewestBreaks},
	},
	observe: func(l *analysis, n Numbers) observation {
		c := l.currentTally().cue
		s := observeShare(c.wideFar+c.scratchFar, l.currentTally().breaks, n.Line)
		if l.currentSetup().Spot == rack.CentreOnSpot {
			s.certainty, s.canSettle = 0, false
		}
		if no := l.missesLean(inward); no >= wingForbidsCertainty {
			s.certainty = min(s.certainty, 1-no)
		}
		return s
	},
	proposeChanges: func(l *analysis, n Numbers, s observation) []proposedChange {
		step := n.Step
		if float64(s.count)/float64(s.of) >= 0.6 {
			step *= 2
		}
		return []proposedChange{l.shiftContact(-step, reasonPlain)}
	},
}

// wingForbidsCertainty is how sure the misses of the wing ball must be of the other side to
// keep the contact where it is: it would cost the wing ball.
const wingForbidsCertainty = 0.85

// headScratchRule: too much draw brings the cue ball back into a head corner.
var headScratchRule = patternRule{
	Rule: Rule{
		Name: RuleHeadScratch, Number: "4",
		Title:     "Scratches in a head corner",
		Pattern:   "The cue ball comes back and scratches in a head corner.",
		Answer:    "Less draw: the tip a tenth of a radius higher.",
		LineMeans: "share of breaks that scratch in a head corner",
		Source:    UsualPractice,
		Support:   "agrees with a rigid-ball model of the break",
		StepUnit:  "radius of tip height",
		Numbers:   Numbers{On: true, Line: 0.15, Certainty: 0.95, Onward: 0.85, Step: 0.1, MinBreaks: fewestBreaks},
	},
	observe: func(l *analysis, n Numbers) observation {
		return observeShare(l.currentTally().cue.scratchHead, l.currentTally().breaks, n.Line)
	},
	proposeChanges: func(l *analysis, n Numbers, s observation) []proposedChange { return l.proposeLessDraw(n.Step) },
}

// footScratchRule: the cue ball followed through, or was thrown there off full.
var footScratchRule = patternRule{
	Rule: Rule{
		Name: RuleFootScratch, Number: "5",
		Title:     "Scratches in a foot corner",
		Pattern:   "The cue ball goes on and scratches in a foot corner.",
		Answer:    "Contact back toward full; then less follow.",
		LineMeans: "share of breaks that scratch in a foot corner",
		Source:    UsualPractice,
		Support:   "agrees with a rigid-ball model of the break",
		StepUnit:  "radius of tip height",
		Numbers:   Numbers{On: true, Line: 0.15, Certainty: 0.95, Onward: 0.85, Step: 0.1, MinBreaks: fewestBreaks},
	},
	observe: func(l *analysis, n Numbers) observation {
		return observeShare(l.currentTally().cue.scratchFoot, l.currentTally().breaks, n.Line)
	},
	proposeChanges: func(l *analysis, n Numbers, s observation) []proposedChange {
		return append([]proposedChange{l.bringContactFuller(0.2, reasonOffFull)}, l.proposeMoreDraw(n.Step)...)
	},
}
