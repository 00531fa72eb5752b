package student

import (
	"strings"
	"testing"

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
