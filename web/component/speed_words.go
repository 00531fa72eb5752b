package component

import (
	"math"

	"breakwright/internal/drill"
	"breakwright/internal/say"
)

// MeasuredSpeedWords says how fast the breaks of a set were, and what its setup says where
// that is another speed; "" where none was measured.
func MeasuredSpeedWords(s drill.Setup, breaks []drill.Break, u say.Units) string {
	median, of := drill.MedianSpeed(breaks)
	if of == 0 {
		return ""
	}
	says := "Speed: measured in " + say.OfTotal(of, len(breaks)) + ", the middle one " + u.Speed(median)
	if s.Speed != 0 && math.Abs(float64(median-s.Speed)) > float64(drill.SpeedTolerance) {
		says += "; the setup says " + u.Speed(s.Speed)
	}
	return says + "."
}
