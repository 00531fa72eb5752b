package belief

import (
	"math"

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
	// Unsteady and Gap are as in response.Stroke.
	Unsteady float64
	Gap      table.Inches
}

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

// weighedHand is a Hand with the logarithm of its weight before any break.
type weighedHand struct {
	Hand
	logPrior float64
}

// cloud holds every hand that is thought possible; it is the same for everybody.
var cloud = makeCloud()

func makeCloud() []weighedHand {
	var all []weighedHand
	for _, p := range prior {
		logShare := math.Log(p.share / float64(p.hands))
		for i := range p.hands {
			h := ordinaryHand(i)
			h.Cause = p.cause
			h.setAmiss((float64(i) + 0.5) / float64(p.hands))
			all = append(all, weighedHand{h, logShare})
		}
	}
	return all
}

// ordinaryHand gives hands with nothing much amiss: small differences in every
// part, by a sequence of low discrepancy.
func ordinaryHand(i int) Hand {
	u := func(dimension int) float64 { return sequence(i, dimension) }
	return Hand{
		Place:    toGrain(table.Inches(2.5*deviations(u(0))), placeGrain),
		Contact:  toGrain(table.Inches(0.05*deviations(u(1))), contactGrain),
		Tip:      toGrain(0.04*deviations(u(2)), tipGrain),
		Speed:    toGrain(table.Mph(0.9*deviations(u(3))), speedGrain),
		Unsteady: toUnsteadyGrain(math.Exp(0.1 + 0.35*deviations(u(4)))),
		Gap:      0.003,
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
		h.Place = toGrain(table.Inches(sized(3.5, 11)), placeGrain)
	case Contact:
		h.Contact = toGrain(table.Inches(sized(0.12, 0.5)), contactGrain)
	case Tip:
		h.Tip = toGrain(sized(0.1, 0.45), tipGrain)
	case Spin:
		h.Spin = toGrain(sized(0.1, 0.3), spinGrain)
	case Speed:
		h.Speed = toGrain(table.Mph(sized(2, 9)), speedGrain)
	case Unsteady:
		h.Unsteady = toUnsteadyGrain(math.Exp(0.5 + 1.2*u))
	case LooseRack:
		h.Gap = 0.007 * table.Inches(math.Pow(4, float64(int(u*gapSizes))/gapSizes))
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

// The grains in which strokes are told apart: finer makes no difference that
// twenty breaks could show, and equal strokes are looked up, not computed again.
const (
	placeGrain   table.Inches = 0.5
	behindGrain  table.Inches = 2
	contactGrain table.Inches = 0.05
	tipGrain                  = 0.05
	spinGrain                 = 0.1
	speedGrain   table.Mph    = 1
	mouthGrain   table.Inches = 0.125
	gapSizes                  = 8
)

func toGrain[T ~float64](v, grain T) T { return T(math.Round(float64(v/grain))) * grain }

// toUnsteadyGrain rounds a factor to steps of a third or so.
func toUnsteadyGrain(v float64) float64 { return math.Exp(math.Round(math.Log(v)/0.3) * 0.3) }
