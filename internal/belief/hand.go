package belief

import (
	"math"

	"breakwright/internal/response"
	"breakwright/internal/table"
)

// Cause is what may be amiss with a break: the largest thing that is.
type Cause string

// The causes.
const (
	Nothing   Cause = "nothing"    // hands, rack and table as they should be
	Place     Cause = "place"      // this table and rack want another place
	Contact   Cause = "contact"    // the head ball is met off the line told
	Tip       Cause = "tip"        // the tip strikes higher or lower than told
	Spin      Cause = "spin"       // side spin that nobody asked for
	Speed     Cause = "speed"      // faster or softer than told
	Unsteady  Cause = "unsteady"   // the stroke scatters
	LooseRack Cause = "loose rack" // gaps between the balls
)

// Causes lists them as a page shows them.
func Causes() []Cause {
	return []Cause{Nothing, Place, Contact, Tip, Spin, Speed, Unsteady, LooseRack}
}

// Hand is one way in which a student's breaks may differ from what is told.
type Hand struct {
	Cause Cause
	// Place is how much further in than the model has it the best place lies
	// here: a cue ball placed rightly acts as one so much further out.
	Place table.Inches
	// Contact, Tip, Spin and Speed are what happens less what was told.
	Contact table.Inches
	Tip     float64
	Spin    float64
	Speed   table.Mph
	// Unsteady and Gap are as in response.Stroke: Unsteady at unknownSpeed, and its
	// logarithm grows by Widening for each mile an hour more.
	Unsteady float64
	Widening float64
	Gap      table.Inches
	// Table is how the table plays that the hand breaks on, in standard deviations from
	// what is believed of it.
	Table response.Character
}

// usualWidening is how a stroke that scatters widens with its speed: control before power
// (common practice, no source for the size).
const usualWidening = 0.2

// prior says how much of the cloud each cause has before a break is seen, and
// how many hands stand for it. Shares and ranges are assumptions about what a
// coach meets (common practice, no source).
var prior = []struct {
	cause Cause
	share float64
	hands int
}{
	{Nothing, 0.34, 60},
	{Place, 0.14, 80},
	{Contact, 0.14, 80},
	{Tip, 0.13, 80},
	{Spin, 0.03, 30},
	{Speed, 0.10, 80},
	{Unsteady, 0.06, 40},
	{LooseRack, 0.06, 40},
}

// PriorShare returns how common a cause is taken to be before a break is seen.
func PriorShare(c Cause) float64 {
	for _, p := range prior {
		if p.cause == c {
			return p.share
		}
	}
	return 0
}

// weighedHand is a Hand with the logarithm of its weight before any break, among all hands
// and among those of its cause.
type weighedHand struct {
	Hand
	steps                   steps
	logPrior, logInItsCause float64
}

// cloud holds every hand that is thought possible; it is the same for everybody.
var cloud = makeCloud()

func makeCloud() []weighedHand {
	var all []weighedHand
	for _, p := range prior {
		logPrior, logInItsCause := math.Log(p.share/float64(p.hands)), -math.Log(float64(p.hands))
		for i := range p.hands {
			h := ordinaryHand(i)
			h.Cause = p.cause
			h.setAmiss((float64(i) + 0.5) / float64(p.hands))
			all = append(all, weighedHand{h.inGrains(), h.steps(), logPrior, logInItsCause})
		}
	}
	return all
}

// ordinaryHand returns hands with nothing much amiss: small differences in every
// part, by a sequence of low discrepancy.
func ordinaryHand(i int) Hand {
	u := func(dimension int) float64 { return sequence(i, dimension) }
	return Hand{
		Place:    table.Inches(2.5 * deviations(u(0))),
		Contact:  table.Inches(0.05 * deviations(u(1))),
		Tip:      0.04 * deviations(u(2)),
		Speed:    table.Mph(0.9 * deviations(u(3))),
		Unsteady: math.Exp(0.1 + 0.35*deviations(u(4))),
		Gap:      ordinaryGap,
		Table:    response.Character{float32(deviations(u(5))), float32(deviations(u(6))), float32(deviations(u(7)))},
	}
}

// setAmiss makes the one thing wrong: u runs from 0 to 1 over its sizes, for
// parts with two sides over the negative ones first.
func (h *Hand) setAmiss(u float64) {
	sized := func(least, most float64) float64 {
		if u < 0.5 {
			return -(least + (most-least)*2*u)
		}
		return least + (most-least)*(2*u-1)
	}
	switch h.Cause {
	case Place:
		h.Place = table.Inches(sized(3.5, 11))
	case Contact:
		h.Contact = table.Inches(sized(0.12, 0.5))
	case Tip:
		h.Tip = sized(0.1, 0.45)
	case Spin:
		h.Spin = sized(0.1, 0.3)
	case Speed:
		h.Speed = table.Mph(sized(2, 9))
	case Unsteady:
		h.Unsteady, h.Widening = math.Exp(0.5+1.2*u), usualWidening
	case LooseRack:
		h.Gap = gapOf(1 + int16(u*gapSizes))
	}
}

// steps are the hand's parts in whole grains.
func (h Hand) steps() steps {
	s := steps{
		out: stepsOf(h.Place, placeGrain), contact: stepsOf(h.Contact, contactGrain),
		tip: stepsOf(h.Tip, tipGrain), spin: stepsOf(h.Spin, spinGrain), speed: stepsOf(h.Speed, speedGrain),
		unsteady: stepsOf(math.Log(h.Unsteady), unsteadyGrain), widening: h.Widening,
	}
	if h.Gap > ordinaryGap {
		s.gap = 1 + stepsOf(math.Log(float64(h.Gap/leastGap))/math.Log(4), 1.0/gapSizes)
	}
	return s
}

// inGrains is the hand with its parts rounded to the grains.
func (h Hand) inGrains() Hand {
	s := h.steps()
	return Hand{
		Cause: h.Cause, Place: ofSteps(s.out, placeGrain), Contact: ofSteps(s.contact, contactGrain),
		Tip: ofSteps(s.tip, tipGrain), Spin: ofSteps(s.spin, spinGrain), Speed: ofSteps(s.speed, speedGrain),
		Unsteady: unsteadyOf(s.unsteady), Widening: s.widening, Gap: gapOf(s.gap),
		Table: h.Table,
	}
}

// sequence is the i-th number of dimension d of the additive recurrence on the
// powers of the root of x^9 = x + 1 (Roberts 2018, R-sequence in eight
// dimensions), from 0 to 1.
func sequence(i, d int) float64 {
	const root = 1.0850702454914507
	return math.Mod(0.5+float64(i+1)*math.Pow(root, -float64(d+1)), 1)
}

// deviations turns a share into standard deviations of a normal from its mean.
func deviations(u float64) float64 {
	return math.Sqrt2 * math.Erfinv(2*min(max(u, 0.005), 0.995)-1)
}
