package advice

import (
	"math"

	"breakwright/internal/evidence"
	"breakwright/internal/rack"
)

// missBalanceRule: the side on which the wing ball misses says which way the cue
// ball's place is wrong. See telling.
var missBalanceRule = patternRule{
	Rule: Rule{
		Name: RuleMissBalance, Number: "8",
		Title:     "Wing ball misses on one side",
		Pattern:   "The wing ball stays up and its misses are mostly on one side. The jaws are on neither; of the kisses beyond one in ten breaks every second counts.",
		Answer:    "Side rail first: the cue ball out, toward the side rail. Foot rail first, or kissed more than luck does: in, toward the head spot. Up to four inches when far off; half a step back when the balance flips. The contact instead when it is off full, or the place has no room left.",
		LineMeans: "share of the misses that are on one side",
		Source:    UsualPractice,
		Support:   "the step is stochastic root-finding (Robbins and Monro 1951)",
		StepUnit:  "in of place",
		StepBound: "at most",
		Numbers:   Numbers{On: true, Line: 0.6, Certainty: 0.97, Onward: 0.8, Step: 4, MinBreaks: fewestBreaks},
	},
	observe:        observeMissBalance,
	proposeChanges: proposeBalanceChanges,
}

func observeMissBalance(l *analysis, n Numbers) observation {
	t, misses := l.currentTally(), l.directedMisses()
	s := observation{count: misses.Long, of: misses.Total(), line: n.Line, towards: inward}
	s.seen = &seenCount{t.misses.foot + t.misses.kissed, t.misses.countSeen()}
	if misses.Short > misses.Long {
		s.count, s.towards, s.seen.count = misses.Short, outward, t.misses.side
	}
	if s.of == 0 || l.currentSetup().Spot == rack.CentreOnSpot {
		return s
	}
	s.canSettle = true
	s.line += placeBenefit * doubtBenefit(l.placeOffset(s.towards), placeIsFarOff)
	poor := 0.8
	switch {
	case l.isPlaceSearch():
		// The case has been made: now it is a search for where the misses
		// balance.
		s.line, poor = 0.5, 0.5
	case certaintyBelow(t.wingMade, t.watched, farBelowTarget*l.targets.Wing) >= 0.9:
		// So few makes say by themselves that something is wrong.
		s.line = 0.5
	case l.contactExplains(s.towards) || l.placeExplains(s.towards):
		// So does a setup that is out of the ordinary in just this way.
		s.line = 0.5
	}
	s.certainty = evidence.BetaFromCounts(s.count, s.of, evidence.UniformPrior()).ProbAbove(s.line)
	if s.of < fewestDirectedMisses {
		s.certainty = min(s.certainty, 0.5)
	}
	p := certaintyBelow(t.wingMade, t.watched, l.targets.Wing)
	// A good place is left alone. While a search is on, one that is not surely
	// good is not, if nearly all that still misses does so on one side.
	leaning := l.isPlaceSearch() && s.certainty >= 0.9 && p >= 1-l.rules.numbersOf(progressRule).Certainty
	if p < poor && !leaning {
		s.certainty = min(s.certainty, p)
	}
	return s
}

// fewestDirectedMisses is on how few misses that say which way nothing is said, whatever
// has been said before.
const fewestDirectedMisses = 3

// farBelowTarget is the share of the target below which a rate is far off.
const farBelowTarget = 0.6

// isPlaceSearch reports whether the latest change was one of place or contact.
func (l *analysis) isPlaceSearch() bool {
	m, any := l.lastChange()
	return any && (m.variable == VaryPlace || m.variable == VaryContact)
}

func proposeBalanceChanges(l *analysis, n Numbers, s observation) []proposedChange {
	step := l.balanceStep(n, s.towards)
	by := float64(s.towards) * step
	place := l.moveCueBallOut(by, reasonPlain)
	if l.reversesLastChange(place) {
		m, _ := l.lastChange()
		back := math.Max(1, math.Round(math.Abs(m.by)/2))
		place = l.moveCueBallOut(float64(s.towards)*math.Min(back, step), reasonHalfBack)
	}
	// A contact left of full does what a place further out does.
	contactBy := -by / placePerContact
	contact := l.shiftContact(math.Copysign(math.Max(0.1, math.Abs(contactBy)), contactBy), reasonAtLimit)
	if l.contactExplains(s.towards) {
		return []proposedChange{l.bringContactFuller(math.Max(0.1, math.Abs(contactBy)), reasonOffFull), place, contact}
	}
	if l.cueBallThrown(s.towards) {
		contact.reason = reasonThrown
		return []proposedChange{contact, place}
	}
	return []proposedChange{place, contact}
}

// balanceStep is how far to move, in whole inches: in proportion to the
// surplus of misses on one side, less with every change already made.
func (l *analysis) balanceStep(n Numbers, towards direction) float64 {
	t := l.currentTally()
	placeMoves := 1
	for _, m := range l.pastChanges {
		if m.variable == VaryPlace || m.variable == VaryContact {
			placeMoves++
		}
	}
	// Misses that nobody saw say nothing: only breaks with a known end count.
	known := t.wingMade + t.misses.countSeen()
	step := evidence.StepSearch{Gain: 2 * n.Step, Decay: 0.5}.NextStep(placeMoves, known, l.directedMisses())
	return min(max(math.Round(math.Abs(step)), 1), n.Step)
}

// contactExplains reports whether the contact asked for is off full the way that
// makes misses like these, by more than the place is out of the ordinary.
func (l *analysis) contactExplains(towards direction) bool {
	m := measureMisfit(l.currentSetup(), l.kind)
	byContact := m.contact * 0.1 * placePerContact * float64(towards)
	byPlace := math.Max(0, -m.place*float64(towards)-2)
	return byContact >= 0.15*placePerContact && byContact > byPlace
}

// placeOffset is by how many inches the place is out of the ordinary, the way that
// makes misses like these.
func (l *analysis) placeOffset(towards direction) float64 {
	return -measureMisfit(l.currentSetup(), l.kind).place * float64(towards)
}

// placeExplains reports whether the place is far enough out of the ordinary to make
// misses like these.
func (l *analysis) placeExplains(towards direction) bool {
	return l.placeOffset(towards) >= placeIsFarOff
}

const (
	// placeIsFarOff is how many inches from ordinary a place is that may well be
	// to blame.
	placeIsFarOff = 4
	// placeBenefit is how much further the line lies for a place that is not off.
	placeBenefit = 0.04
)

// cueBallThrown reports whether the cue ball's ends also point to the contact: a
// hit off full throws it across the table, a wrong place does not.
func (l *analysis) cueBallThrown(towards direction) bool {
	c := l.currentTally().cue
	scratched, thrown := c.scratchFar, c.farSide+c.scratchFar
	if towards == inward {
		scratched, thrown = c.scratchNear, c.nearSide+c.scratchNear
	}
	if scratched >= 2 && observeShare(scratched, l.currentTally().breaks, 0.06).certainty >= 0.9 {
		return true
	}
	return observeShare(thrown, c.across+c.scratchFar+c.scratchNear, 0.5).certainty >= 0.8
}

// Not every miss says which way the cue ball's place is wrong. The rails do: the
// side rail first is too central, the foot rail first too far out. A wing ball
// that rattles in the jaws was nearly right, so it says neither. A kiss can
// befall any break; a place too far out makes more of them (computed breaks of
// package breaksim: 5 in 100 from the best place, 37 in 100 with a hit as wrong as
// five inches; students whose kisses are pure luck lose their way when all are
// counted). So one kiss in ten breaks is free, and of the others every second
// counts.

// usualKisses is in how many breaks one kiss befalls anybody.
const usualKisses = 10

// directedMisses sorts the misses of so many breaks that say which way. Long is too far
// out, Short too central.
func (m missCounts) directedMisses(breaks int) evidence.MissBalance {
	kisses := (max(0, m.kissed-breaks/usualKisses) + 1) / 2
	return evidence.MissBalance{Long: m.foot + kisses, Short: m.side}
}

// directedMisses are the misses of the stint that say which way.
func (l *analysis) directedMisses() evidence.MissBalance {
	return l.currentTally().misses.directedMisses(l.currentTally().watched)
}

// missesLean is how sure it is that the telling misses point that way.
func (l *analysis) missesLean(towards direction) float64 {
	if towards == outward {
		return l.directedMisses().ProbShort()
	}
	return l.directedMisses().ProbLong()
}

// areMissesKnown reports whether somebody saw at least half of the misses.
func (l *analysis) areMissesKnown() bool {
	t := l.currentTally()
	return 2*t.misses.countSeen() >= t.watched-t.wingMade
}
