package advice

import (
	"strings"
)

// why gives the reason of a change in one sentence.
func (w words) why(c change) string {
	says := strings.TrimSuffix(findingSays(w.d.spoke.Name, w.d.saw, w.lesson), ".")
	switch c.after {
	case halfBack:
		return "The last step went too far: " + lower(says) + "."
	case offFull:
		return says + ", and the hit is off full."
	case thrown:
		return says + ", and the cue ball is thrown across the table: that is the hit, not the place."
	case tooFast:
		return says + ", and there is little draw to take off: the speed does it."
	case atLimit:
		if c.vary == VaryContact {
			return says + ", and the place has no room left."
		}
		return says + ", and there is no room left the other way."
	case search:
		return says + ": of the places within reach this one promises most."
	}
	return says + w.because() + "."
}

// because adds the trade's reason where it is short.
func (w words) because() string {
	switch w.d.spoke.Name {
	case RuleMissBalance:
		if w.d.saw.towards == outward {
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

func lower(s string) string {
	if s == "" {
		return s
	}
	return strings.ToLower(s[:1]) + s[1:]
}

// expect says what to look for in the next ten.
func (w words) expect(c change) string {
	switch w.d.spoke.Name {
	case RuleDanger:
		return "Look for every ball to stay on the table in the next ten."
	case RuleLimits:
		return "Look for a break you control; the next ten begin from there."
	case RuleWeak:
		return "Look for four balls to a rail, or one pocketed, in nearly all of the next ten."
	case RuleSideScratch, RuleHeadScratch, RuleFootScratch:
		return "Look for at most one scratch in the next ten."
	case RuleForward, RuleBackTooFar, RuleThrownWide:
		return "Look for the cue ball in the window in " + inNextTen(w.hope(FactWindow)) + "."
	case RuleUnsteady:
		return "Look for the cue ball to stop closer together in the next ten; the wing ball comes after."
	case RuleNoShot:
		return "Look for a shot on the lowest ball after more of your good breaks."
	case RuleHeadBall:
		return "Look for the head ball at the far side pocket, and the wing ball as before."
	}
	return "Look for the wing ball in " + inNextTen(w.hope(FactWing)) + "."
}

// hope is the rate to look for after one step: the target, or half of the way
// there while the present rate is far off.
func (w words) hope(fact Name) float64 {
	target := w.targets.Wing
	if fact == FactWindow {
		target = w.targets.Window
	}
	s := w.d.sights[fact]
	if now := s.belief().Mean(); now < target/2 {
		return (now + target) / 2
	}
	return target
}

// caution is the safety line where force or height is involved.
func (w words) caution(c change) string {
	by := moved(c.vary, w.setup(), c.to)
	switch {
	case w.d.spoke.Name == RuleDanger && w.dangerTimes() >= 3:
		return "This is the third time: stop power breaks for today and speak with your coach."
	case w.d.spoke.Name == RuleDanger:
		return "Level the cue, tip no higher than centre, and nobody at the foot end."
	case c.vary == VarySpeed && by > 0:
		return "More speed makes balls fly: a level cue, and nobody at the foot end."
	case c.vary == VaryTip && by < 0:
		return "Keep the cue as level as the rail allows: a low tip under a raised cue makes the cue ball jump."
	}
	return ""
}

// whyBack says that the last change hurt.
func (w words) whyBack(m move) string {
	measure := w.hurtMeasure(m)
	return "The last change made it worse: " + measure + " " + of(m.from.seen.count(measure), m.from.seen.breaks) +
		" before, " + of(m.to.seen.count(measure), m.to.seen.breaks) + " since."
}

// hurtMeasure is the measure that tells of the harm: the change's own, unless
// the other one shows it better.
func (w words) hurtMeasure(m move) string {
	own := measure(m.vary)
	if other := otherMeasure(own); m.effect(other).Hurt > m.effect(own).Hurt {
		return other
	}
	return own
}

func (w words) hadBefore(m move) string {
	measure := w.hurtMeasure(m)
	return measure + " " + of(m.from.seen.count(measure), m.from.seen.breaks)
}
