package fit

import "math"

// handsGrid is the hands that are thought of, each with its prior probability: the
// mean of contact and tip (or place) and the standard deviations of contact and
// tip. The priors are assumptions without a source: most means near what is
// told, standard deviations from very steady to very shaky, evenly in their
// logarithm.
type handsGrid struct {
	contact, other             gridAxis
	contactScatter, tipScatter gridAxis
}

// gridAxis is the values of one part, with their prior probabilities.
type gridAxis struct{ at, prior []float64 }

// The priors. A contact scatter of 0.1 in is an aim that varies by 0.1 degrees
// over the 52 in from a cue ball near the rail.
const (
	usualContact    = 0.2  // in, standard deviation of the mean contact over students
	usualTip        = 0.1  // of the radius
	usualPlace      = 2.5  // in
	steadiestHands  = 0.08 // in
	shakiestHands   = 0.6
	steadiestTip    = 0.03
	shakiestTip     = 0.15
	usualTipScatter = 0.06
	placeScatter    = 0.4 // in, of a place wrong in the same way every time
)

func newHandsGrid(moves variedPart) handsGrid {
	g := handsGrid{
		contact:        newBellAxis(usualContact, 0.5, 31),
		contactScatter: newEvenAxis(steadiestHands, shakiestHands, 6),
	}
	if moves == place {
		g.other, g.tipScatter = newBellAxis(usualPlace, 6, 25), gridAxis{[]float64{placeScatter}, []float64{1}}
		return g
	}
	g.other, g.tipScatter = newBellAxis(usualTip, 0.26, 27), newEvenAxis(steadiestTip, shakiestTip, 4)
	return g
}

// newBellAxis is n values from -most to most with a normal prior around 0.
func newBellAxis(sd, most float64, n int) gridAxis {
	var a gridAxis
	for i := range n {
		x := most * (2*float64(i)/float64(n-1) - 1)
		a.at, a.prior = append(a.at, x), append(a.prior, normalDensity(x, 0, sd))
	}
	return a.normalized()
}

// newEvenAxis is n values from low to high, evenly in their logarithm, all alike.
func newEvenAxis(low, high float64, n int) gridAxis {
	var a gridAxis
	for i := range n {
		a.at = append(a.at, low*math.Pow(high/low, float64(i)/float64(n-1)))
		a.prior = append(a.prior, 1)
	}
	return a.normalized()
}

func (a gridAxis) normalized() gridAxis {
	sum := 0.0
	for _, p := range a.prior {
		sum += p
	}
	for i := range a.prior {
		a.prior[i] /= sum
	}
	return a
}

// zeroIndex is the index of the value 0 of a bell.
func (a gridAxis) zeroIndex() int { return len(a.at) / 2 }
