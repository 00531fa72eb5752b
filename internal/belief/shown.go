package belief

import (
	"math"

	"breakwright/internal/drill"
	"breakwright/internal/memo"
	"breakwright/internal/response"
	"breakwright/internal/table"
)

// Shown is what breaks of one rack showed, beside what they were expected to: how often
// each outcome was seen, and how often it would have been with anybody who was told
// the same, by the Index of package response. Of many students' breaks it says how a
// club's tables, cloth and balls differ from the computed ones: what is seen more
// often of everybody is nobody's stroke.
//
// Slopes is how much oftener each would be expected with a table's character a standard
// deviation further on in each of its numbers.
//
// The zero Shown is of no breaks.
type Shown struct {
	Seen, Expected []float64
	Slopes         [response.CharacterSize][]float64
}

func newShown() (s Shown) {
	counts := make([]float64, (2+response.CharacterSize)*response.Width)
	take := func() []float64 {
		list := counts[:response.Width:response.Width]
		counts = counts[response.Width:]
		return list
	}
	s.Seen, s.Expected = take(), take()
	for i := range s.Slopes {
		s.Slopes[i] = take()
	}
	return s
}

// lists are all its counts.
func (s *Shown) lists() [][]float64 {
	return append([][]float64{s.Seen, s.Expected}, s.Slopes[:]...)
}

// Show counts the breaks of a set, setup and breaks in the frame of a break from the
// left, of a rack that is known.
func Show(r response.Rack, k table.Kind, setup drill.Setup, breaks []drill.Break) Shown {
	s := newShown()
	perFact := [response.FactCount]float64{}
	note := func(f response.Fact, index int, weight float64) {
		s.Seen[index] += weight
		perFact[f] += weight
	}
	var seen []response.Seen
	for i := range breaks {
		seen = response.Observe(&breaks[i], setup, k, seen[:0])
		for _, o := range seen {
			note(o.Fact, o.Index, float64(o.Weight))
		}
		for _, o := range response.Results(&breaks[i]) {
			note(o.Fact, o.Index, 1)
		}
	}
	anybody := expectedOfAnybody(r, k, setup)
	for index := range response.OutputCount() {
		f, _ := response.FactAt(index)
		s.Expected[index] = perFact[f] * anybody.chances[index]
		for i, slope := range anybody.slopes {
			s.Slopes[i][index] = perFact[f] * slope[index]
		}
	}
	s.share(anybody.chances)
	s.round()
	return s
}

// round makes every count a multiple of a millionth or so, so that sums of them are
// exact: students can be added in any order and taken out again.
func (s *Shown) round() {
	const grain = 1 << 20
	for _, list := range s.lists() {
		for i := range list {
			list[i] = math.Round(list[i]*grain) / grain
		}
	}
}

// share gives outcomes of which less was seen to those they may have been, as these
// were expected.
func (s *Shown) share(ordinary []float64) {
	for index := response.OutputCount(); index < response.Width; index++ {
		count := s.Seen[index]
		s.Seen[index] = 0
		if count == 0 {
			continue
		}
		whole := 0.0
		for _, part := range response.PartsOf(index) {
			whole += ordinary[part]
		}
		for _, part := range response.PartsOf(index) {
			s.Seen[part] += count * ordinary[part] / whole
		}
	}
}

// Add adds what other breaks of the same rack showed.
func (s *Shown) Add(other Shown) { s.addTimes(other, 1) }

// Subtract takes what some of its breaks showed out again.
func (s *Shown) Subtract(other Shown) { s.addTimes(other, -1) }

func (s *Shown) addTimes(other Shown, times float64) {
	if s.Seen == nil {
		*s = newShown()
	}
	sums := s.lists()
	for n, list := range other.lists() {
		for i, count := range list {
			sums[n][i] += times * count
		}
	}
}

// mostOfOne is how many breaks of one student count: nobody is to stand for a club.
const mostOfOne = 20

// Limit makes the breaks of one student count for no more than mostOfOne.
func (s *Shown) Limit() {
	breaks := s.breaks()
	if breaks <= mostOfOne {
		return
	}
	for _, list := range s.lists() {
		for i := range list {
			list[i] *= mostOfOne / breaks
		}
	}
	s.round()
}

// breaks is how many breaks were counted: each was a scratch or none.
func (s *Shown) breaks() float64 {
	if s.Seen == nil {
		return 0
	}
	return s.Seen[response.Index(response.Scratch, 0)] + s.Seen[response.Index(response.Scratch, 1)]
}

// HasBreaks reports whether any breaks were counted.
func (s *Shown) HasBreaks() bool { return s.breaks() > 0 }

// anybodysBreak is what is expected of anybody under a setup, before a break was seen: the
// mean chance of every outcome, and how much more it is with each number of a table's
// character a standard deviation further on.
type anybodysBreak struct {
	chances []float64
	slopes  [response.CharacterSize][]float64
}

// expectationKey is everything that it depends on.
type expectationKey struct {
	instructed steps
	rack       response.Rack
	kind       table.Kind
}

const mostExpected = 2_000

var expectations = memo.New[expectationKey, *anybodysBreak](1, mostExpected)

func expectedOfAnybody(r response.Rack, k table.Kind, s drill.Setup) *anybodysBreak {
	key := expectationKey{instructedSteps(s, k), r, k}
	return expectations.FindOrCompute(key, func() *anybodysBreak { return computeExpectation(key) })
}

// handsSkipped is one of how many hands of the cloud is asked what is expected of
// anybody, slopeHandsSkipped how that changes from table to table: a mean needs no more.
const (
	handsSkipped      = 7
	slopeHandsSkipped = 49
)

// slopeEnds are the characters between which a slope is taken, by its number: a standard
// deviation to either side, but of Instant, which goes one way, from 0 to 1.
func slopeEnds(number int) (from, to characterBelief, apart float64) {
	to.mean[number], apart = stepsOf(1, characterGrain), 1
	if number != response.Instant {
		from.mean[number], apart = -to.mean[number], 2
	}
	return from, to, apart
}

func computeExpectation(of expectationKey) *anybodysBreak {
	c := castOfHands{played: situation{instructed: of.instructed, rack: of.rack, kind: of.kind}}
	c.add(anyTable, handsSkipped)
	var aparts [response.CharacterSize]float64
	for i := range aparts {
		from, to, apart := slopeEnds(i)
		c.add(from, slopeHandsSkipped)
		c.add(to, slopeHandsSkipped)
		aparts[i] = apart
	}
	means := c.means()
	e := &anybodysBreak{chances: means[0]}
	for i, apart := range aparts {
		less, more := means[1+2*i], means[2+2*i]
		for index := range more {
			more[index] = (more[index] - less[index]) / apart
		}
		e.slopes[i] = more
	}
	return e
}

// castOfHands is groups of hands that are predicted together, which takes less time.
type castOfHands struct {
	played  situation
	strokes []response.Stroke
	weights []float64
	groups  []handGroup
}

// handGroup is where a group stands in its cast, and what its hands weigh together.
type handGroup struct {
	from, to int
	weight   float64
}

// add adds a group of one hand of the cloud in so many, on tables of a character.
func (c *castOfHands) add(character characterBelief, skipped int) {
	c.played.character = character
	group := handGroup{from: len(c.strokes)}
	for i := 0; i < len(cloud); i += skipped {
		weight := math.Exp(cloud[i].logPrior)
		c.strokes, c.weights = append(c.strokes, c.played.stroke(i)), append(c.weights, weight)
		group.weight += weight
	}
	group.to = len(c.strokes)
	c.groups = append(c.groups, group)
}

// means returns the mean chance of every outcome of each group.
func (c *castOfHands) means() [][]float64 {
	shown := response.PredictAll(c.strokes, c.played.rack, c.played.kind)
	means := make([][]float64, len(c.groups))
	for i := range means {
		means[i] = make([]float64, response.OutputCount())
	}
	chances := make([]float32, len(c.strokes))
	for index := range response.OutputCount() {
		shown.Chances(index, chances)
		for i, g := range c.groups {
			sum := 0.0
			for n, chance := range chances[g.from:g.to] {
				sum += c.weights[g.from+n] * float64(chance)
			}
			means[i][index] = sum / g.weight
		}
	}
	return means
}
