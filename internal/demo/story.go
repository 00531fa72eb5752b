package demo

import (
	"breakwright/internal/progress"
	"breakwright/internal/store"
)

// storyFunc says how far a student has come with what it is to tell.
type storyFunc func(*simulation) storyState

type storyState int

const (
	storyGoesOn storyState = iota
	storyComplete
	storyImpossible // it cannot be told any more
)

// waits: the latest proposal has no answer.
func waitsForCoach(l *simulation) storyState {
	if l.waiting {
		return storyComplete
	}
	return storyGoesOn
}

// firstChangeIs is the story of the first proposal, which the coach answers: what
// became of it.
func firstChangeIs(end store.State) storyFunc {
	return func(l *simulation) storyState {
		if len(l.changes) == 0 {
			return storyGoesOn
		}
		switch first := l.changes[0].state; {
		case first == end && !l.waiting:
			return storyComplete
		case isSettled(first), first == store.Declined, isSettled(end) && len(l.changes) > 1:
			return storyImpossible
		}
		return storyGoesOn
	}
}

// declinedInSlump: the coach said no to the first proposal, whenever it came, and
// the chart signals that the wing ball falls less often than it used to.
func declinedInSlump(l *simulation) storyState {
	chart, charted := progress.ChartSets(l.wing)
	falling := charted && chart.CurrentTrend() == progress.Falling
	switch {
	case len(l.changes) > 0 && !l.waiting && falling:
		return storyComplete
	case len(l.changes) > 2:
		return storyImpossible
	}
	return storyGoesOn
}

// lastTwoDidNotHelp: the latest two changes were tried to the end, neither helped, and
// one of them made no difference.
func lastTwoDidNotHelp(l *simulation) storyState {
	if len(l.changes) < 2 || l.waiting {
		return storyGoesOn
	}
	last, before := l.changes[len(l.changes)-1].state, l.changes[len(l.changes)-2].state
	isPoor := func(s store.State) bool { return isSettled(s) && s != store.Helped }
	if isPoor(last) && isPoor(before) && (last == store.NoDifference || before == store.NoDifference) {
		return storyComplete
	}
	return storyGoesOn
}

// mostFlying is how many breaks of a set may lose a ball before somebody at the
// table would have stopped it.
const mostFlying = 4

// ballsFly: balls left the table in the latest set and never before, and the
// coach approved of what is to be done about it.
func ballsFly(l *simulation) storyState {
	latest := len(l.flyingBreaks) - 1
	for i, breaks := range l.flyingBreaks {
		if i < latest && breaks > 0 || breaks > mostFlying {
			return storyImpossible
		}
	}
	if latest >= 0 && l.flyingBreaks[latest] > 0 {
		return firstChangeIs(store.Approved)(l)
	}
	return storyGoesOn
}

// hasBreakCard: the setup is good enough for a break card.
func hasBreakCard(l *simulation) storyState {
	if l.card && !l.waiting {
		return storyComplete
	}
	return storyGoesOn
}

// hasNoStory has no story yet.
func hasNoStory(*simulation) storyState { return storyComplete }
