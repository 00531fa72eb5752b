package belief

import (
	"math"

	"breakwright/internal/drill"
	"breakwright/internal/response"
	"breakwright/internal/table"
)

// unknownSpeed stands for a speed that was neither told nor measured.
const unknownSpeed table.Mph = 17

// strokeOf is what a hand makes of a setup, in the grains of strokes.
func strokeOf(h Hand, s drill.Setup, k table.Kind) response.Stroke {
	speed := s.Speed
	if speed == 0 {
		speed = unknownSpeed
	}
	out := table.FlipSign(s.Cue.X) + h.Place
	tip := min(max(float64(s.Tip)+h.Tip, -0.48), 0.45)
	room := math.Sqrt(max(0, 0.25-tip*tip)) // beyond half a radius the tip slips
	return response.Stroke{
		Out:      toGrain(min(max(out, -4), k.Width()/2-1), placeGrain),
		Behind:   toGrain(min(max(k.HeadString()-s.Cue.Y, 0), drill.FurthestBehind), behindGrain),
		Contact:  toGrain(min(max(s.Contact+h.Contact, -1.3), 1.3), contactGrain),
		Tip:      toGrain(tip, tipGrain),
		Spin:     toGrain(min(max(float64(s.Spin)+h.Spin, -room), room), spinGrain),
		Speed:    toGrain(min(max(speed+h.Speed, 7), 27), speedGrain),
		Unsteady: h.Unsteady, Gap: h.Gap,
	}
}

// prediction is what one stroke shows, and what it is worth by parts.
type prediction struct {
	chances response.Response
	parts   Parts
}

// strokeKey tells strokes apart: everything that the response depends on.
type strokeKey struct {
	stroke response.Stroke
	rack   response.Rack
	feet   int
	mouth  table.Inches
}

// mostPredictions take some 30 MB.
const mostPredictions = 60_000

var predictions = newCache[strokeKey, *prediction](mostPredictions)

func predict(h Hand, s drill.Setup, r response.Rack, k table.Kind) *prediction {
	key := strokeKey{strokeOf(h, s, k), r, k.Feet, toGrain(k.CornerMouth, mouthGrain)}
	return predictions.findOrCompute(key, func() *prediction {
		kind := k
		kind.CornerMouth = key.mouth
		chances := response.Predict(key.stroke, r, kind)
		return &prediction{chances, partsOf(chances)}
	})
}
