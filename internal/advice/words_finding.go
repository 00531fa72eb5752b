package advice

import "breakwright/internal/rack"

// describeFinding says what was counted, and nothing more.
func describeFinding(name RuleName, s observation, l *analysis) string {
	if s.of == 0 {
		return "Nothing recorded yet."
	}
	n := countOfTotal(s.count, s.of)
	switch name {
	case FactWing:
		return "The wing ball fell in " + n + "."
	case FactWindow:
		return "The cue ball stopped in the window in " + n + "."
	case RuleDanger:
		return "A ball left the table in " + n + "."
	case RuleLimits:
		return "The setup lies beyond what is taught on this table."
	case RuleWeak:
		if l.isSoftAndUncounted() {
			return "With so little speed nothing fell in " + n + "."
		}
		return "Weak breaks: " + n + " pocketed nothing and sent fewer than four balls to a rail."
	case RuleSideScratch:
		return "The cue ball scratched in a side pocket in " + n + "."
	case RuleThrownWide:
		return "The cue ball went wide on the far side in " + n + "."
	case RuleHeadScratch:
		return "The cue ball scratched in a head corner in " + n + "."
	case RuleFootScratch:
		return "The cue ball scratched in a foot corner in " + n + "."
	case RuleForward:
		return "The cue ball went on past the window in " + n + "."
	case RuleBackTooFar:
		return "The cue ball came back past the window in " + n + "."
	case RuleMissBalance:
		return capitalizeFirst(countOfThings(s.count, s.of, "misses that say which way")) + " " + describeMissSide(s.towards) + "."
	case RuleWingUnseen:
		if l.currentSetup().Spot == rack.CentreOnSpot {
			return "The wing ball fell in " + n + "; with the money ball on the foot spot its misses do not say which way, so makes alone lead."
		}
		return "The wing ball fell in " + n + ", and too few of its misses were recorded."
	case RuleUnsteady:
		return "In " + n + " neither the wing ball nor the cue ball came good."
	case RuleNoShot:
		return "No shot on the lowest ball after " + n + " good breaks."
	case RuleHeadBall:
		return "The head ball went past the far side pocket in " + n + "."
	case RuleDry:
		return "Nothing fell in " + n + "."
	}
	return n + "."
}

// describeMissSide says what misses on one side met first. Misses that want the cue ball
// moved out met the side rail.
func describeMissSide(towards direction) string {
	if towards == outward {
		return "met the side rail first"
	}
	return "met the foot rail first, or kissed another ball"
}
