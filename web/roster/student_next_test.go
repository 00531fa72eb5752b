package roster

import (
	"testing"
	"time"

	"breakwright/internal/drill"
	"breakwright/internal/rack"
	"breakwright/internal/store"
	"breakwright/internal/table"
	"breakwright/web/component"
)

// Of drills that go on with the present setup the one that is not done is next, then the
// one that was done last, whichever is due first.
func TestChooseTask_IsNotDoneOrWasDoneLast(t *testing.T) {
	kind := table.NineFoot()
	near, far := drill.StandardSetup(rack.NineBall, table.Left, kind), drill.StandardSetup(rack.NineBall, table.Left, kind)
	far.Cue.X = -22
	day := time.Date(2026, 11, 21, 18, 30, 0, 0, time.UTC)
	task := func(name string, s drill.Setup, done int, last time.Time) store.Task {
		return store.Task{Drill: store.Drill{Drill: drill.Drill{Name: name, Kind: kind, Setup: s, Breaks: 10}}, Closed: done, LastClosed: last}
	}
	early, late, undone := task("Early", near, 1, day), task("Late", near, 2, day.AddDate(0, 0, 7)), task("Undone", near, 0, time.Time{})
	elsewhere := task("Elsewhere", far, 0, time.Time{})
	present := &component.SetupView{Setup: near, Kind: kind}
	for _, c := range []struct {
		tasks   []store.Task
		present *component.SetupView
		want    string
	}{
		{[]store.Task{early, late, undone}, present, "Undone"},
		{[]store.Task{early, late, elsewhere}, present, "Late"},
		{[]store.Task{early, late, elsewhere}, nil, "Elsewhere"},
		{[]store.Task{early, late}, nil, "Late"},
	} {
		if got := chooseTask(sortTasks(c.tasks), kind, c.present).Name(); got != c.want {
			t.Errorf("%q is next, want %q", got, c.want)
		}
	}
}
