package advice

import (
	"math"
	"sync"

	"breakwright/internal/evidence"
	"breakwright/internal/table"
)

// The place search looks at the distance of the cue ball from the long string,
// in inches, from the head spot to the outermost place.

// curves are the tables of the place curve, one for each width of table. They
// are computed once and never change.
var curves = map[int]func() *evidence.PlaceCurve{
	7: sync.OnceValue(curveFor(table.SevenFoot())),
	8: sync.OnceValue(curveFor(table.EightFoot())),
	9: sync.OnceValue(curveFor(table.NineFoot())),
}

func curveFor(k table.Kind) func() *evidence.PlaceCurve {
	return func() *evidence.PlaceCurve {
		c, err := evidence.NewPlaceCurve(evidence.InchGrid(0, math.Floor(float64(outmost(k)))))
		if err != nil {
			panic("advice: the place curve of " + k.String() + ": " + err.Error())
		}
		return c
	}
}

// placeSets are the trials that differ from the present setup in nothing but
// the place across, each place once.
func (l *lesson) placeSets() []evidence.PlaceSet {
	var sets []evidence.PlaceSet
	for _, t := range l.trials {
		alike := t.setup
		alike.Cue.X = l.setup().Cue.X
		if alike.SameAs(l.setup()) {
			sets = append(sets, evidence.PlaceSet{Place: float64(out(t.setup)), Made: t.seen.wingMade, Tried: t.seen.breaks})
		}
	}
	return sets
}

// placeBelief is what the makes say of every place.
func (l *lesson) placeBelief() evidence.PlaceBelief {
	curve := curves[l.kind.Feet]
	if curve == nil {
		curve = curves[9]
	}
	return curve().Learn(l.placeSets())
}

// The numbers of the search, from simulated lessons (see package evidence).
const (
	searchReach     = 4 // in, the longest step
	searchCuriosity = 1 // standard deviations of promise
	searchSettled   = 0.06
)

// nextPlace is the place to try next, or the best one once searching on can win
// little. It heads for a place within reach of one that was tried: of any, so that
// a search that went the wrong way turns to its other end, a step at a time.
func (l *lesson) nextPlace() float64 {
	b, here := l.placeBelief(), float64(out(l.setup()))
	goal := b.Best()
	if !b.Settled(searchSettled) {
		goal = b.Next(here, searchCuriosity, searchReach)
		for _, tried := range l.placeSets() {
			if i := b.Next(tried.Place, searchCuriosity, searchReach); promise(b, i) > promise(b, goal) {
				goal = i
			}
		}
	}
	return here + clamp(b.Places[goal]-here, searchReach)
}

// promise is what the search goes after.
func promise(b evidence.PlaceBelief, i int) float64 { return b.Mean[i] + searchCuriosity*b.SD[i] }

// bestPlaceKnown says whether several places were tried, the best of them is
// known well enough to stop searching, and the student stands there with enough
// breaks.
func (l *lesson) bestPlaceKnown() bool {
	if len(l.placeSets()) < 2 || l.seen().breaks < l.rules.of(progressRule).MinBreaks {
		return false
	}
	b := l.placeBelief()
	return b.Settled(searchSettled) && math.Abs(b.Places[b.Best()]-float64(out(l.setup()))) <= 1
}
