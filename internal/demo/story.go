package demo

import (
	"slices"

	"breakwright/internal/progress"
	"breakwright/internal/store"
)

// story says how far a lesson has come with what it is to tell.
type story func(*lesson) chapter

type chapter int

const (
	goesOn chapter = iota
	isTold
	isSpoilt // it cannot be told any more
)

// waits: the latest proposal has no answer.
func waits(l *lesson) chapter {
	if l.waiting {
		return isTold
	}
	return goesOn
}

// firstIs is the story of the first proposal, which the coach answers: what
// became of it.
func firstIs(end store.State) story {
	return func(l *lesson) chapter {
		if len(l.changes) == 0 {
			return goesOn
		}
		switch first := l.changes[0].state; {
		case first == end && !l.waiting:
			return isTold
		case settled(first), first == store.Declined, settled(end) && len(l.changes) > 1:
			return isSpoilt
		}
		return goesOn
	}
}

// declinedInSlump: the coach said no to a proposal, and the chart signals that
// the wing ball falls less often than it used to.
func declinedInSlump(l *lesson) chapter {
	chart, charted := progress.Watch(l.wing)
	falling := charted && chart.Course() == progress.Falling
	switch {
	case len(l.changes) > 0 && l.sets <= l.turns:
		return isSpoilt
	case len(l.changes) == 1 && !l.waiting && falling:
		return isTold
	case len(l.changes) > 1:
		return isSpoilt
	}
	return goesOn
}

// stuck: of the changes that were tried to the end the latest two did not help,
// and one of them made no difference.
func stuck(l *lesson) chapter {
	var tried []store.State
	for _, c := range l.changes {
		if settled(c.state) {
			tried = append(tried, c.state)
		}
	}
	if len(tried) < 2 || l.waiting {
		return goesOn
	}
	latest := tried[len(tried)-2:]
	if slices.Contains(latest, store.NoDifference) && !slices.Contains(latest, store.Helped) {
		return isTold
	}
	return goesOn
}

// mostFlying is how many breaks of a set may lose a ball before somebody at the
// table would have stopped it.
const mostFlying = 4

// ballsFly: balls left the table in the latest set and never before, and the
// coach approved of what is to be done about it.
func ballsFly(l *lesson) chapter {
	latest := len(l.flew) - 1
	for i, breaks := range l.flew {
		if i < latest && breaks > 0 || breaks > mostFlying {
			return isSpoilt
		}
	}
	if latest >= 0 && l.flew[latest] > 0 {
		return firstIs(store.Approved)(l)
	}
	return goesOn
}

// bestFound: the setup is good enough for a break card.
func bestFound(l *lesson) chapter {
	if l.card && !l.waiting {
		return isTold
	}
	return goesOn
}

// newcomer has no story yet.
func newcomer(*lesson) chapter { return isTold }
