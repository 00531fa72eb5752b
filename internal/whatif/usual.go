package whatif

// Usual gives the number (from 0) of a break like most: the first of those that
// share what is most common of wing ball and cue ball together. An answer
// without breaks gives 0.
func (a Answer) Usual() int {
	count := map[[2]int]int{}
	for _, b := range a.Breaks {
		count[sortOf(b)]++
	}
	best := 0
	for i, b := range a.Breaks {
		if count[sortOf(b)] > count[sortOf(a.Breaks[best])] {
			best = i
		}
	}
	return best
}

// First gives the number (from 0) of the first break of which an event is true,
// and false when there is none.
func (a Answer) First(e Event) (int, bool) {
	for i, b := range a.Breaks {
		if e(b) {
			return i, true
		}
	}
	return 0, false
}

// sortOf sorts a break by what became of the wing ball and of the cue ball.
func sortOf(b Break) [2]int {
	return [2]int{
		firstOf(b, WingMade, WingElsewhere, WingOff, WingStayed("side-rail"), WingStayed("foot-rail"), WingStayed("kissed")),
		firstOf(b, InWindow, CueHeadEnd, CueFootEnd, Scratched),
	}
}

func firstOf(b Break, events ...Event) int {
	for i, e := range events {
		if e(b) {
			return i
		}
	}
	return len(events)
}
