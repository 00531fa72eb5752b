package belief

import (
	"math"

	"breakwright/internal/drill"
	"breakwright/internal/response"
	"breakwright/internal/table"
)

// Shown is what breaks of one rack showed, beside what they were expected to: how often
// each outcome was seen, and how often it would have been with anybody who was told
// the same, by the Index of package response. Of many students' breaks it says how a
// club's tables, cloth and balls differ from the computed ones: what is seen more
// often of everybody is nobody's stroke.
//
// The zero Shown is of no breaks.
type Shown struct{ Seen, Expected []float64 }

// Show counts the breaks of a set, setup and breaks in the frame of a break from the
// left, of a rack that is known.
func Show(r response.Rack, k table.Kind, setup drill.Setup, breaks []drill.Break) Shown {
	s := Shown{make([]float64, response.Width), make([]float64, response.Width)}
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
	ordinary := expectedOfAnybody(r, k, setup)
	for index := range response.OutputCount() {
		f, _ := response.FactAt(index)
		s.Expected[index] = perFact[f] * ordinary[index]
	}
	s.share(ordinary)
	s.round()
	return s
}

// round makes every count a multiple of a millionth or so, so that sums of them are
// exact: students can be added in any order and taken out again.
func (s *Shown) round() {
	const grain = 1 << 20
	for i := range s.Seen {
		s.Seen[i] = math.Round(s.Seen[i]*grain) / grain
		s.Expected[i] = math.Round(s.Expected[i]*grain) / grain
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
		s.Seen, s.Expected = make([]float64, response.Width), make([]float64, response.Width)
	}
	for i := range other.Seen {
		s.Seen[i] += times * other.Seen[i]
		s.Expected[i] += times * other.Expected[i]
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
	for i := range s.Seen {
		s.Seen[i] *= mostOfOne / breaks
		s.Expected[i] *= mostOfOne / breaks
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

// steadiness is how many breaks more of an outcome are put to what was expected, so
// that a few breaks of a few students turn nothing.
const steadiness = 5

// departure is how much likelier than computed each outcome is in a club, as a factor and
// as its logarithm.
type departure struct {
	factors response.Response
	logs    []float64
}

// departure returns nil where nothing was shown.
func (s *Shown) departure() *departure {
	if !s.HasBreaks() {
		return nil
	}
	d := departure{make(response.Response, response.OutputCount()), make([]float64, response.OutputCount())}
	for i := range d.factors {
		factor := (s.Seen[i] + steadiness) / (s.Expected[i] + steadiness)
		d.factors[i], d.logs[i] = float32(factor), math.Log(factor)
	}
	return &d
}

// setupKey is everything of a setup and a table that what is expected depends on.
type setupKey struct {
	cue       table.Place
	contact   table.Inches
	tip, spin float64
	speed     table.Mph
	rack      response.Rack
	kind      table.Kind
}

const mostExpected = 4_000

var expectations = newCache[setupKey, []float64](1, mostExpected)

// expectedOfAnybody returns the mean chance of every outcome under a setup, before a break
// was seen.
func expectedOfAnybody(r response.Rack, k table.Kind, s drill.Setup) []float64 {
	key := setupKey{s.Cue, s.Contact, float64(s.Tip), float64(s.Spin), s.Speed, r, k}
	return expectations.findOrCompute(key, func() []float64 { return meanOfCloud(r, k, s) })
}

// handsSkipped is one of how many hands of the cloud is asked what is expected of
// anybody: a mean needs no more.
const handsSkipped = 5

func meanOfCloud(r response.Rack, k table.Kind, setup drill.Setup) []float64 {
	instructed := instructedSteps(setup, k)
	var strokes []response.Stroke
	for i := 0; i < len(cloud); i += handsSkipped {
		strokes = append(strokes, instructed.with(cloud[i].steps, k).stroke())
	}
	shown := response.PredictAll(strokes, r, k)
	shares, total := make([]float64, response.Width), 0.0
	for n := range strokes {
		weight := math.Exp(cloud[n*handsSkipped].logPrior)
		total += weight
		for index, chance := range shown.Of(n) {
			shares[index] += weight * float64(chance)
		}
	}
	for index := range shares {
		shares[index] /= total
	}
	return shares
}
