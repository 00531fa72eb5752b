package say

import (
	"context"
	"math"
	"strconv"

	"breakwright/internal/table"
)

// Units are those that lengths and speeds are said and typed in, by a club's
// choice. What is kept is in inches and miles an hour always.
type Units int

// The choices. The zero value is the trade's own.
const (
	InchesAndMiles Units = iota
	Metric               // centimetres, millimetres for what is below an inch, and kilometres an hour
)

type unitsKey struct{}

// WithUnits keeps the units of a page's reader in its context, where its pictures
// and words find them.
func WithUnits(ctx context.Context, u Units) context.Context {
	return context.WithValue(ctx, unitsKey{}, u)
}

// UnitsOf finds the units of a page's reader, the trade's own where none are kept.
func UnitsOf(ctx context.Context) Units {
	u, _ := ctx.Value(unitsKey{}).(Units)
	return u
}

// Quantity is what a number measures, which decides its unit and how finely it is
// said and typed.
type Quantity int

// The quantities.
const (
	Place   Quantity = iota // on the table: tenths of an inch, whole centimetres
	Contact                 // off a full hit: hundredths of an inch, millimetres
	Mouth                   // of a pocket: thousandths of an inch, as 4.125, tenths of a centimetre
	Gap                     // between racked balls: thousandths of an inch, hundredths of a millimetre
	Speed                   // tenths of a mile, whole kilometres an hour
)

// unit is how a measure is said in one of the two ways.
type unit struct {
	short, long, one string  // "in", "inches", "inch"
	size             float64 // how many make an inch, or a mile an hour
	grain            float64 // the finest that is said
}

func (u Units) unit(m Quantity) unit {
	metric := u == Metric
	switch {
	case m == Speed && metric:
		return unit{"km/h", "kilometres an hour", "kilometre an hour", table.Mph(1).KilometresPerHour(), 1}
	case m == Speed:
		return unit{"mph", "miles an hour", "mile an hour", 1, 0.1}
	case metric && m == Mouth:
		return unit{"cm", "centimetres", "centimetre", table.Inches(1).Centimetres(), 0.1}
	case m == Gap && metric:
		return unit{"mm", "millimetres", "millimetre", 10 * table.Inches(1).Centimetres(), 0.01}
	case m == Gap, m == Mouth:
		return unit{"in", "inches", "inch", 1, 0.001}
	case m == Contact && metric:
		return unit{"mm", "millimetres", "millimetre", 10 * table.Inches(1).Centimetres(), 1}
	case metric:
		return unit{"cm", "centimetres", "centimetre", table.Inches(1).Centimetres(), 1}
	case m == Place:
		return unit{"in", "inches", "inch", 1, 0.1}
	}
	return unit{"in", "inches", "inch", 1, 0.01}
}

// Short names the unit in a label or behind a number: "in", "cm", "mm", "mph".
func (u Units) Short(m Quantity) string { return u.unit(m).short }

// Long names the unit in a sentence: "inches", "miles an hour".
func (u Units) Long(m Quantity) string { return u.unit(m).long }

// Number writes a measured number without its unit, as fine as a coach says it.
func (u Units) Number(m Quantity, v float64) string {
	is := u.unit(m)
	return shortest(roundTo(v*is.size, is.grain))
}

// NumberBeside is Number for one end of a change: a difference that rounding would
// lose is said ten times as fine.
func (u Units) NumberBeside(m Quantity, v, other float64) string {
	is := u.unit(m)
	if v != other && roundTo(v*is.size, is.grain) == roundTo(other*is.size, is.grain) {
		return shortest(roundTo(v*is.size, is.grain/10))
	}
	return shortest(roundTo(v*is.size, is.grain))
}

// WithShort writes a measured number and its unit shortly: "18 in", "46 cm".
func (u Units) WithShort(m Quantity, v float64) string { return u.Number(m, v) + " " + u.Short(m) }

// Length writes a length in full, as it is read in a sentence: "18 inches", "1
// inch", "46 cm". A symbol serves the metric reader, who says it in full.
func (u Units) Length(v table.Inches) string { return u.inFull(Place, float64(v), float64(v)) }

// Contact writes how far off full a hit is: "0.2 inches", "5 mm".
func (u Units) Contact(v table.Inches) string { return u.ContactBeside(v, v) }

// ContactBeside writes how far off full a hit is beside the one at the other end of a
// change.
func (u Units) ContactBeside(v, other table.Inches) string {
	return u.inFull(Contact, float64(v), float64(other))
}

// inFull writes a length beside the other end of a change, as it is read in a sentence.
func (u Units) inFull(m Quantity, v, other float64) string {
	number := u.NumberBeside(m, v, other)
	switch {
	case u == Metric:
		return number + " " + u.Short(m)
	case number == "1":
		return "1 inch"
	}
	return number + " inches"
}

// Speed writes a speed: "18 mph", "29 km/h".
func (u Units) Speed(v table.Mph) string { return u.SpeedBeside(v, v) }

// SpeedBeside writes a speed beside the one at the other end of a change.
func (u Units) SpeedBeside(v, other table.Mph) string {
	return u.NumberBeside(Speed, float64(v), float64(other)) + " " + u.Short(Speed)
}

// typedGrain is how finely a field shows a number to be typed over: in the trade's
// units to a hundredth, in metric ones to a tenth.
func (u Units) typedGrain(m Quantity) float64 {
	switch {
	case u == Metric && m != Gap:
		return 0.1
	case m == Place, m == Contact, m == Speed:
		return 0.01
	}
	return u.unit(m).grain
}

// InOne is how many of the units make an inch, or a mile an hour.
func (u Units) InOne(m Quantity) float64 { return u.unit(m).size }

// Grain is a step of a slider or a drag: what it is given in inches or miles an hour,
// or for the metric reader the nearest whole number of what is said.
func (u Units) Grain(m Quantity, step float64) float64 {
	if u == InchesAndMiles {
		return step
	}
	is := u.unit(m)
	return max(roundTo(step*is.size, is.grain), is.grain)
}

// Typed writes a number as a field holds it.
func (u Units) Typed(m Quantity, v float64) string {
	return shortest(roundTo(v*u.unit(m).size, u.typedGrain(m)))
}

// ReadTyped is the inverse of Typed: inches, or miles an hour. Of the numbers that a
// field shows alike it returns the roundest, so that a form that nobody typed into
// changes nothing: 45.7 cm is 18 in.
func (u Units) ReadTyped(m Quantity, typed float64) float64 {
	if u == InchesAndMiles {
		return typed
	}
	size := u.unit(m).size
	for _, grain := range []float64{1, 0.1, 0.01, 0.001} {
		if v := roundTo(typed/size, grain); u.Typed(m, v) == shortest(roundTo(typed, u.typedGrain(m))) {
			return v
		}
	}
	return typed / size
}

// ReadTypedPlace is ReadTyped for a place.
func (u Units) ReadTypedPlace(typed table.Place) table.Place {
	return table.Place{X: table.Inches(u.ReadTyped(Place, float64(typed.X))), Y: table.Inches(u.ReadTyped(Place, float64(typed.Y)))}
}

// SettleAt returns a number that a field shows as one of its limits that limit: 57.8 cm
// are 22.75 in where no more is allowed.
func (u Units) SettleAt(m Quantity, v, low, high float64) float64 {
	for _, limit := range []float64{low, high} {
		if u.Typed(m, v) == u.Typed(m, limit) {
			return limit
		}
	}
	return v
}

// roundTo rounds to a grain and never returns a negative zero. A grain below one is
// rounded by its inverse, whose result prints without a tail.
func roundTo(v, grain float64) float64 {
	if grain < 1 {
		inverse := math.Round(1 / grain)
		return math.Round(v*inverse)/inverse + 0
	}
	return math.Round(v/grain)*grain + 0
}

func shortest(v float64) string { return strconv.FormatFloat(v, 'f', -1, 64) }
