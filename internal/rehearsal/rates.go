package rehearsal

import (
	"math/rand/v2"

	"breakwright/internal/drill"
)

// Rates are a student's true shares under one setup.
type Rates struct {
	// Wing is the share of breaks that make the wing ball in its corner, Window
	// the share whose cue ball stops in the window, Good the share that do both
	// and keep every ball on the table.
	Wing, Window, Good float64
	// Scratch is the share in which the cue ball scratches, Off the share in
	// which any ball leaves the table.
	Scratch, Off float64
}

// rateCounter counts and remembers a student's true rates. The same chances serve
// every setup, so two setups of one student are told apart more finely than by
// counting each for itself.
type rateCounter struct {
	student Student
	seed    uint64
	// usual is how many breaks a rate is counted over, finely how many where a
	// single student's verdict depends on it.
	usualBreaks, fineBreaks int
	counts                  map[drill.Setup]*breakCounts
	playedSets              map[setKey][]drill.Break
}

// breakCounts is what was seen in the first breaks of one setup.
type breakCounts struct{ breaks, wing, window, good, scratch, off int }

// setKey is one set of a lesson: the same student has the same luck in the same
// round under the same setup, whoever advises.
type setKey struct {
	setup drill.Setup
	seed  uint64
	set   int
}

func newRateCounter(s Student, seed uint64) *rateCounter {
	t := &rateCounter{student: s, seed: seed, usualBreaks: 1000, fineBreaks: 1000}
	t.counts, t.playedSets = map[drill.Setup]*breakCounts{}, map[setKey][]drill.Break{}
	return t
}

func (t *rateCounter) usualRates(s drill.Setup) Rates { return t.countRates(s, t.usualBreaks) }

func (t *rateCounter) fineRates(s drill.Setup) Rates { return t.countRates(s, t.fineBreaks) }

// countRates counts at least so many breaks, going on where an earlier count ended.
func (t *rateCounter) countRates(s drill.Setup, breaks int) Rates {
	s = s.Rounded()
	c := t.counts[s]
	if c == nil {
		c = &breakCounts{}
		t.counts[s] = c
	}
	source := rand.NewPCG(0, 0)
	rng := rand.New(source)
	for c.breaks < breaks {
		source.Seed(t.seed, uint64(c.breaks))
		c.addBreak(t.student.Break(s, rng), s, t.student)
	}
	return c.toRates()
}

func (c *breakCounts) addBreak(b drill.Break, s drill.Setup, of Student) {
	made, in, off := b.WingMade(s), b.InWindow(of.Window), b.HasBallsOff()
	c.breaks++
	countIf(&c.wing, made)
	countIf(&c.window, in)
	countIf(&c.good, made && in && !off)
	countIf(&c.scratch, b.Cue.How == drill.Scratched)
	countIf(&c.off, off)
}

func countIf(n *int, is bool) {
	if is {
		*n++
	}
}

func (c *breakCounts) toRates() Rates {
	share := func(n int) float64 { return float64(n) / float64(c.breaks) }
	return Rates{share(c.wing), share(c.window), share(c.good), share(c.scratch), share(c.off)}
}

// breaksOfSet gives the breaks of one set of a lesson with the luck of a seed. They
// are shared: nobody may change them.
func (t *rateCounter) breaksOfSet(s Student, r setKey) []drill.Break {
	if breaks, known := t.playedSets[r]; known {
		return breaks
	}
	rng := rand.New(rand.NewPCG(r.seed, uint64(r.set)))
	breaks := make([]drill.Break, drill.UsualBreaks)
	for i := range breaks {
		breaks[i] = s.Break(r.setup, rng)
		breaks[i].Number, breaks[i].At = i+1, breakTime(r.set, i)
	}
	t.playedSets[r] = breaks
	return breaks
}
