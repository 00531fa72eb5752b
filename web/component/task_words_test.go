package component

import (
	"testing"
	"time"

	"breakwright/internal/store"
)

// A drill that is done says so and on which day, whatever became of its due day.
func TestTaskWords_OfDoneAndDue(t *testing.T) {
	due := time.Date(2026, 11, 25, 0, 0, 0, 0, time.UTC) // a Wednesday
	early := due.AddDate(0, 0, -3).Add(20 * time.Hour)
	for _, c := range []struct {
		closed    int
		last, due time.Time
		now       time.Time
		want      string
	}{
		{0, time.Time{}, time.Time{}, due, "not done yet"},
		{0, time.Time{}, due, due.AddDate(0, 0, -2), "not done yet, due on Wednesday 25 November"},
		{0, time.Time{}, due, due.Add(-time.Minute), "not done yet, due tomorrow"},
		{0, time.Time{}, due, due.Add(23 * time.Hour), "not done yet, due today"},
		{0, time.Time{}, due, due.Add(24 * time.Hour), "not done yet, was due yesterday"},
		{0, time.Time{}, due, due.AddDate(0, 0, 4), "not done yet, was due on Wednesday 25 November"},
		{1, early, time.Time{}, due, "done on Sunday 22 November"},
		{1, early, due, due.Add(time.Hour), "done on Sunday 22 November, due today"},
		{1, early, due, due.AddDate(0, 0, 4), "done on Sunday 22 November, was due on Wednesday 25 November"},
		{1, due.Add(26 * time.Hour), due, due.Add(27 * time.Hour), "done today, was due yesterday"},
		{2, early, due, due.AddDate(0, 0, 4), "2 sets done, the latest on Sunday 22 November, was due on Wednesday 25 November"},
	} {
		if says := TaskWords(store.Task{Closed: c.closed, LastClosed: c.last, Due: c.due}, c.now); says != c.want {
			t.Errorf("%d sets, looked at on %s: %q, want %q", c.closed, c.now, says, c.want)
		}
	}
}

// On the evening of its day a drill is due today and not late, west of Greenwich too, and
// was done on the day that the club's clocks showed.
func TestTaskWords_InTheClubsZone(t *testing.T) {
	due := time.Date(2026, 11, 25, 0, 0, 0, 0, time.UTC)
	west, east := time.FixedZone("west", -8*3600), time.FixedZone("east", 9*3600)
	for now, late := range map[time.Time]bool{
		time.Date(2026, 11, 25, 23, 0, 0, 0, west): false, time.Date(2026, 11, 26, 1, 0, 0, 0, west): true,
		time.Date(2026, 11, 25, 1, 0, 0, 0, east): false, time.Date(2026, 11, 26, 1, 0, 0, 0, east): true,
	} {
		want := "not done yet, due today"
		if late {
			want = "not done yet, was due yesterday"
		}
		task := store.Task{Due: due}
		if says := TaskWords(task, now); IsTaskLate(task, now) != late || says != want {
			t.Errorf("at %v: late %v, %q, want %v, %q", now, IsTaskLate(task, now), says, late, want)
		}
		done := store.Task{Closed: 1, LastClosed: now.UTC()}
		if says := TaskWords(done, now); says != "done today" || IsTaskLate(done, now) {
			t.Errorf("done at %v: %q", now, says)
		}
	}
	if IsTaskLate(store.Task{}, due) || IsTaskLate(store.Task{Closed: 1, Due: due}, due.AddDate(0, 0, 4)) {
		t.Error("what has no due day, or is done, is late")
	}
}
