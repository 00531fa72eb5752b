package say

import (
	"math"
	"strconv"

	"breakwright/internal/table"
)

// Inches writes a length to the tenth of an inch: "18 inches", "1 inch", "0.3
// inches", "-2 inches".
func Inches(v table.Inches) string {
	tenth := roundTenth(float64(v))
	if tenth == 1 {
		return "1 inch"
	}
	return shortest(tenth) + " inches"
}

// Speed writes a speed in both units, to the tenth of a mile and the whole
// kilometre an hour: "18 mph (29 km/h)".
func Speed(v table.Mph) string {
	return shortest(roundTenth(float64(v))) + " mph (" + shortest(math.Round(v.KilometresPerHour())+0) + " km/h)"
}

// roundTenth rounds to a tenth and never gives a negative zero.
func roundTenth(v float64) float64 { return math.Round(v*10)/10 + 0 }

func shortest(v float64) string { return strconv.FormatFloat(v, 'f', -1, 64) }
