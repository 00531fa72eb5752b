package paper

import (
	"strconv"
	"time"

	"breakwright/internal/store"
	"breakwright/web/page"
)

// readSet makes the set of what was typed, and notes in the form what is wrong with
// it.
func (v *typedSetView) readSet(now time.Time) (store.PaperSet, error) {
	id, err := store.ParseID[store.SetID](v.Form.Text(fieldID))
	if err != nil {
		return store.PaperSet{}, page.ErrUnreadableForm
	}
	if v.Form.Text(fieldShown) != v.shownChoice() {
		v.Form.Reject(fieldTable, "the drill, the table or the setup was changed: look at it below, then save again")
	}
	typed := store.PaperSet{
		ID: id, Student: v.Student.ID, Assignment: v.Task.Assignment, Table: v.Table.ID, Setup: v.Next.Setup,
	}
	at, timed := v.readPlayedTime(now)
	typed.At = at
	v.readBreakLines(&typed)
	if timed && len(typed.Breaks) > 0 {
		typed.Breaks[0].At = at
	}
	return typed, nil
}

// readPlayedTime reads day and time of day. Without a time it is noon, which only
// puts the set in its order; timed is false then.
func (v *typedSetView) readPlayedTime(now time.Time) (at time.Time, timed bool) {
	today := now.In(v.Zone)
	date, err := time.ParseInLocation(time.DateOnly, v.Form.Text(fieldDate), v.Zone)
	if err != nil {
		v.Form.Reject(fieldDate, "write the day of the sheet, for example "+today.Format(time.DateOnly))
		return time.Time{}, false
	}
	clock, timed := 12*time.Hour, v.Form.Text(fieldTime) != ""
	if timed {
		read, err := time.Parse("15:04", v.Form.Text(fieldTime))
		if err != nil {
			v.Form.Reject(fieldTime, "write the time as 18:30, or leave it empty")
		}
		clock = time.Duration(read.Hour())*time.Hour + time.Duration(read.Minute())*time.Minute
	}
	at = time.Date(date.Year(), date.Month(), date.Day(), 0, int(clock.Minutes()), 0, 0, v.Zone)
	switch {
	case date.After(today):
		v.Form.Reject(fieldDate, "that day is still to come")
	case date.Before(today.AddDate(-maxAgeYears, 0, 0)):
		v.Form.Reject(fieldDate, "that day is more than "+strconv.Itoa(maxAgeYears)+" years ago")
	case at.After(now) && timed:
		v.Form.Reject(fieldTime, "that time is still to come")
	case at.After(now):
		at = time.Date(date.Year(), date.Month(), date.Day(), 0, 0, 0, 0, v.Zone)
	}
	return at.UTC(), timed
}

// maxAgeYears is how old a sheet may be, in years: older dates are slips.
const maxAgeYears = 20

// readBreakLines reads the breaks: every line from the first to the last that is
// filled, and all of them unless the sheet is said to end early.
func (v *typedSetView) readBreakLines(typed *store.PaperSet) {
	last := 0
	for _, row := range v.Rows {
		if v.Form.Text(row.Field) != "" {
			last = row.Number
		}
	}
	for i, row := range v.Rows[:last] {
		switch {
		case row.Wrong != "":
			v.Form.Reject(row.Field, "Break "+strconv.Itoa(row.Number)+": "+row.Wrong)
		case row.Says == "":
			v.Rows[i].Wrong = "every break counts: write what was seen of this one, ? for a wing ball that nobody saw"
			v.Form.Reject(row.Field, "Break "+strconv.Itoa(row.Number)+": "+v.Rows[i].Wrong)
		default:
			typed.Breaks = append(typed.Breaks, row.read)
		}
	}
	switch {
	case last == 0:
		v.Form.Reject(breakLineField(1), "Break 1: nothing is typed yet")
		v.Rows[0].Wrong = "nothing is typed yet"
	case last < len(v.Rows) && !v.Form.Has(fieldEarly):
		v.Form.Reject(fieldEarly, "The sheet has "+strconv.Itoa(last)+" of "+strconv.Itoa(len(v.Rows))+" breaks: tick “The sheet ends early”, or go on")
	}
}
