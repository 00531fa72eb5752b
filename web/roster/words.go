package roster

import (
	"time"

	"breakwright/internal/say"
	"breakwright/internal/table"
)

func countStudents(n int) string { return say.CountOrNo(n, "student", "students") }

// breakSideWords says where somebody breaks from.
func breakSideWords(side table.Side) string {
	if side == "" {
		return "Break side not known yet"
	}
	return "Breaks from the " + string(side)
}

// dueWords says a due day, which is the midnight UTC of its date wherever the club is.
func dueWords(at time.Time) string {
	if at.IsZero() {
		return "no due day"
	}
	return "due " + say.Weekday(at.UTC())
}
