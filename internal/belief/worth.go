package belief

import (
	"math"
	"slices"

	"breakwright/internal/response"
)

// Parts are the chances of what a break's worth is made of.
type Parts struct {
	Down     float64 // a ball down, no scratch, nothing off the table
	OpenShot float64 // an open shot on the lowest ball
	Scratch  float64
	CueOff   float64 // the cue ball off the table
	Weak     float64 // short of the rules' four rails
	Short    float64 // short of the three-point rule
	Wing     float64 // the wing ball in its corner
	Middle   float64 // the cue ball at rest between head string and centre
}

// Towards returns the chances so much of the way toward others, and no further than chances
// go.
func (p Parts) Towards(others Parts, way float64) Parts {
	for _, part := range partList {
		from, to := part.chance(&p), part.chance(&others)
		*from = min(max(*from+way*(*to-*from), 0), 1)
	}
	return p
}

// Weights are what each part of a break is worth.
type Weights struct {
	Down, OpenShot, Scratch, CueOff, Weak, Wing, Middle float64
	// Short is for rooms that play the three-point rule.
	Short float64
}

// StandardWeights: a legal break with a ball down is worth 1 and an open shot
// another; a scratch, a foul of a weak break and a ball on the floor cost. The
// wing ball and the cue ball's rest are routes to these, and what a drill asks a
// student to watch: they count a little for themselves (choices of this program,
// no source).
func StandardWeights() Weights {
	return Weights{Down: 1, OpenShot: 1, Scratch: -1, CueOff: -2, Weak: -1, Wing: 0.3, Middle: 0.3}
}

// partList says which outcomes' chances make up each part, all of one fact, and what weighs
// it.
var partList = []struct {
	chance  func(*Parts) *float64
	weight  func(Weights) float64
	fact    response.Fact
	indexes []int
}{
	{func(p *Parts) *float64 { return &p.Down }, func(w Weights) float64 { return w.Down }, response.Down, []int{response.Index(response.Down, 1)}},
	{func(p *Parts) *float64 { return &p.OpenShot }, func(w Weights) float64 { return w.OpenShot }, response.OpenShot, []int{response.Index(response.OpenShot, 1)}},
	{func(p *Parts) *float64 { return &p.Scratch }, func(w Weights) float64 { return w.Scratch }, response.Scratch, []int{response.Index(response.Scratch, 1)}},
	{func(p *Parts) *float64 { return &p.CueOff }, func(w Weights) float64 { return w.CueOff }, response.Cue, []int{response.Index(response.Cue, response.CueOff)}},
	{func(p *Parts) *float64 { return &p.Weak }, func(w Weights) float64 { return w.Weak }, response.Weak, []int{response.Index(response.Weak, 1)}},
	{func(p *Parts) *float64 { return &p.Short }, func(w Weights) float64 { return w.Short }, response.ThreePoint, []int{response.Index(response.ThreePoint, 0)}},
	{func(p *Parts) *float64 { return &p.Wing }, func(w Weights) float64 { return w.Wing }, response.Wing, []int{response.Index(response.Wing, response.WingMade)}},
	{func(p *Parts) *float64 { return &p.Middle }, func(w Weights) float64 { return w.Middle }, response.Cue, response.MiddleOutcomes()},
}

// outcomeWorths returns what every outcome is worth.
func (w Weights) outcomeWorths() []float32 {
	worths := make([]float32, response.OutputCount())
	for _, part := range partList {
		for _, index := range part.indexes {
			worths[index] += float32(part.weight(w))
		}
	}
	return worths
}

// outcomeRange is where the outcomes of a fact stand.
type outcomeRange struct{ from, to int }

// valuedFacts are those of whose outcomes a worth is made, each once.
var valuedFacts = func() (ranges []outcomeRange) {
	for _, part := range partList {
		from, to := response.OutcomesOf(part.fact)
		if of := (outcomeRange{from, to}); !slices.Contains(ranges, of) {
			ranges = append(ranges, of)
		}
	}
	return ranges
}()

// Effect is what a change of setup would bring, a break.
type Effect struct {
	// Gain is the expected gain in worth; Help and Harm are the chances that it
	// is more than LeastGain, or less than minus that, on a table like this one.
	Gain, Help, Harm float64
	// SoundGain is the expected gain for hands with nothing amiss; 0 when these are
	// as good as ruled out.
	SoundGain float64
}

// effectSum adds up what a change brings, hand by hand.
type effectSum struct {
	Effect
	sound float64 // the weight of hands with nothing amiss
}

// add adds what one hand of a weight would gain.
func (e *effectSum) add(weight, gain float64, isSound bool) {
	e.Gain += weight * gain
	e.Help += weight * normalCDF((gain-LeastGain)/gainSpread)
	e.Harm += weight * normalCDF((-gain-LeastGain)/gainSpread)
	if isSound {
		e.SoundGain += weight * gain
		e.sound += weight
	}
}

// breaks reports whether the limits are broken, whatever the hands to come gain: whole
// is the weight of all, rest that of those to come.
func (e *effectSum) breaks(keep Limits, whole, rest float64) bool {
	return e.Help+rest < keep.LeastHelp*whole || e.Harm > keep.MostHarm*whole
}

// mean makes means of sums: whole is the weight of all hands.
func (e *effectSum) mean(whole float64) Effect {
	m := Effect{Gain: e.Gain / whole, Help: e.Help / whole, Harm: e.Harm / whole}
	if e.sound > 0 {
		m.SoundGain = e.SoundGain / e.sound
	}
	return m
}

// LeastGain is the smallest gain that helps.
const LeastGain = 0.05

// gainSpread is the standard deviation of what a change really gains, from what the response
// model says of the same hands: tables and hands differ in more than it knows. (Measured on
// sixty computed students a rack at ten tables with moved constants, over 600 breaks under
// each setup, at nine-ball with the head ball on the spot and at ten-ball: 0.07 to 0.12 a
// break for four and ten inches of place, 0.09 to 0.14 for three tenths of contact or tip,
// 0.09 to 0.18 for 3 mph, of each of which about 0.05 is an error of counting;
// internal/rehearsal has the hit rates that follow.)
const gainSpread = 0.12

// normalCDF is the chance that a standard normal variable stays below z.
func normalCDF(z float64) float64 {
	const flat = 7 // beyond which it is 0 or 1, to 1e-12
	switch {
	case z > flat:
		return 1
	case z < -flat:
		return 0
	}
	return math.Erfc(-z/math.Sqrt2) / 2
}
