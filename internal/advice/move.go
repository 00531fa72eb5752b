package advice

import (
	"math"

	"breakwright/internal/evidence"
)

// move is a step of the lesson's path: from one trial to the next.
type move struct {
	from, to *trial
	// vary is the part that changed; VaryNone when several did.
	vary Variable
	// by is how far it moved; 0 for a rack order.
	by float64
	// drift says that nothing was changed: the measured speed wandered.
	drift bool
}

// movesOf lists the steps of a path, oldest first, without drifts.
func movesOf(trials []*trial, path []int) []move {
	var moves []move
	for i := 1; i < len(path); i++ {
		if m := moveBetween(trials[path[i-1]], trials[path[i]]); !m.drift {
			moves = append(moves, m)
		}
	}
	return moves
}

// lastMove gives the latest step, and false before the first.
func (l *lesson) lastMove() (move, bool) {
	if len(l.moves) == 0 {
		return move{}, false
	}
	return l.moves[len(l.moves)-1], true
}

func moveBetween(from, to *trial) move {
	m := move{from: from, to: to, vary: VaryNone}
	parts := 0
	for _, v := range []Variable{VaryPlace, VaryContact, VaryTip, VarySpin, VarySpeed} {
		by := moved(v, from.setup, to.setup)
		if v == VarySpeed && math.Abs(by) < smallestNotch {
			continue // measured speeds drift as much by themselves
		}
		if by != 0 {
			m.vary, m.by, parts = v, by, parts+1
		}
	}
	if from.setup.Order != to.setup.Order {
		m.vary, m.by, parts = VaryRack, 0, parts+1
	}
	if from.setup.Cue.Y != to.setup.Cue.Y {
		parts++
	}
	if parts != 1 {
		m.vary, m.by, m.drift = VaryNone, 0, parts == 0
	}
	return m
}

// smallestNotch is the smallest difference of speed that counts as a change.
const smallestNotch = 0.8

// worth is the smallest difference of rates worth talking about.
const worth = 0.05

// measure says what a change of that part is judged by.
func measure(v Variable) string {
	switch v {
	case VaryTip, VarySpeed, VarySpin:
		return measureWindow
	}
	return measureWing
}

// The two measures.
const (
	measureWing   = "wing ball"
	measureWindow = "cue ball in the window"
)

// count gives a measure's count; the count of breaks is tally.breaks.
func (t *tally) count(measure string) int {
	if measure == measureWindow {
		return t.cue.inWindow
	}
	return t.wingMade
}

// effect compares a measure before and after the move.
func (m move) effect(measure string) evidence.Effect {
	before, after := &m.from.seen, &m.to.seen
	return evidence.Compare(
		evidence.FromCounts(before.count(measure), before.breaks, evidence.JeffreysPrior()),
		evidence.FromCounts(after.count(measure), after.breaks, evidence.JeffreysPrior()),
		worth)
}

// outcome judges the move by its own measure, asking for a certainty. A move
// whose own measure is undecided has hurt when it cost the other one.
func (m move) outcome(certainty float64) (Outcome, evidence.Effect) {
	if m.to.seen.breaks < fewest {
		return InTrial, m.effect(measure(m.vary))
	}
	e := m.effect(measure(m.vary))
	switch {
	case e.Hurt >= certainty:
		return Hurt, e
	case e.Helped >= helpedCertainty:
		return Helped, e
	case m.effect(otherMeasure(measure(m.vary))).Hurt >= certainty:
		return Hurt, e
	case e.NoDifference >= sameCertainty:
		return NoDifference, e
	}
	return InTrial, e
}

func otherMeasure(measure string) string {
	if measure == measureWing {
		return measureWindow
	}
	return measureWing
}

const (
	// fewest breaks on which anything but danger is said.
	fewest = 8
	// helpedCertainty and sameCertainty are for the words only: nothing is
	// changed because of them.
	helpedCertainty = 0.8
	sameCertainty   = 0.6
)

// goesOn says whether a change continues the latest one: the same part, the
// same way.
func (l *lesson) goesOn(c change) bool {
	m, any := l.lastMove()
	return any && m.vary == c.vary && m.by*moved(c.vary, l.setup(), c.to) > 0
}

// turnsBack says whether a change goes against the latest one: the same part,
// the other way, or any rack order after a rack order.
func (l *lesson) turnsBack(c change) bool {
	m, any := l.lastMove()
	if !any || m.vary != c.vary {
		return false
	}
	return c.vary == VaryRack || m.by*moved(c.vary, l.setup(), c.to) < 0
}

// wentWrong says whether the same change of the present setup was tried before
// and hurt: the same part, the same way, at least as far. More breaks under the
// present setup can undo that judgement, since what was seen then may have been
// luck.
func (l *lesson) wentWrong(c change, certainty float64) bool {
	for _, m := range l.moves {
		if m.from != l.now() || m.vary != c.vary {
			continue
		}
		further := math.Abs(moved(c.vary, l.setup(), c.to)) >= math.Abs(m.by)
		sameWay := m.by*moved(c.vary, l.setup(), c.to) > 0
		if c.vary == VaryRack {
			sameWay, further = m.to.setup.Order == c.to.Order, true
		}
		if !sameWay || !further {
			continue
		}
		if how, _ := m.outcome(certainty); how == Hurt {
			return true
		}
	}
	return false
}
