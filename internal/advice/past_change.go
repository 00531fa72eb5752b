package advice

import (
	"math"

	"breakwright/internal/evidence"
)

// pastChange is a step of the path: from one setup to the next.
type pastChange struct {
	from, to *setupRecord
	// variable is the part that changed; VaryNone when several did.
	variable Variable
	// by is how far it moved; 0 for a rack order.
	by float64
	// drift says that nothing was changed: the measured speed wandered.
	drift bool
}

// listPastChanges lists the steps of a path, oldest first, without drifts.
func listPastChanges(records []*setupRecord, path []int) []pastChange {
	var moves []pastChange
	for i := 1; i < len(path); i++ {
		if m := compareRecords(records[path[i-1]], records[path[i]]); !m.drift {
			moves = append(moves, m)
		}
	}
	return moves
}

// lastChange gives the latest step, and false before the first.
func (l *analysis) lastChange() (pastChange, bool) {
	if len(l.pastChanges) == 0 {
		return pastChange{}, false
	}
	return l.pastChanges[len(l.pastChanges)-1], true
}

func compareRecords(from, to *setupRecord) pastChange {
	m := pastChange{from: from, to: to, variable: VaryNone}
	parts := 0
	for _, v := range []Variable{VaryPlace, VaryContact, VaryTip, VarySpin, VarySpeed} {
		by := partDifference(v, from.setup, to.setup)
		if v == VarySpeed && math.Abs(by) < smallestSpeedChange {
			continue // measured speeds drift as much by themselves
		}
		if by != 0 {
			m.variable, m.by, parts = v, by, parts+1
		}
	}
	if from.setup.Order != to.setup.Order {
		m.variable, m.by, parts = VaryRack, 0, parts+1
	}
	if from.setup.Cue.Y != to.setup.Cue.Y {
		parts++
	}
	if parts != 1 {
		m.variable, m.by, m.drift = VaryNone, 0, parts == 0
	}
	return m
}

// smallestSpeedChange is the smallest difference of speed that counts as a change.
const smallestSpeedChange = 0.8

// smallestEffect is the smallest difference of rates worth talking about.
const smallestEffect = 0.05

// compare compares the change's own measure before and after it.
func (m pastChange) compare(by measure) evidence.RateEffect {
	return compareTallies(&m.from.tally, &m.to.tally, by)
}

// judgeOutcome says what came of the change, in what it was about; helped and
// hurt ask for the same certainty. A change that did nothing for that has hurt
// when it cost good breaks.
func (m pastChange) judgeOutcome(certainty float64) (Outcome, measure, evidence.RateEffect) {
	own := m.measure()
	e := m.compare(own)
	if m.to.tally.breaks < fewestBreaks || m.variable == VaryNone {
		return InTrial, own, e
	}
	whole := m.compare(worthMeasure)
	switch {
	case e.Helped >= certainty && whole.Hurt < certainty:
		return Helped, own, e
	case e.Hurt >= certainty:
		return Hurt, own, e
	case whole.Hurt >= certainty:
		return Hurt, worthMeasure, whole
	case e.NoDifference >= sameCertainty:
		return NoDifference, own, e
	}
	return InTrial, own, e
}

const (
	// fewestBreaks breaks on which anything but danger is said.
	fewestBreaks = 8
	// outcomeCertainty is asked before a change is said to have helped or hurt,
	// sameCertainty before it is said to have made no difference.
	outcomeCertainty = 0.95
	sameCertainty    = 0.6
)

// continuesLastChange reports whether a change continues the latest one: the same part, the
// same way.
func (l *analysis) continuesLastChange(c proposedChange) bool {
	m, any := l.lastChange()
	return any && m.variable == c.variable && m.by*partDifference(c.variable, l.currentSetup(), c.to) > 0
}

// reversesLastChange reports whether a change goes against the latest one: the same part,
// the other way, or any rack order after a rack order.
func (l *analysis) reversesLastChange(c proposedChange) bool {
	m, any := l.lastChange()
	if !any || m.variable != c.variable {
		return false
	}
	return c.variable == VaryRack || m.by*partDifference(c.variable, l.currentSetup(), c.to) < 0
}

// hurtBefore reports whether the same change of the present setup was tried before
// and hurt: the same part, the same way, at least as far. More breaks under the
// present setup can undo that judgement, since what was seen then may have been
// luck.
func (l *analysis) hurtBefore(c proposedChange, certainty float64) bool {
	for _, m := range l.pastChanges {
		if m.from != l.currentRecord() || m.variable != c.variable {
			continue
		}
		further := math.Abs(partDifference(c.variable, l.currentSetup(), c.to)) >= math.Abs(m.by)
		sameWay := m.by*partDifference(c.variable, l.currentSetup(), c.to) > 0
		if c.variable == VaryRack {
			sameWay, further = m.to.setup.Order == c.to.Order, true
		}
		if !sameWay || !further {
			continue
		}
		if how, _, _ := m.judgeOutcome(certainty); how == Hurt {
			return true
		}
	}
	return false
}
