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

// truth counts and remembers a student's true rates. The same chances serve
// every setup, so two setups of one student are told apart more finely than by
// counting each for itself.
type truth struct {
	student Student
	seed    uint64
	// usual is how many breaks a rate is counted over, finely how many where a
	// single student's verdict depends on it.
	usual, finely int
	known         map[drill.Setup]*count
	played        map[round][]drill.Break
}

// count is what was seen in the first breaks of one setup.
type count struct{ breaks, wing, window, good, scratch, off int }

// round is one set of a lesson: the same student has the same luck in the same
// round under the same setup, whoever advises.
type round struct {
	setup drill.Setup
	seed  uint64
	set   int
}

func newTruth(s Student, seed uint64) *truth {
	t := &truth{student: s, seed: seed, usual: 1000, finely: 1000}
	t.known, t.played = map[drill.Setup]*count{}, map[round][]drill.Break{}
	return t
}

func (t *truth) of(s drill.Setup) Rates { return t.over(s, t.usual) }

func (t *truth) closely(s drill.Setup) Rates { return t.over(s, t.finely) }

// over counts at least so many breaks, going on where an earlier count ended.
func (t *truth) over(s drill.Setup, breaks int) Rates {
	s = s.Rounded()
	c := t.known[s]
	if c == nil {
		c = &count{}
		t.known[s] = c
	}
	source := rand.NewPCG(0, 0)
	rng := rand.New(source)
	for c.breaks < breaks {
		source.Seed(t.seed, uint64(c.breaks))
		c.add(t.student.Break(s, rng), s, t.student)
	}
	return c.rates()
}

func (c *count) add(b drill.Break, s drill.Setup, of Student) {
	made, in, off := b.WingMade(s), b.InWindow(of.Window), b.BallsOff()
	c.breaks++
	tick(&c.wing, made)
	tick(&c.window, in)
	tick(&c.good, made && in && !off)
	tick(&c.scratch, b.Cue.How == drill.Scratched)
	tick(&c.off, off)
}

func tick(n *int, is bool) {
	if is {
		*n++
	}
}

func (c *count) rates() Rates {
	share := func(n int) float64 { return float64(n) / float64(c.breaks) }
	return Rates{share(c.wing), share(c.window), share(c.good), share(c.scratch), share(c.off)}
}

// breaksOf gives the breaks of one set of a lesson with the luck of a seed. They
// are shared: nobody may change them.
func (t *truth) breaksOf(s Student, r round) []drill.Break {
	if breaks, known := t.played[r]; known {
		return breaks
	}
	rng := rand.New(rand.NewPCG(r.seed, uint64(r.set)))
	breaks := make([]drill.Break, drill.UsualBreaks)
	for i := range breaks {
		breaks[i] = s.Break(r.setup, rng)
		breaks[i].Number, breaks[i].At = i+1, clock(r.set, i)
	}
	t.played[r] = breaks
	return breaks
}
