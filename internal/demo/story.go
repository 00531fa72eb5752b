package demo

import (
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

// stuck: the latest two changes that were tried to the end did not help.
func stuck(l *lesson) chapter {
	inVain := 0
	for _, c := range l.changes {
		switch c.state {
		case store.NoDifference, store.Hurt:
			inVain++
		case store.Helped:
			inVain = 0
		}
	}
	if inVain >= 2 && !l.waiting {
		return isTold
	}
	return goesOn
}

// ballsFly: balls left the table in the latest set, and the coach approved of
// what is to be done about it.
func ballsFly(l *lesson) chapter {
	if c := firstIs(store.Approved)(l); c != isTold || l.flew > 0 {
		return c
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
