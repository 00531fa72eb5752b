package whatif

// TypicalBreak returns the number (from 0) of a break like most: the first of those that
// share what is most common of wing ball and cue ball together. An answer
// without breaks returns 0.
func (a Answer) TypicalBreak() int {
	count := map[[2]int]int{}
	for _, b := range a.Breaks {
		count[fateClass(b)]++
	}
	best := 0
	for i, b := range a.Breaks {
		if count[fateClass(b)] > count[fateClass(a.Breaks[best])] {
			best = i
		}
	}
	return best
}

// FirstBreakWith returns the number (from 0) of the first break of which an event is true,
// and false when there is none.
func (a Answer) FirstBreakWith(e BreakEvent) (int, bool) {
	for i, b := range a.Breaks {
		if e(b) {
			return i, true
		}
	}
	return 0, false
}

// fateClass sorts a break by what became of the wing ball and of the cue ball.
func fateClass(b SimulatedBreak) [2]int {
	return [2]int{
		firstEventIndex(b, WingMade, WingElsewhere, WingOff, WingStayed("side-rail"), WingStayed("foot-rail"), WingStayed("kissed")),
		firstEventIndex(b, InWindow, CueHeadEnd, CueFootEnd, Scratched),
	}
}

func firstEventIndex(b SimulatedBreak, events ...BreakEvent) int {
	for i, e := range events {
		if e(b) {
			return i
		}
	}
	return len(events)
}
