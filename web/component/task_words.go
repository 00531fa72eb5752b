package component

import (
	"time"

	"breakwright/internal/say"
	"breakwright/internal/store"
)

// TaskWords says whether a student has done a drill that was given to them, on which day,
// and which day it is due, seen at a moment in the club's zone.
func TaskWords(t store.Task, now time.Time) string {
	return taskDoneWords(t, now) + taskDueWords(t, now)
}

func taskDoneWords(t store.Task, now time.Time) string {
	day := nearDayWords(t.LastClosed.In(now.Location()), now)
	switch t.Closed {
	case 0:
		return "not done yet"
	case 1:
		return "done " + day
	}
	return say.Count(t.Closed, "set", "sets") + " done, the latest " + day
}

func taskDueWords(t store.Task, now time.Time) string {
	switch {
	case t.Due.IsZero():
		return ""
	case daysUntil(t.Due, now) < 0:
		return ", was due " + nearDayWords(t.Due, now)
	}
	return ", due " + nearDayWords(t.Due, now)
}

// IsTaskLate reports whether the due day of a drill is over and it is not done.
func IsTaskLate(t store.Task, now time.Time) bool {
	return t.Closed == 0 && !t.Due.IsZero() && daysUntil(t.Due, now) < 0
}

// nearDayWords names a day as somebody does who looks at it from another.
func nearDayWords(day, now time.Time) string {
	switch daysUntil(day, now) {
	case -1:
		return "yesterday"
	case 0:
		return "today"
	case 1:
		return "tomorrow"
	}
	return "on " + say.Weekday(day)
}

// daysUntil counts the days from one date to another, each as its own zone has it: a due
// day is kept as the midnight UTC of its date wherever the club is.
func daysUntil(day, now time.Time) int {
	return int(midnightOf(day).Sub(midnightOf(now)).Hours() / 24)
}

// midnightOf is the midnight UTC of a moment's date.
func midnightOf(at time.Time) time.Time {
	return time.Date(at.Year(), at.Month(), at.Day(), 0, 0, 0, 0, time.UTC)
}
