package belief

import (
	"cmp"
	"math"
	"slices"
	"sync/atomic"

	"breakwright/internal/drill"
	"breakwright/internal/memo"
	"breakwright/internal/response"
	"breakwright/internal/table"
)

// The grains in which strokes are told apart: finer makes no difference that
// twenty breaks could show, and equal strokes are looked up, not computed again.
const (
	placeGrain    table.Inches = 0.5
	behindGrain   table.Inches = 2
	contactGrain  table.Inches = 0.05
	tipGrain                   = 0.05
	spinGrain                  = 0.1
	speedGrain    table.Mph    = 1
	unsteadyGrain              = 0.3 // of the logarithm
	mouthGrain    table.Inches = 0.125
)

// ordinaryGap is how loosely the balls stand in a rack as it should be; looser racks
// are gapSizes steps from leastGap to four times that.
const (
	ordinaryGap table.Inches = 0.003
	leastGap    table.Inches = 0.007
	gapSizes                 = 8
)

// steps are the parts of a stroke, or of what is told or a hand adds to it, in whole
// grains. Of gap, 0 is a rack as it should be; widening is that of Hand.
type steps struct {
	out, behind, contact, tip, spin, speed, unsteady, gap int16

	widening float64
}

func stepsOf[T ~float32 | ~float64](v, grain T) int16 { return int16(math.Round(float64(v / grain))) }

func ofSteps[T ~float32 | ~float64](n int16, grain T) T { return T(n) * grain }

// unsteadyOf is the factor of so many steps.
func unsteadyOf(n int16) float64 { return math.Exp(ofSteps(n, unsteadyGrain)) }

// gapOf is the gap of so many steps.
func gapOf(n int16) table.Inches {
	if n == 0 {
		return ordinaryGap
	}
	return leastGap * table.Inches(math.Pow(4, float64(n-1)/gapSizes))
}

// unknownSpeed stands for a speed that was neither told nor measured.
const unknownSpeed table.Mph = 17

// instructedSpeed is the speed of a setup, or what stands for it.
func instructedSpeed(s drill.Setup) table.Mph { return cmp.Or(s.Speed, unknownSpeed) }

// instructedSteps are those of a setup on a kind of table.
func instructedSteps(s drill.Setup, k table.Kind) steps {
	return steps{
		out:     stepsOf(table.FlipSign(s.Cue.X), placeGrain),
		behind:  stepsOf(min(max(k.HeadString()-s.Cue.Y, 0), drill.FurthestBehind), behindGrain),
		contact: stepsOf(s.Contact, contactGrain), tip: stepsOf(float64(s.Tip), tipGrain),
		spin: stepsOf(float64(s.Spin), spinGrain), speed: stepsOf(instructedSpeed(s), speedGrain),
	}
}

// What a stroke can be, in steps.
var (
	leastOut, mostContact = stepsOf(table.Inches(-4), placeGrain), stepsOf(table.Inches(1.3), contactGrain)
	leastTip, mostTip     = stepsOf(-0.48, tipGrain), stepsOf(0.45, tipGrain)
	leastSpeed, mostSpeed = stepsOf(table.Mph(7), speedGrain), stepsOf(table.Mph(27), speedGrain)
	mostUnsteady          = stepsOf(1.7, unsteadyGrain)
)

// with returns what a hand makes of what is told, on a kind of table.
func (instructed steps) with(h steps, k table.Kind) steps {
	tip := min(max(instructed.tip+h.tip, leastTip), mostTip)
	room := mostSpin(tip)
	speed := min(max(instructed.speed+h.speed, leastSpeed), mostSpeed)
	return steps{
		out:     min(max(instructed.out+h.out, leastOut), int16(math.Floor(float64((k.Width()/2-1)/placeGrain)))),
		behind:  instructed.behind,
		contact: min(max(instructed.contact+h.contact, -mostContact), mostContact),
		tip:     tip, spin: min(max(instructed.spin+h.spin, -room), room),
		speed: speed, unsteady: h.unsteadyAt(speed), gap: h.gap,
	}
}

// unsteadyAt returns how a hand scatters at a speed; slowing down makes nobody steadier
// than is ordinary.
func (h steps) unsteadyAt(speed int16) int16 {
	if h.widening == 0 {
		return h.unsteady
	}
	faster := float64(ofSteps(speed, speedGrain) - unknownSpeed)
	wider := ofSteps(h.unsteady, unsteadyGrain) + h.widening*faster
	return min(max(stepsOf(wider, unsteadyGrain), 0), mostUnsteady)
}

// mostSpin returns how far across the tip may strike at a height: beyond half a radius
// from the middle it slips.
func mostSpin(tip int16) int16 {
	height := ofSteps(tip, tipGrain)
	return stepsOf(math.Sqrt(max(0, 0.25-height*height)), spinGrain)
}

// stroke is what really happens.
func (s steps) stroke() response.Stroke {
	return response.Stroke{
		Out: ofSteps(s.out, placeGrain), Behind: ofSteps(s.behind, behindGrain),
		Contact: ofSteps(s.contact, contactGrain),
		Tip:     ofSteps(s.tip, tipGrain), Spin: ofSteps(s.spin, spinGrain), Speed: ofSteps(s.speed, speedGrain),
		Unsteady: unsteadyOf(s.unsteady), Gap: gapOf(s.gap),
	}
}

// prediction is what one stroke shows: the chance of every outcome.
type prediction struct{ chances []float32 }

// situationKey tells setups on racks and tables apart: everything that the response
// depends on but the hand.
type situationKey struct {
	instructed          steps
	rack, length, mouth int16
	character           characterBelief
}

// The room that a prediction takes, that a situation takes of which nothing was asked yet,
// and that of all that are kept, in bytes: what a class of a thousand asks for who were
// told two hundred setups.
const (
	predictionBytes = 500
	predictedBytes  = 600 // one of all that are computed together
	situationBytes  = 4_500
	mostBytes       = 130_000_000
)

var situations = memo.New[situationKey, *situation](situationBytes, mostBytes)

// situation is a setup that was told, with a rack on a kind of table, and what each hand
// of the cloud makes of it, as far as it was asked.
type situation struct {
	instructed steps
	rack       response.Rack
	kind       table.Kind
	character  characterBelief
	hands      []atomic.Pointer[prediction]
	// all is what every hand shows, where breaks were seen.
	all atomic.Pointer[response.Predictions]
	// locals is that on tables that depart, worths what it is worth there.
	locals *memo.Memo[*departure, *localPredictions]
	worths *memo.Memo[worthKey, *situationWorth]
}

func situationOf(setup drill.Setup, r response.Rack, k table.Kind, c characterBelief) *situation {
	mouth := stepsOf(k.CornerMouth, mouthGrain)
	k.CornerMouth = ofSteps(mouth, mouthGrain)
	key := situationKey{instructedSteps(setup, k), int16(slices.Index(response.Racks(), r)), int16(k.Length()), mouth, c}
	return situations.FindOrCompute(key, func() *situation {
		return &situation{
			instructed: key.instructed, rack: r, kind: k, character: c, hands: make([]atomic.Pointer[prediction], len(cloud)),
			locals: memo.New[*departure, *localPredictions](0, 0), worths: memo.New[worthKey, *situationWorth](0, 0),
		}
	})
}

// predict returns what a hand of the cloud makes of it. Two who ask at once compute the
// same twice.
func (s *situation) predict(hand int) *prediction {
	if p := s.hands[hand].Load(); p != nil {
		return p
	}
	p := &prediction{s.compute(hand)[:response.OutputCount()]}
	s.hands[hand].Store(p)
	situations.TakeRoom(predictionBytes)
	return p
}

func (s *situation) compute(hand int) response.Response {
	if all := s.all.Load(); all != nil {
		return all.Of(hand)
	}
	return response.Predict(s.stroke(hand), s.rack, s.kind)
}

// stroke is what a hand of the cloud makes of what is told.
func (s *situation) stroke(hand int) response.Stroke {
	h := &cloud[hand]
	stroke := s.instructed.with(h.steps, s.kind).stroke()
	stroke.Table = s.character.character(&h.Hand)
	return stroke
}

// predictAll returns what every hand of the cloud makes of it.
func (s *situation) predictAll() *response.Predictions {
	if all := s.all.Load(); all != nil {
		return all
	}
	strokes := make([]response.Stroke, len(cloud))
	for i := range cloud {
		strokes[i] = s.stroke(i)
	}
	all := response.PredictAll(strokes, s.rack, s.kind)
	s.all.Store(all)
	situations.TakeRoom(int64(len(cloud) * predictedBytes))
	return all
}
