package fit

import (
	"fmt"
	"math"
	"math/rand/v2"

	"breakwright/internal/breaksim"
	"breakwright/internal/drill"
	"breakwright/internal/table"
)

// drawConditions draws what is known of neither hands nor table: what is not the stroke's
// contact and height. All ranges are assumptions; those of the model's constants
// lie within what its listing calls plausible.
func drawConditions(s drill.Setup, rng *rand.Rand) (breaksim.ModelParams, breaksim.BreakInput) {
	p := breaksim.Defaults()
	between := func(low, high float64) float64 { return low + (high-low)*rng.Float64() }
	p.Slide, p.Roll = between(0.15, 0.3), between(0.007, 0.013)
	p.CushionLively, p.Restitution = between(0.84, 0.96), between(0.93, 0.97)
	speed := s.Speed
	if speed == 0 {
		speed = drill.UsualSpeed
	}
	return p, breaksim.BreakInput{
		Game: s.Game, Spot: s.Spot, Order: s.Order, Side: s.Side, Cue: s.Cue, Contact: s.Contact,
		Tip: breaksim.RadiusFraction(s.Tip), Spin: breaksim.RadiusFraction(s.Spin),
		Speed:     speed + table.Mph(0.7*rng.NormFloat64()),
		Elevation: breaksim.Degrees(between(0, 4)),
		Scatter:   breaksim.StrokeScatter{Speed: 0.4, Place: 0.2, Gap: table.Inches(between(0.001, 0.005))},
	}
}

// strokeSpread is the distribution from which a bank draws one part of its strokes: a
// narrow normal one in most, a wide one in the rest, so that no hands on the
// grid are without breaks.
type strokeSpread struct{ narrow, wide float64 }

const wideShare = 0.3

func (s strokeSpread) drawError(rng *rand.Rand) float64 {
	sd := s.narrow
	if rng.Float64() < wideShare {
		sd = s.wide
	}
	return sd * rng.NormFloat64()
}

func (s strokeSpread) densityAt(x float64) float64 {
	return (1-wideShare)*normalDensity(x, 0, s.narrow) + wideShare*normalDensity(x, 0, s.wide)
}

func normalDensity(x, mean, sd float64) float64 {
	z := (x - mean) / sd
	return math.Exp(-z*z/2) / sd // without the factor that all have
}

// drawContact is how far from the contact asked for; drawTip and drawPlace how far
// from height and place.
var (
	drawContact = strokeSpread{0.3, 0.8}
	drawTip     = strokeSpread{0.1, 0.2}
	drawPlace   = strokeSpread{2.5, 5}
)

// Further out the tip slips, and the head ball is missed.
const (
	furthestTip     = 0.5
	furthestContact = 2
)

// varyStroke carries a draw out. It says false for one that cannot be.
func (b *BreakBank) varyStroke(in *breaksim.BreakInput, contact, other float64, rng *rand.Rand) bool {
	in.Contact += table.Inches(contact)
	if b.moves == place {
		in.Cue.X += table.Inches(other)
		other = usualTipScatter * rng.NormFloat64()
		if at := b.kind.SettleBall(in.Cue); at != in.Cue {
			return false
		}
	}
	in.Tip += breaksim.RadiusFraction(other)
	return math.Abs(float64(in.Contact)) < furthestContact && math.Hypot(float64(in.Tip), float64(in.Spin)) <= furthestTip
}

// breaksPerConditions is how many breaks are made in one room.
const breaksPerConditions = 20

// newTable makes a table with these constants.
func (b *BreakBank) newTable(p breaksim.ModelParams) (*breaksim.Table, error) {
	t, err := breaksim.NewTable(p, b.kind)
	if err != nil {
		return nil, fmt.Errorf("fit: %w", err)
	}
	return t, nil
}
