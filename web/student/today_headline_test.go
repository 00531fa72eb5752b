package student

import (
	"strings"
	"testing"
	"time"

	"breakwright/internal/store"
)

// The first line of the page never asks for the same again above a change, nor for a break
// above a warning.
func TestHeadline_AgreesWithTheChange(t *testing.T) {
	done := store.Today{Tasks: []store.Task{{Closed: 2}}}
	waiting := store.Today{Tasks: []store.Task{{}}}
	for _, c := range []struct {
		view  todayView
		today store.Today
		want  string
	}{
		{todayView{}, done, "Another ten breaks of the same"},
		{todayView{Waits: true}, done, "The changed setup below is still to be broken."},
		{todayView{Waits: true}, waiting, "One drill is waiting for you."},
		{todayView{Danger: true}, done, "Speak with your coach before you break again."},
		{todayView{Danger: true}, waiting, "Speak with your coach before you break again."},
		{todayView{Hurt: "/my/sets/1#word"}, done, "Stop breaking for now"},
		{todayView{Hurt: "/my/sets/1#word", Danger: true}, waiting, "Stop breaking for now"},
	} {
		if says := c.view.headline(c.today); !strings.Contains(says, c.want) {
			t.Errorf("%+v: %q, want %q", c.view, says, c.want)
		}
	}
}

// On the evening of its day a drill is due today and not late, west of Greenwich too.
func TestIsPast_InTheClubsZone(t *testing.T) {
	due := time.Date(2026, 11, 25, 0, 0, 0, 0, time.UTC)
	west, east := time.FixedZone("west", -8*3600), time.FixedZone("east", 9*3600)
	for now, want := range map[time.Time]bool{
		time.Date(2026, 11, 25, 23, 0, 0, 0, west): false, time.Date(2026, 11, 26, 1, 0, 0, 0, west): true,
		time.Date(2026, 11, 25, 1, 0, 0, 0, east): false, time.Date(2026, 11, 26, 1, 0, 0, 0, east): true,
	} {
		if isPast(due, now) != want || (dueDayWords(due, now) == "due today") == want {
			t.Errorf("at %v: past %v, %q", now, isPast(due, now), dueDayWords(due, now))
		}
	}
	if isPast(time.Time{}, time.Now()) {
		t.Error("no due day is past")
	}
}
