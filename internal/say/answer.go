package say

import "strings"

func (s Statement) answer(r Reader) string {
	const again = "The same setup again: ten more."
	switch s.Kind {
	case NothingYet:
		return "Nothing has been recorded yet. The first ten breaks begin it."
	case CoachChose:
		if s.Yes {
			return r.choose("Your coach", "A coach", "A coach") + " decided: the same setup again."
		}
		return r.choose("Your coach chose the next setup.", "A coach chose the next setup.", "A coach chose the next setup.")
	case DoChange:
		return Sentence(s.change(r))
	case NoRoomLeft:
		return "Keep the setup for now. " + s.About + ": what the rules know to change has no room left, so " + r.coachLooks() + "."
	case SetupWorks:
		return "Leave the setup alone: it works. Make it harder."
	case NothingElse:
		return "Leave the setup alone. Nothing points to a change."
	case NoCause:
		return "A target is not met, and no change is sure enough to tell: " + s.wingAndWindow() + ". The same setup again; " + r.coachLooks() + "."
	case TooEarly:
		return "Too early to tell: " + countInLetters(s.Count, "break", "breaks") + " so far. " + again
	case CheckRack:
		seen := ""
		if s.Of > 0 {
			seen = ": the wing ball in " + InLetters(s.Count, s.Of)
		}
		return "Check the rack before every break, then the same ten again. Loose balls in the rack would explain what was seen as well as any stroke would" + seen + "."
	}
	counts := append([]string{s.wingAndWindow()}, s.phrases(r)...)
	return "Not enough to tell yet: " + strings.Join(counts, ", ") + ". " + again
}

// countInLetters writes how many, in letters up to ten: "four breaks".
func countInLetters(n int, one, many string) string { return Number(n) + " " + noun(n, one, many) }

// InLetters writes a count and what it is out of in letters, "three of ten", or
// in digits when it is out of more than ten, "3 of 20"; "none watched" of nothing.
func InLetters(count, total int) string {
	switch {
	case total > 10:
		return OfTotal(count, total)
	case total == 0:
		return "none watched"
	}
	return Number(count) + " of " + Number(total)
}

// InLettersOfThe writes a count of things: "seven of the nine misses", "both
// misses", "all seven misses".
func InLettersOfThe(count, total int, things string) string {
	switch {
	case count == total && total == 2:
		return "both " + things
	case count == total && total > 2:
		return "all " + Number(total) + " " + things
	case total > 10:
		return digits(count) + " of the " + digits(total) + " " + things
	}
	return Number(count) + " of the " + Number(total) + " " + things
}
