package advice

import (
	"math"

	"breakwright/internal/evidence"
	"breakwright/internal/say"
	"breakwright/internal/table"
)

// pastChange is a step of the path: from one setup to the next.
type pastChange struct {
	from, to *setupRecord
	// after is what was seen right after it. What to has of earlier sets, where the change
	// went back to them, weighs in its outcome but is not told as what came since.
	after breakTally
	// undoes is what the change before had made worse, where this one takes it back; nil
	// otherwise.
	undoes *measure
	// variable is the part that changed; VaryNone when several did.
	variable Variable
	// by is how far it moved; 0 for a rack order.
	by float64
	// drift says that nothing was changed: the measured speed wandered.
	drift bool
}

// listPastChanges lists the steps of the path, oldest first, without drifts.
func (l *analysis) listPastChanges() []pastChange {
	var moves []pastChange
	for i := 1; i < len(l.path); i++ {
		if m := compareRecords(l.path[i-1].record, l.path[i].record); !m.drift {
			m.after = l.path[i].tally
			if len(moves) > 0 {
				m.undoes = moves[len(moves)-1].madeWorse(m)
			}
			moves = append(moves, m)
		}
	}
	return moves
}

// madeWorse returns what a change made worse that the next one takes back; nil for none.
func (m pastChange) madeWorse(next pastChange) *measure {
	if m.from != next.to || m.to != next.from {
		return nil
	}
	if how, by, _ := m.judgeOutcome(outcomeCertainty); how == Hurt {
		return &by
	}
	return nil
}

// lastChange returns the latest step, and false before the first.
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

const (
	// smallestEffect is the smallest difference of rates that is one for the better or the
	// worse.
	smallestEffect = 0.05
	// RealDifference is how far two rates lie apart when there is a difference that a
	// student would notice: 1½ of ten.
	RealDifference = 0.15
)

// compare compares the change's own measure before and after it.
func (m pastChange) compare(by measure) evidence.RateEffect {
	return compareTallies(&m.from.tally, &m.to.tally, by, smallestEffect)
}

// probSame is the probability that a measure moved by less than RealDifference, by what was
// counted alone: whoever changes something expects a difference, so that none is no likelier
// from the start than any other.
func (m pastChange) probSame(by measure) float64 {
	return by.compareRates(&m.from.tally, &m.to.tally, evidence.UniformPrior(), RealDifference).NoDifference
}

// judgeOutcome says what came of the change, in what it was about; helped and
// hurt ask for the same certainty. A change that did nothing for that has hurt
// when it cost good breaks.
func (m pastChange) judgeOutcome(certainty float64) (Outcome, measure, evidence.RateEffect) {
	own := m.measure()
	e := m.compare(own)
	if own.of(&m.to.tally) < fewestBreaks || m.variable == VaryNone {
		return InTrial, own, e
	}
	whole := m.compare(worthMeasure)
	switch {
	case e.Helped >= certainty && whole.Hurt < certainty:
		return m.unlessUnlikeSince(Helped, own), own, e
	case e.Hurt >= certainty:
		return m.unlessUnlikeSince(Hurt, own), own, e
	case whole.Hurt >= certainty:
		return m.unlessUnlikeSince(Hurt, worthMeasure), worthMeasure, whole
	case m.probSame(own) >= outcomeCertainty:
		return NoDifference, own, e
	}
	return InTrial, own, e
}

// unlessUnlikeSince returns what came of a change, or that it is not known yet where earlier
// sets under the setup it went back to say so and those since rather say the opposite.
func (m pastChange) unlessUnlikeSince(how Outcome, by measure) Outcome {
	if m.after.breaks == 0 || m.after.breaks == m.to.tally.breaks { // no earlier sets were compared with it
		return how
	}
	since := compareTallies(&m.from.tally, &m.after, by, smallestEffect)
	if how == Helped && since.Hurt > since.Helped || how == Hurt && since.Helped > since.Hurt {
		return InTrial
	}
	return how
}

const (
	// fewestBreaks breaks on which anything but danger is said.
	fewestBreaks = 8
	// outcomeCertainty is asked before a change is said to have helped or hurt, or to
	// have made no real difference.
	outcomeCertainty = 0.95
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

// Outcome is how a change turned out.
type Outcome string

// The outcomes.
const (
	InTrial      Outcome = "in trial" // too early to tell
	Helped       Outcome = "helped"
	NoDifference Outcome = "no difference"
	Hurt         Outcome = "hurt"
)

// FollowUp compares the stint before the latest change with the one after it.
type FollowUp struct {
	Variable Variable `json:"variable"`
	From     Value    `json:"from"`
	To       Value    `json:"to"`
	// Measure says what was compared, what the change was about: "wing ball",
	// "cue ball in the window", "scratches", "balls off the table", "breaks with
	// nothing down" or "good breaks". Of scratches and the like fewer are better.
	Measure       string  `json:"measure"`
	CountBefore   int     `json:"count_before"`
	OfBefore      int     `json:"of_before"`
	CountAfter    int     `json:"count_after"`
	OfAfter       int     `json:"of_after"`
	HelpedP       float64 `json:"helped_p"`
	NoDifferenceP float64 `json:"no_difference_p"`
	HurtP         float64 `json:"hurt_p"`
	// SameP is how probable it is that the rate moved by less than RealDifference, which is
	// what "no difference" says; NoDifferenceP that it moved by less than the smallest that
	// helps or hurts.
	SameP   float64 `json:"same_p"`
	Outcome Outcome `json:"outcome"`
	Says    string  `json:"says"`
	// Statement is Says as data.
	Statement say.Statement `json:"-"`
}

// Places is what the places tried under these conditions say about the wing ball.
type Places struct {
	Tried []TriedPlace `json:"tried"`
	// Curve is the believed rate of the wing ball along the head string, the
	// most central place first.
	Curve []CurvePoint `json:"curve,omitempty"`
	// Level is how probable it is that the rate at a place lies within the curve's band;
	// 0 in what was kept before: one standard deviation to either side.
	Level float64 `json:"level,omitempty"`
	// Best is the place believed best, as an x of the break log; Known says
	// that it is known well enough to leave alone.
	Best  table.Inches `json:"best"`
	Known bool         `json:"known"`
	Says  string       `json:"says"`
	// Statement is Says as data.
	Statement say.Statement `json:"-"`
}

// TriedPlace is one place with what happened there.
type TriedPlace struct {
	X      table.Inches `json:"x"`
	Made   int          `json:"made"`
	Breaks int          `json:"breaks"`
}

// CurvePoint is the believed rate at one place.
type CurvePoint struct {
	X    table.Inches `json:"x"`
	Mean float64      `json:"mean"`
	Low  float64      `json:"low"`
	High float64      `json:"high"`
}

// measure is what a change is judged by: a count of breaks that is to grow, or,
// where fewer is better, to shrink.
type measure struct {
	name string
	// count of the tally's breaks show it, of those of which it is known.
	count, of func(*breakTally) int
	// fewerIsBetter turns the comparison round.
	fewerIsBetter bool
}

// The measures.
var (
	wingMeasure    = measure{"wing ball", func(t *breakTally) int { return t.wingMade }, ofWatched, false}
	windowMeasure  = measure{"cue ball in the window", func(t *breakTally) int { return t.cue.inWindow }, ofAll, false}
	scratchMeasure = measure{"scratches", func(t *breakTally) int { return t.cue.countScratches() }, ofAll, true}
	offMeasure     = measure{"balls off the table", func(t *breakTally) int { return t.off }, ofAll, true}
	dryMeasure     = measure{"breaks with nothing down", func(t *breakTally) int { return t.dry }, ofWatched, true}
	// worthMeasure is the whole break: a ball down, and the cue ball neither
	// scratched nor off.
	worthMeasure = measure{"good breaks", func(t *breakTally) int { return t.clean }, ofWatched, false}
)

func ofAll(t *breakTally) int     { return t.breaks }
func ofWatched(t *breakTally) int { return t.watched }

// measure returns what a change is about: what was amiss before it decides, for a part
// that several patterns lead to, and for the way back what the way there made worse.
func (m pastChange) measure() measure {
	if m.undoes != nil {
		return *m.undoes
	}
	before := &m.from.tally
	commonly := func(count int) bool { return count >= 2 && 5*count >= before.breaks }
	switch m.variable {
	case VarySpeed:
		switch {
		case m.by < 0 && before.off > 0:
			return offMeasure
		case m.by > 0:
			return dryMeasure
		}
		return windowMeasure
	case VaryTip, VaryContact, VarySpin:
		switch {
		case commonly(before.cue.countScratches()):
			return scratchMeasure
		case m.variable == VaryContact:
			return wingMeasure
		}
		return windowMeasure
	}
	return wingMeasure
}

// compareTallies compares a measure before and after a change. Both are drawn
// toward what they have in common, as much as priorBreaks breaks would: who is
// told to change has been seen at their worst, and comes back by themselves. Rates less
// than the margin apart count as the same.
func compareTallies(before, after *breakTally, m measure, margin float64) evidence.RateEffect {
	pooled := (float64(m.good(before)+m.good(after)) + 1) / (float64(m.of(before)+m.of(after)) + 2)
	return m.compareRates(before, after, evidence.Beta{A: priorBreaks * pooled, B: priorBreaks * (1 - pooled)}, margin)
}

// compareRates compares the measure before and after a change, both with the same prior.
func (m measure) compareRates(before, after *breakTally, prior evidence.Beta, margin float64) evidence.RateEffect {
	return evidence.CompareRates(
		evidence.BetaFromCounts(m.good(before), m.of(before), prior),
		evidence.BetaFromCounts(m.good(after), m.of(after), prior),
		margin)
}

// good is how many breaks were as they should be.
func (m measure) good(t *breakTally) int {
	if m.fewerIsBetter {
		return m.of(t) - m.count(t)
	}
	return m.count(t)
}

// priorBreaks is the weight of what two stints have in common, in breaks.
const priorBreaks = 8
