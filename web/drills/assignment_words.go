package drills

import (
	"strconv"
	"time"

	"breakwright/internal/coaching"
	"breakwright/internal/say"
	"breakwright/internal/store"
	"breakwright/web/component"
)

// doneCountWords is the page's first line: "5 of 12 have done it".
func doneCountWords(done, of int) string {
	switch {
	case of == 0:
		return "Nobody has this assignment: the class is empty."
	case done == of && of == 1:
		return "It is done."
	case done == of:
		return "All " + strconv.Itoa(of) + " have done it."
	case done == 0:
		return "Nobody of " + strconv.Itoa(of) + " has done it yet."
	case done == 1:
		return say.OfTotal(done, of) + " has done it."
	}
	return say.OfTotal(done, of) + " have done it."
}

// countDone counts the students who closed a set.
func (v assignmentView) countDone() int {
	n := 0
	for _, row := range v.Rows {
		if row.Sets > 0 {
			n++
		}
	}
	return n
}

// prescriptionStateWords says what became of a prescription, to the coach who decides.
func prescriptionStateWords(s store.State) string {
	switch s {
	case store.Proposed:
		return "waits for you"
	case store.Approved:
		return "you agreed"
	case store.Changed:
		return "you changed it"
	case store.Own:
		return "you set your own"
	case store.Superseded:
		return "it lapsed"
	}
	return component.ProgressWords(coaching.Change{State: s})
}

// lastSetWords says when the latest set was begun, by the club's clock: its own page
// names it so.
func lastSetWords(row store.AssignmentProgress, zone *time.Location) string {
	began := say.ShortMoment(row.LastStarted.In(zone))
	if row.LastClosed.IsZero() {
		return "at it since " + began
	}
	return began
}

// formatDateField writes a day as a date field holds it.
func formatDateField(day time.Time) string {
	if day.IsZero() {
		return ""
	}
	return day.Format(time.DateOnly)
}

// dueDayWords says a due day, and that it is over when it is.
func dueDayWords(day time.Time, today string) string {
	switch {
	case day.IsZero():
		return "no due day"
	case formatDateField(day) == today:
		return "due today"
	case formatDateField(day) < today:
		return "was due " + say.WeekdayOfYear(day)
	}
	return "due " + say.WeekdayOfYear(day)
}

// recipientWords says whom an assignment is for.
func recipientWords(className string, students int) string {
	if className != "" {
		return className
	}
	return say.Count(students, "student", "students")
}
