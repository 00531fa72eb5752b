package advice

import (
	"math"
	"sync"

	"breakwright/internal/drill"
	"breakwright/internal/evidence"
	"breakwright/internal/table"
)

// The place search looks at the distance of the cue ball from the long string,
// in inches, from the head spot to the outermost place.

// placeCurves are the tables of the place curve, one for each length of table. They
// are computed once and never change.
var placeCurves = placeCurveOfSizes()

// placeCurveOfSizes returns the curve of each size of table, by its length.
func placeCurveOfSizes() map[table.Inches]func() *evidence.PlaceCurve {
	curves := map[table.Inches]func() *evidence.PlaceCurve{}
	for _, k := range table.Sizes() {
		curves[k.Length()] = sync.OnceValue(placeCurveBuilder(k))
	}
	return curves
}

func placeCurveBuilder(k table.Kind) func() *evidence.PlaceCurve {
	return func() *evidence.PlaceCurve {
		c, err := evidence.NewPlaceCurve(evidence.InchGrid(0, math.Floor(float64(outermostDistance(k)))))
		if err != nil {
			panic("advice: the place curve of " + k.String() + ": " + err.Error())
		}
		return c
	}
}

// placeSets are the setups tried that differ from the present setup in nothing but
// the place across, each place once.
func (l *analysis) placeSets() []evidence.PlaceSet {
	var sets []evidence.PlaceSet
	for _, t := range l.records {
		alike := t.setup
		alike.Cue.X = l.currentSetup().Cue.X
		if alike.SameAs(l.currentSetup()) && t.tally.watched > 0 {
			sets = append(sets, evidence.PlaceSet{Place: float64(distanceOut(t.setup)), Made: t.tally.wingMade, Tried: t.tally.watched})
		}
	}
	return sets
}

// placeBelief is what the makes say of every place.
func (l *analysis) placeBelief() evidence.PlaceBelief {
	curve := placeCurves[l.kind.Length()]
	return curve().LearnSets(l.placeSets())
}

// The numbers of the search, from simulated trainings (see package evidence).
const (
	searchReach     = 4 // in, the longest step
	searchCuriosity = 1 // standard deviations of promise
	searchSettled   = 0.06
)

// nextPlace is the place to try next, or the best one once searching on can win
// little. It heads for a place within reach of one that was tried: of any, so that
// a search that went the wrong way turns to its other end, a step at a time.
func (l *analysis) nextPlace() float64 {
	b, here := l.placeBelief(), float64(distanceOut(l.currentSetup()))
	goal := b.BestPlace()
	if !b.IsSettled(searchSettled) {
		goal = b.NextPlace(here, searchCuriosity, searchReach)
		for _, tried := range l.placeSets() {
			if i := b.NextPlace(tried.Place, searchCuriosity, searchReach); searchPromise(b, i) > searchPromise(b, goal) {
				goal = i
			}
		}
	}
	return here + clampMagnitude(b.Places[goal]-here, searchReach)
}

// searchPromise is what the search goes after.
func searchPromise(b evidence.PlaceBelief, i int) float64 { return b.Mean[i] + searchCuriosity*b.SD[i] }

// What an ordinary good break from the left looks like, used only to choose
// between two explanations of the same pattern: the part of the setup that is
// further from ordinary, in the direction that explains it, is the likelier
// one (common practice, no source).
const (
	ordinaryTip   drill.RadiusFraction = -0.1
	ordinarySpeed                      = drill.UsualSpeed
	// ordinaryPlace is a fraction of the table's width from the long string.
	ordinaryPlace = drill.UsualWidthShare
	// placePerContact is how far the place across does what an inch of contact
	// does: 4 in for 0.25 in. It follows from the angle between the cue ball's
	// line and the line of centres at the head ball.
	placePerContact = 16
)

// distanceOut is how far the cue ball stands from the long string.
func distanceOut(s drill.Setup) table.Inches { return table.FlipSign(s.Cue.X) }

// outermostDistance is the furthest out that is taught on this kind of table.
func outermostDistance(k table.Kind) table.Inches { return drill.OutermostCue(k) }

// setupMisfit says how far each part is from ordinary, in steps of its own: 0.1 in
// of contact, a tenth of a radius, an inch of place, a mile an hour. Positive
// is right of full, high, far out, fast.
type setupMisfit struct {
	contact, tip, place, speed float64
}

func measureMisfit(s drill.Setup, k table.Kind) setupMisfit {
	return setupMisfit{
		contact: float64(s.Contact) / 0.1,
		tip:     float64(s.Tip-ordinaryTip) / 0.1,
		place:   float64(distanceOut(s)) - ordinaryPlace*float64(k.Width()),
		speed:   float64(s.Speed - ordinarySpeed),
	}
}

// total is how far the parts are from ordinary together.
func (m setupMisfit) total() float64 {
	return math.Abs(m.contact) + math.Abs(m.tip) + math.Abs(m.place) + math.Abs(m.speed)
}

// doubtBenefit is the share of the benefit of the doubt that a part of the setup has:
// all of it while it is not off the way that would explain a pattern, none once it
// is far off that way.
func doubtBenefit(off, farOff float64) float64 { return 1 - min(max(off/farOff, 0), 1) }
