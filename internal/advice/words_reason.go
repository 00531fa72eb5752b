package advice

import (
	"strings"
)

// writeReason gives the reason of a change in one sentence.
func (w adviceWriter) writeReason(c proposedChange) string {
	says := strings.TrimSuffix(describeFinding(w.decision.chosenRule.Name, w.decision.chosenObservation, w.analysis), ".")
	switch c.reason {
	case reasonHalfBack:
		return "The last step went too far: " + lowerFirst(says) + "."
	case reasonOffFull:
		return says + ", and the hit is off full."
	case reasonThrown:
		return says + ", and the cue ball is thrown across the table: that is the hit, not the place."
	case reasonTooFast:
		return says + ", and there is little draw to take off: the speed does it."
	case reasonAtLimit:
		if c.variable == VaryContact {
			return says + ", and the place has no room left."
		}
		return says + ", and there is no room left the other way."
	case reasonSearch:
		return says + ": of the places within reach this one promises most."
	}
	return says + w.tradeReason() + "."
}

// tradeReason adds the trade's reason where it is short.
func (w adviceWriter) tradeReason() string {
	switch w.decision.chosenRule.Name {
	case RuleMissBalance:
		if w.decision.chosenObservation.towards == outward {
			return ": the cue ball starts too near the middle"
		}
		return ": the cue ball starts too far out"
	case RuleForward, RuleFootScratch:
		return ": it wants more draw"
	case RuleBackTooFar, RuleHeadScratch:
		return ": more draw would only send it back faster"
	case RuleSideScratch, RuleThrownWide:
		return ": it meets the head ball off full"
	case RuleUnsteady:
		return ": control before power"
	case RuleWingUnseen:
		return ": this is a first look, a small one"
	case RuleNoShot:
		return ": your own breaks send that slot's ball to the head end"
	}
	return ""
}

func lowerFirst(s string) string {
	if s == "" {
		return s
	}
	return strings.ToLower(s[:1]) + s[1:]
}

// writeExpectation says what to look for in the next ten.
func (w adviceWriter) writeExpectation(c proposedChange) string {
	switch w.decision.chosenRule.Name {
	case RuleDanger:
		return "Look for every ball to stay on the table in the next ten."
	case RuleLimits:
		return "Look for a break you control; the next ten begin from there."
	case RuleWeak:
		return "Look for four balls to a rail, or one pocketed, in nearly all of the next ten."
	case RuleSideScratch, RuleHeadScratch, RuleFootScratch:
		return "Look for at most one scratch in the next ten."
	case RuleForward, RuleBackTooFar, RuleThrownWide:
		return "Look for the cue ball in the window in " + inNextTen(w.expectedRate(FactWindow)) + "."
	case RuleUnsteady:
		return "Look for the cue ball to stop closer together in the next ten; the wing ball comes after."
	case RuleNoShot:
		return "Look for a shot on the lowest ball after more of your good breaks."
	case RuleHeadBall:
		return "Look for the head ball at the far side pocket, and the wing ball as before."
	}
	return "Look for the wing ball in " + inNextTen(w.expectedRate(FactWing)) + "."
}

// expectedRate is the rate to look for after one step: the target, or half of the way
// there while the present rate is far off.
func (w adviceWriter) expectedRate(fact RuleName) float64 {
	target := w.targets.Wing
	if fact == FactWindow {
		target = w.targets.Window
	}
	s := w.decision.observations[fact]
	if now := s.rateBelief().Mean(); now < target/2 {
		return (now + target) / 2
	}
	return target
}

// writeCaution is the safety line where force or height is involved.
func (w adviceWriter) writeCaution(c proposedChange) string {
	by := partDifference(c.variable, w.currentSetup(), c.to)
	switch {
	case w.decision.chosenRule.Name == RuleDanger && w.countDangerSetups() >= 3:
		return "This is the third time: stop power breaks for today and speak with your coach."
	case w.decision.chosenRule.Name == RuleDanger:
		return "Level the cue, tip no higher than centre, and nobody at the foot end."
	case c.variable == VarySpeed && by > 0:
		return "More speed makes balls fly: a level cue, and nobody at the foot end."
	case c.variable == VaryTip && by < 0:
		return "Keep the cue as level as the rail allows: a low tip under a raised cue makes the cue ball jump."
	}
	return ""
}

// writeUndoReason says that the last change hurt.
func (w adviceWriter) writeUndoReason(m pastChange) string {
	_, by, _ := m.judgeOutcome(w.undoCertainty())
	return "The last change made it worse: " + by.name + " " + countOfTotal(by.count(&m.from.tally), m.from.tally.breaks) +
		" before, " + countOfTotal(by.count(&m.to.tally), m.to.tally.breaks) + " since."
}

func (w adviceWriter) describeBefore(m pastChange) string {
	_, by, _ := m.judgeOutcome(w.undoCertainty())
	return by.name + " " + countOfTotal(by.count(&m.from.tally), m.from.tally.breaks)
}
