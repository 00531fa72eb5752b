package roster

import (
	"testing"
	"time"

	"breakwright/internal/store"
	"breakwright/internal/table"
)

// A day that has passed was due, also for who has done it; the day itself has not passed
// before its end.
func TestTaskWords_OfADayThatHasPassed(t *testing.T) {
	due := time.Date(2026, 11, 25, 0, 0, 0, 0, time.UTC)
	for _, c := range []struct {
		closed int
		now    time.Time
		want   string
	}{
		{0, due.AddDate(0, 0, -1), "not done yet, due on Wednesday 25 November"},
		{0, due.Add(23 * time.Hour), "not done yet, due on Wednesday 25 November"},
		{0, due.AddDate(0, 0, 4), "not done yet, was due on Wednesday 25 November"},
		{1, due.Add(23 * time.Hour), "1 set done, due on Wednesday 25 November"},
		{2, due.AddDate(0, 0, 4), "2 sets done, was due on Wednesday 25 November"},
	} {
		if says := taskWords(store.Task{Closed: c.closed, Due: due}, c.now); says != c.want {
			t.Errorf("%d sets, looked at on %s: %q, want %q", c.closed, c.now, says, c.want)
		}
	}
}

func TestSidesWords_ByTheirNumber(t *testing.T) {
	for _, c := range []struct {
		students int
		side     table.Side
		want     string
	}{
		{1, table.Left, "1 student breaks from the left."}, {2, table.Right, "2 students break from the right."}, {3, "", "3 students: break side not known."},
	} {
		if says := sidesWords(store.RosterChange{Students: c.students, Side: c.side}); says != c.want {
			t.Errorf("%q, want %q", says, c.want)
		}
	}
}
