package drill

import (
	"math"
	"slices"

	"breakwright/internal/table"
)

// MedianSpeed returns the median of the speeds measured, to a tenth of a mile an hour, and
// how many breaks it was measured of; 0 when of none.
func MedianSpeed(breaks []Break) (median table.Mph, of int) {
	var measured []table.Mph
	for _, b := range breaks {
		if b.Speed > 0 {
			measured = append(measured, b.Speed)
		}
	}
	if len(measured) == 0 {
		return 0, 0
	}
	slices.Sort(measured)
	middle := len(measured) / 2
	median = measured[middle]
	if len(measured)%2 == 0 {
		median = (measured[middle-1] + median) / 2
	}
	return table.Mph(math.Round(float64(median)*10) / 10), len(measured)
}
