package evidence

import (
	"cmp"
	"errors"
	"fmt"
	"math"
	"slices"
)

// WeightedValue is a value and how much it is believed before any break. Weights need
// not sum to 1.
type WeightedValue struct {
	Value, Weight float64
}

// EvenlySpaced returns values from low to high, step apart, all believed alike. High is
// included when a whole number of steps reaches it.
func EvenlySpaced(low, high, step float64) []WeightedValue {
	if !(step > 0) || !(low <= high) {
		return nil
	}
	values := make([]WeightedValue, 0, int((high-low)/step)+1)
	for i := 0; ; i++ {
		value := low + float64(i)*step
		if value > high+step*1e-9 {
			return values
		}
		values = append(values, WeightedValue{Value: value, Weight: 1})
	}
}

// PlaceGrid is the family of curves a PlaceCurve chooses among: the rate of makes
// over a line of places rises to one peak and falls off on both sides,
//
//	logit rate = max(logit peak - 0.8 (place-centre)²/width², -3.5)
//
// where every combination of a peak, a width and a centre is one curve. Places,
// widths and centres share the caller's unit.
type PlaceGrid struct {
	// Places are where a set may be played, in any order.
	Places []float64
	// Peaks are rates between 0 and 1 at the best place.
	Peaks []WeightedValue
	// Widths say how soon the rate falls off, all above 0.
	Widths []WeightedValue
	// Centres are where the best place may be.
	Centres []WeightedValue
}

// InchGrid returns the family that was tried in simulated students, with places in
// inches: one an inch from low to high, centres every half inch, all alike, peaks
// of .4 to .85 (most often .55 to .7) and widths of 1.5 to 7 inches. The weights
// were set by hand. Replace Centres to start from a belief about the best place.
func InchGrid(low, high float64) PlaceGrid {
	grid := PlaceGrid{
		Peaks: []WeightedValue{
			{.4, .5}, {.475, .8}, {.55, 1}, {.6, 1}, {.65, 1}, {.7, 1}, {.775, .8}, {.85, .5},
		},
		Widths:  []WeightedValue{{1.5, 1}, {2, 1}, {2.75, 1}, {3.75, 1}, {5, 1}, {7, 1}},
		Centres: EvenlySpaced(low, high, .5),
	}
	for _, place := range EvenlySpaced(low, high, 1) {
		grid.Places = append(grid.Places, place.Value)
	}
	return grid
}

// The shape shared by all curves of a PlaceGrid.
const (
	curveBend  = 0.8
	curveFloor = -3.5
)

// PlaceCurve learns how the rate of makes depends on the place, from sets played
// at a few places. Making one computes tables; afterwards it is never changed and
// may be shared by many students at once.
type PlaceCurve struct {
	places []float64
	curves []rateCurve
	rows   []placeRow // by place
}

// rateCurve is one combination of the grid.
type rateCurve struct {
	peakLogit, width, centre float64
	logPrior                 float64
	// best and alsoBest are the places nearest to the centre, the same place
	// twice unless two are equally near.
	best, alsoBest int
	// top is the rate at the best place.
	top float64
}

// placeRow holds what every curve says of one place.
type placeRow struct {
	rate, logMake, logMiss []float64
	// rising are the curves in the order of their rates; only a place of the grid has them.
	rising []int
}

// NewPlaceCurve computes the tables for a grid. It refuses a grid that has no
// places or no curve, a peak that is not between 0 and 1, and a width that is not
// positive.
func NewPlaceCurve(grid PlaceGrid) (*PlaceCurve, error) {
	if len(grid.Places) == 0 {
		return nil, errors.New("place curve: there is no place to choose from")
	}
	c := &PlaceCurve{places: slices.Sorted(slices.Values(grid.Places))}
	for _, place := range c.places {
		if math.IsNaN(place - place) {
			return nil, fmt.Errorf("place curve: %g is no place", place)
		}
	}
	if err := c.addCurves(grid); err != nil {
		return nil, err
	}
	for i, place := range c.places {
		r := c.computeRow(place)
		r.rising = r.risingCurves()
		c.rows = append(c.rows, r)
		for h := range c.curves {
			c.curves[h].top = max(c.curves[h].top, c.rows[i].rate[h])
		}
	}
	return c, nil
}

// addCurves lists every combination that has any weight.
func (c *PlaceCurve) addCurves(grid PlaceGrid) error {
	for _, peak := range grid.Peaks {
		if !(peak.Value > 0 && peak.Value < 1) {
			return fmt.Errorf("place curve: a best rate of %g is not between 0 and 1", peak.Value)
		}
		for _, width := range grid.Widths {
			if !(width.Value > 0) {
				return fmt.Errorf("place curve: a width of %g is not above 0", width.Value)
			}
			for _, centre := range grid.Centres {
				weight := peak.Weight * width.Weight * centre.Weight
				if !(weight > 0) || math.IsNaN(centre.Value-centre.Value) {
					continue
				}
				best, also := c.nearestPlaces(centre.Value)
				c.curves = append(c.curves, rateCurve{
					peakLogit: math.Log(peak.Value / (1 - peak.Value)),
					width:     width.Value, centre: centre.Value, logPrior: math.Log(weight),
					best: best, alsoBest: also,
				})
			}
		}
	}
	if len(c.curves) == 0 {
		return errors.New("place curve: no combination of peak, width and centre has any weight")
	}
	return nil
}

// computeRow computes what every curve says of a place.
func (c *PlaceCurve) computeRow(place float64) placeRow {
	n := len(c.curves)
	room := make([]float64, 3*n)
	r := placeRow{rate: room[:n:n], logMake: room[n : 2*n : 2*n], logMiss: room[2*n:]}
	for h, curve := range c.curves {
		off := (place - curve.centre) / curve.width
		logit := max(curve.peakLogit-curveBend*off*off, curveFloor)
		r.rate[h] = 1 / (1 + math.Exp(-logit))
		r.logMake[h] = -math.Log1p(math.Exp(-logit))
		r.logMiss[h] = r.logMake[h] - logit
	}
	return r
}

func (r placeRow) risingCurves() []int {
	all := make([]int, len(r.rate))
	for h := range all {
		all[h] = h
	}
	slices.SortFunc(all, func(a, b int) int { return cmp.Compare(r.rate[a], r.rate[b]) })
	return all
}

// rowFor returns the table of a place, computed afresh for a place off the grid.
func (c *PlaceCurve) rowFor(place float64) placeRow {
	if i, found := slices.BinarySearch(c.places, place); found {
		return c.rows[i]
	}
	return c.computeRow(place)
}

// nearestPlaces returns the index of the place nearest to x, and the second index where
// two places are equally near (the same one otherwise).
func (c *PlaceCurve) nearestPlaces(x float64) (first, second int) {
	after, _ := slices.BinarySearch(c.places, x)
	if after == 0 {
		return 0, 0
	}
	if after == len(c.places) {
		return after - 1, after - 1
	}
	below, above := x-c.places[after-1], c.places[after]-x
	switch {
	case below < above:
		return after - 1, after - 1
	case above < below:
		return after, after
	}
	return after - 1, after
}
