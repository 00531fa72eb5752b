package belief

import (
	"fmt"
	"math"

	"breakwright/internal/drill"
	"breakwright/internal/memo"
	"breakwright/internal/response"
)

// TablesPlay returns how the tables play that the breaks were struck on, as NewStudent
// takes it.
func (s *Shown) TablesPlay() drill.TablesPlay {
	if !s.HasBreaks() {
		return drill.TablesPlay{}
	}
	c, breaks := s.character(), int(math.Ceil(s.breaks()))
	return drill.TablesPlay{Breaks: breaks, Character: widen(c.mean[:]), Spread: widen(c.spread[:]), Departures: s.departures(c)}
}

func widen(steps []int16) []int {
	wide := make([]int, len(steps))
	for i, n := range steps {
		wide[i] = int(n)
	}
	return wide
}

// canRead reports whether others' breaks showed anything, and it is of as many numbers as
// this model has: what was kept of another is of no use.
func canRead(t drill.TablesPlay) bool {
	return t.IsKnown() && len(t.Character) == response.CharacterSize && len(t.Spread) == response.CharacterSize &&
		len(t.Departures) == response.OutputCount()
}

// characterOf returns the character of tables that can be read.
func characterOf(t drill.TablesPlay) (c characterBelief) {
	for i := range c.mean {
		c.mean[i], c.spread[i] = int16(t.Character[i]), int16(t.Spread[i])
	}
	return c
}

// departure is how much likelier each outcome is in a club than computed for tables of their
// character, as a factor and as its logarithm.
type departure struct {
	factors response.Response
	logs    []float32
}

// departureGrain is how finely a departure is kept, as a logarithm.
const departureGrain = 1.0 / 20

// mostDepartures of a kilobyte each.
const mostDepartures = 1_000

// departures are kept, so that tables that depart alike are one.
var departures = memo.New[string, *departure](1, mostDepartures)

// departureOf returns that of tables that can be read.
func departureOf(t drill.TablesPlay) *departure {
	return departures.FindOrCompute(fmt.Sprint(t.Departures), func() *departure {
		d := &departure{make(response.Response, len(t.Departures)), make([]float32, len(t.Departures))}
		for i, n := range t.Departures {
			d.logs[i] = float32(n) * departureGrain
			d.factors[i] = float32(math.Exp(float64(n) * departureGrain))
		}
		return d
	})
}

// steadiness is how many breaks more of an outcome are put to what was expected, so
// that a few breaks of a few students turn nothing.
const steadiness = 15

// departures returns how the breaks depart from those on tables of a character, in grains.
func (s *Shown) departures(from characterBelief) []int {
	grains := make([]int, response.OutputCount())
	for i := range grains {
		expected := s.Expected[i]
		for j, mean := range from.middle() {
			expected += float64(mean) * s.Slopes[j][i]
		}
		factor := (s.Seen[i] + steadiness) / (max(expected, 0) + steadiness)
		grains[i] = int(math.Round(math.Log(factor) / departureGrain))
	}
	return grains
}
