package rehearsal

import (
	"math"
	"math/rand/v2"

	"breakwright/internal/breaksim"
	"breakwright/internal/drill"
	"breakwright/internal/table"
)

// Rates are a student's true shares under one setup.
type Rates struct {
	// Wing is the share of breaks that make the wing ball in its corner, Window
	// the share whose cue ball stops in the window, Good the share that do both
	// and keep every ball on the table. Middle is the share whose cue ball stops between
	// the head string and the centre.
	Wing, Window, Good, Middle float64
	// Scratch is the share in which the cue ball scratches, Off the share in
	// which any ball leaves the table.
	Scratch, Off float64
	// Dry is the share with nothing down, Weak the share of those short of the rules' four
	// rails, Clean the share with a ball down, no scratch and every ball on the table.
	// Worth adds up what a break is worth: 1 when clean, 1 more for an open shot on the
	// lowest ball, less 1 for a scratch or for a weak break and 2 for a ball on the floor.
	Dry, Weak, Clean, Worth float64
}

// rateCounter counts and remembers a student's true rates. The same chances serve
// every setup, so two setups of one student are told apart more finely than by
// counting each for itself.
type rateCounter struct {
	student Student
	seed    uint64
	// usual is how many breaks a rate is counted over, finely how many where a
	// single student's verdict depends on it, roughly how many tell that a change is
	// not worth counting finely.
	usualBreaks, fineBreaks, roughBreaks int
	counts                               map[condition]*breakCounts
	playedSets                           map[setKey][]drill.Break
}

// condition is what breaks happen under.
type condition struct {
	setup drill.Setup
	// rackChecked says that the rack has been looked at.
	rackChecked bool
}

// breakUnder breaks one rack.
func (s Student) breakUnder(c condition, rng *rand.Rand) drill.Break {
	breaker := s.Breaker
	if c.rackChecked && s.rackChecked != nil {
		breaker = s.rackChecked
	}
	return breaker.Break(c.setup, rng)
}

// breakCounts is what was seen in the first breaks under one condition.
type breakCounts struct{ breaks, wing, window, good, middle, scratch, off, dry, weak, clean, openShot int }

// setKey is one set of a training: the same student has the same luck in the same
// round under the same setup, whoever advises.
type setKey struct {
	condition
	seed uint64
	set  int
}

func newRateCounter(s Student, seed uint64) *rateCounter {
	t := &rateCounter{student: s, seed: seed, usualBreaks: 1000, fineBreaks: 1000, roughBreaks: 150}
	t.counts, t.playedSets = map[condition]*breakCounts{}, map[setKey][]drill.Break{}
	return t
}

// withOtherLuck returns one that counts on other breaks, as many.
func (t *rateCounter) withOtherLuck() *rateCounter {
	other := newRateCounter(t.student, ^t.seed)
	other.usualBreaks, other.fineBreaks, other.roughBreaks = t.usualBreaks, t.fineBreaks, t.roughBreaks
	return other
}

func (t *rateCounter) usualRates(s drill.Setup) Rates {
	return t.countRates(condition{setup: s}, t.usualBreaks)
}

func (t *rateCounter) fineRates(s drill.Setup) Rates {
	return t.countRates(condition{setup: s}, t.fineBreaks)
}

// countRates counts at least so many breaks, going on where an earlier count ended.
func (t *rateCounter) countRates(under condition, breaks int) Rates {
	under.setup = under.setup.Rounded()
	c := t.counts[under]
	if c == nil {
		c = &breakCounts{}
		t.counts[under] = c
	}
	source := rand.NewPCG(0, 0)
	rng := rand.New(source)
	for c.breaks < breaks {
		source.Seed(t.seed, uint64(c.breaks))
		c.addBreak(noteAll(t.student).breakUnder(under, rng), under.setup, t.student)
	}
	return c.toRates()
}

// noteAll returns the student as one who notes the rails that were met and the shots that
// are left, which what a break is worth asks for.
func noteAll(s Student) Student {
	s.Breaker, s.rackChecked = notingWorth(s.Breaker), notingWorth(s.rackChecked)
	return s
}

func notingWorth(b Breaker) Breaker {
	switch p := b.(type) {
	case Physics:
		p.Habit.Rails, p.Habit.Shots = true, true
		return p
	case unmoved:
		p.Breaker = notingWorth(p.Breaker)
		return p
	}
	return b
}

func (c *breakCounts) addBreak(b drill.Break, s drill.Setup, of Student) {
	made, in, off := b.WingMade(s), b.InWindow(of.Window), b.HasBallsOff()
	dry := len(b.Pocketed) == 0
	weak, _ := b.IsWeak()
	c.breaks++
	countIf(&c.wing, made)
	countIf(&c.window, in)
	countIf(&c.good, made && in && !off)
	countIf(&c.middle, b.Cue.How == drill.Stopped && of.Kind.IsInMiddle(b.Cue.Place))
	countIf(&c.scratch, b.Cue.How == drill.Scratched)
	countIf(&c.off, off)
	countIf(&c.dry, dry)
	countIf(&c.weak, weak)
	countIf(&c.clean, !dry && !off && b.Cue.How == drill.Stopped)
	countIf(&c.openShot, b.Shot == drill.ShotOpen)
}

func countIf(n *int, is bool) {
	if is {
		*n++
	}
}

func (c *breakCounts) toRates() Rates {
	share := func(n int) float64 { return float64(n) / float64(c.breaks) }
	return Rates{
		Wing: share(c.wing), Window: share(c.window), Good: share(c.good), Middle: share(c.middle),
		Scratch: share(c.scratch), Off: share(c.off), Dry: share(c.dry), Weak: share(c.weak), Clean: share(c.clean),
		Worth: share(c.clean+c.openShot-c.scratch-c.weak) - 2*share(c.off),
	}
}

// breaksOfSet returns the breaks of one set of a run with the luck of a seed. They
// are shared: nobody may change them.
func (t *rateCounter) breaksOfSet(s Student, r setKey) []drill.Break {
	if breaks, known := t.playedSets[r]; known {
		return breaks
	}
	rng := rand.New(rand.NewPCG(r.seed, uint64(r.set)))
	if s.hasMoods {
		s.Breaker = withMood(s.Breaker, rng)
	}
	breaks := make([]drill.Break, drill.UsualBreaks)
	for i := range breaks {
		breaks[i] = s.breakUnder(r.condition, rng)
		breaks[i].Number, breaks[i].At = i+1, breakTime(r.set, i)
	}
	t.playedSets[r] = breaks
	return breaks
}

// withMood returns a student as they are on one day: steadier or less steady, and a
// little off in one way (assumed, no source).
func withMood(b Breaker, rng *rand.Rand) Breaker {
	p, computed := b.(Physics)
	if !computed {
		return b
	}
	wide := math.Exp(0.35 * rng.NormFloat64())
	p.Scatter.Aim *= breaksim.Degrees(wide)
	p.Scatter.Tip *= breaksim.RadiusFraction(wide)
	p.Pull += table.Inches(0.05 * rng.NormFloat64())
	p.Raise += drill.RadiusFraction(0.04 * rng.NormFloat64())
	return p
}
