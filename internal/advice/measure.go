package advice

import "breakwright/internal/evidence"

// measure is what a change is judged by: a count of breaks that is to grow, or,
// where fewer is better, to shrink.
type measure struct {
	name string
	// count of the tally's breaks show it.
	count func(*breakTally) int
	// fewerIsBetter turns the comparison round.
	fewerIsBetter bool
}

// The measures.
var (
	wingMeasure    = measure{"wing ball", func(t *breakTally) int { return t.wingMade }, false}
	windowMeasure  = measure{"cue ball in the window", func(t *breakTally) int { return t.cue.inWindow }, false}
	scratchMeasure = measure{"scratches", func(t *breakTally) int { return t.cue.countScratches() }, true}
	offMeasure     = measure{"balls off the table", func(t *breakTally) int { return t.off }, true}
	dryMeasure     = measure{"breaks with nothing down", func(t *breakTally) int { return t.dry }, true}
	// worthMeasure is the whole break: a ball down, and the cue ball neither
	// scratched nor off.
	worthMeasure = measure{"good breaks", func(t *breakTally) int { return t.clean }, false}
)

// measureOf gives what a change is about: what was amiss before it decides, for
// a part that several patterns lead to.
func (m pastChange) measure() measure {
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
// told to change has been seen at their worst, and comes back by themselves.
func compareTallies(before, after *breakTally, m measure) evidence.RateEffect {
	good := func(t *breakTally) int {
		if m.fewerIsBetter {
			return t.breaks - m.count(t)
		}
		return m.count(t)
	}
	pooled := (float64(good(before)+good(after)) + 1) / (float64(before.breaks+after.breaks) + 2)
	prior := evidence.Beta{A: priorBreaks * pooled, B: priorBreaks * (1 - pooled)}
	return evidence.CompareRates(
		evidence.BetaFromCounts(good(before), before.breaks, prior),
		evidence.BetaFromCounts(good(after), after.breaks, prior),
		smallestEffect)
}

// priorBreaks is the weight of what two stints have in common, in breaks.
const priorBreaks = 8
