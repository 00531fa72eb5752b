package roster

import (
	"net/http"
	"slices"

	"breakwright/internal/drill"
	"breakwright/internal/say"
	"breakwright/internal/store"
	"breakwright/internal/table"
	"breakwright/web/component"
	"breakwright/web/page"
	"breakwright/web/route"
	"breakwright/web/session"
)

// studentNext is what a student is to break next, and what a coach can do about it.
type studentNext struct {
	// Setup is drawn first; nil when nothing is assigned and nothing was broken.
	Setup *component.SetupView
	// Title says what the drawn setup is.
	Title string
	// Tasks are the open assignments, the most urgent first.
	Tasks []nextTask
	// Drills are those that can be assigned.
	Drills []page.Option
}

// nextTask is an open assignment in a line.
type nextTask struct{ Path, Name, Words string }

// loadNext reads what comes next. The student's own page says it, so it is read as
// they would see it.
func (ro *Pages) loadNext(r *http.Request, student store.Person, v *studentView) error {
	coach := session.MustUser(r)
	asStudent := store.Actor{Club: coach.Actor.Club, Person: student.ID, Role: store.Student}
	today, err := ro.Store.GetToday(r.Context(), asStudent)
	if err != nil {
		return err
	}
	drills, err := ro.Store.ListDrills(r.Context(), coach.Actor, store.ActiveOnly)
	if err != nil {
		return err
	}
	for _, d := range drills {
		v.Next.Drills = append(v.Next.Drills, page.Option{Value: d.ID.String(), Words: d.Name})
	}
	now := ro.Now().In(coach.Zone)
	for _, task := range today.Tasks {
		v.Next.Tasks = append(v.Next.Tasks, nextTask{
			Path: route.AssignmentPath(task.Assignment), Name: task.Name(), Words: component.TaskWords(task, now),
		})
	}
	if open := openSetNow(today); open != nil {
		set, err := ro.Store.GetSet(r.Context(), coach.Actor, open.ID)
		if err != nil {
			return err
		}
		v.Next.Setup = &component.SetupView{ID: "present", Setup: set.Setup, Kind: set.Table.Kind, Window: set.Window}
		v.Next.Title = "Open now: " + set.Title() + ", on " + set.Table.Label() + ", " + say.OfTotal(len(set.Breaks), set.Planned) + " breaks recorded"
		return nil
	}
	v.Next.Setup, v.Next.Title = chooseNextSetup(today, v)
	return nil
}

// openSetNow is the set that the student is in the middle of: begun last, with breaks in it
// and not closed; nil for none.
func openSetNow(today store.Today) *store.OpenSet {
	if len(today.Open) == 0 || today.Open[0].Breaks == 0 || today.Open[0].Started != today.LastStart {
		return nil
	}
	return &today.Open[0]
}

// chooseNextSetup returns the setup of the next set on the kind of table they broke
// on last, with the one it replaces as a ghost; without an assignment it is that
// of their latest set.
func chooseNextSetup(today store.Today, v *studentView) (*component.SetupView, string) {
	present := v.Story.Present
	if len(today.Tasks) == 0 {
		if present == nil {
			return nil, ""
		}
		return present, "The setup of the latest set, on " + v.Story.Table
	}
	kind, where := today.Tasks[0].Drill.Kind, ""
	for _, t := range today.Tables {
		if t.ID == today.LastTable {
			kind, where = t.Kind, ", on "+t.Label()
		}
	}
	if present != nil && present.Kind != kind {
		present = nil
	}
	task := chooseTask(sortTasks(today.Tasks), kind, present)
	next := task.InstructionOn(kind)
	view := &component.SetupView{ID: "present", Setup: next.Setup, Kind: kind, Window: next.Window}
	about := ": " + task.Name() + where
	switch {
	case present == nil:
	case isSameDrawing(present.Setup, next.Setup):
		return view, "To break now" + about
	case present.Setup.Side == next.Setup.Side && !store.IsZero(next.Prescription):
		before := present.Setup
		view.From = &before
		return view, "To break next" + about + "; it is changed since the latest set"
	}
	return view, "To break next" + about
}

// sortTasks puts what is not done first, the most urgent before the others, then what was
// done last.
func sortTasks(tasks []store.Task) []store.Task {
	sorted := slices.Clone(tasks)
	slices.SortStableFunc(sorted, func(a, b store.Task) int {
		if isDone := a.Closed > 0; isDone != (b.Closed > 0) {
			if isDone {
				return 1
			}
			return -1
		}
		return b.LastClosed.Compare(a.LastClosed)
	})
	return sorted
}

// chooseTask returns the task that goes on with the present setup, which is what the page
// speaks of; else one with a change of its own; else the first.
func chooseTask(tasks []store.Task, kind table.Kind, present *component.SetupView) store.Task {
	if present == nil {
		return tasks[0]
	}
	if i := slices.IndexFunc(tasks, func(t store.Task) bool { return isSameDrawing(t.InstructionOn(kind).Setup, present.Setup) }); i >= 0 {
		return tasks[i]
	}
	return tasks[max(0, slices.IndexFunc(tasks, func(t store.Task) bool { return !store.IsZero(t.InstructionOn(kind).Prescription) }))]
}

func isSameDrawing(a, b drill.Setup) bool { return a.Rounded() == b.Rounded() }
