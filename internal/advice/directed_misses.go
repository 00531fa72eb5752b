package advice

import "breakwright/internal/evidence"

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
	return l.currentTally().misses.directedMisses(l.currentTally().breaks)
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
	return 2*t.misses.countSeen() >= t.breaks-t.wingMade
}
