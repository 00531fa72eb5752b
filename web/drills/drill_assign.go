package drills

import (
	"net/http"
	"slices"
	"strings"
	"time"

	"breakwright/internal/drill"
	"breakwright/internal/say"
	"breakwright/internal/store"
	"breakwright/internal/table"
	"breakwright/web/page"
	"breakwright/web/route"
	"breakwright/web/session"
)

// Fields of the form that assigns.
const (
	fieldClass    = "class"
	fieldStudents = "students"
	fieldSides    = "sides"
	fieldDue      = "due"
	fieldNote     = "note"
	// fieldTwin is the other one of two assignments that are ended together.
	fieldTwin = "twin"
)

// assignDrillView is the page on which a drill is given to a class or to students.
type assignDrillView struct {
	Frame    page.Frame
	Form     *page.Form
	Drill    store.Drill
	Classes  []store.Class
	Students []store.Person
	// Beginnings are the ticked students who would begin elsewhere than the drill does.
	Beginnings []studentBeginning
	// Today is the first day that can be chosen, as a date field writes it.
	Today string
}

func (p *Pages) showAssignForm(w http.ResponseWriter, r *http.Request) error {
	v, err := p.loadAssignView(r)
	if err != nil {
		return err
	}
	v.Form = page.NewForm(map[string]string{fieldID: newFormID(), fieldClass: r.URL.Query().Get("class")})
	v.Form.Values[fieldStudents] = r.URL.Query()[fieldStudents]
	if err := p.loadBeginnings(r, &v); err != nil {
		return err
	}
	v.Frame = p.sessions.TakeFrame(w, r)
	return page.Render(w, r, http.StatusOK, assignDrillPage(v))
}

// assignDrillView gets what both the empty and the refused form show.
func (p *Pages) loadAssignView(r *http.Request) (assignDrillView, error) {
	user := session.MustUser(r)
	v := assignDrillView{Today: p.now().In(user.Zone).Format(time.DateOnly)}
	var err error
	if v.Drill, err = p.findDrill(r); err != nil {
		return v, err
	}
	if v.Classes, err = p.store.ListClasses(r.Context(), user.Actor, store.ActiveOnly); err != nil {
		return v, err
	}
	v.Students, err = p.store.ListStudents(r.Context(), user.Actor, store.ActiveOnly)
	return v, err
}

func (p *Pages) assignDrill(w http.ResponseWriter, r *http.Request) error {
	v, err := p.loadAssignView(r)
	if err != nil {
		return err
	}
	if v.Form, err = page.ReadForm(w, r); err != nil {
		return err
	}
	wanted, err := readAssignment(v.Form, v.Drill.ID, v.Today)
	if err != nil {
		return err
	}
	refused := func() error {
		v.Frame = p.sessions.TakeFrame(w, r)
		return page.Render(w, r, http.StatusUnprocessableEntity, assignDrillPage(v))
	}
	if !v.Form.IsValid() {
		return refused()
	}
	made, err := p.createAssignments(r, wanted, v.Form.Text(fieldSides) == bothSides)
	if v.Form.AddProblems(err) {
		return refused()
	}
	if err != nil {
		return err
	}
	says, path := "Assigned. The students see it on their page now.", route.AssignmentPath(made[0])
	undo := &page.UndoForm{Path: route.AssignmentPath(made[0]) + "/end", About: "the assignment"}
	if len(made) > 1 {
		says, path = "Assigned twice, from the left and from the right. The students see both on their page now.", "/assignments"
		undo.Fields = []page.HiddenField{{Name: fieldTwin, Value: made[1].String()}}
	}
	p.sessions.SetFlashWithUndo(w, r, says, undo)
	return page.Redirect(w, r, path)
}

// bothSides asks for two assignments, one a side.
const bothSides = "both"

// createAssignments makes one assignment, or two, one a side.
func (p *Pages) createAssignments(r *http.Request, wanted store.Assignment, both bool) ([]store.AssignmentID, error) {
	actor := session.MustUser(r).Actor
	if both {
		left, right, err := p.store.AssignBothSides(r.Context(), actor, wanted)
		return []store.AssignmentID{left, right}, err
	}
	id, err := p.store.AssignDrill(r.Context(), actor, wanted)
	return []store.AssignmentID{id}, err
}

func breakSideOptions() []page.Option {
	return []page.Option{
		{Value: "", Words: "Each student’s own side"},
		{Value: bothSides, Words: "Both sides: two assignments, whose records stay apart"},
	}
}

// readAssignment reads what was chosen. Its id is that of the form and of all
// that was chosen, so that a double click assigns once.
func readAssignment(f *page.Form, d store.DrillID, today string) (store.Assignment, error) {
	a := store.Assignment{Drill: d, Due: readDueDay(f, today), Note: readAssignmentNote(f)}
	var err error
	if f.Text(fieldClass) != "" {
		if a.Class, err = store.ParseID[store.ClassID](f.Text(fieldClass)); err != nil {
			return a, err
		}
	}
	for _, ticked := range f.Values[fieldStudents] {
		id, err := store.ParseID[store.PersonID](ticked)
		if err != nil {
			return a, err
		}
		if !slices.Contains(a.Students, id) {
			a.Students = append(a.Students, id)
		}
	}
	switch {
	case store.IsZero(a.Class) && len(a.Students) == 0:
		f.Reject(fieldClass, "choose a class, or tick one student or more")
	case !store.IsZero(a.Class) && len(a.Students) > 0:
		f.Reject(fieldClass, "choose a class or tick students, not both: the class has them already, or assign twice")
	}
	a.ID = store.AssignmentID{UUID: idFromForm(f, joinChoices(f))}
	return a, nil
}

// joinChoices is all that the form says, in one string.
func joinChoices(f *page.Form) string {
	parts := append([]string{f.Text(fieldClass), f.Text(fieldSides), f.Text(fieldDue), readText(f, fieldNote)}, f.Values[fieldStudents]...)
	return strings.Join(parts, "\x1f")
}

// readDueDay reads a day as midnight UTC; none is the zero time. A day that is
// over where the club is is refused.
func readDueDay(f *page.Form, today string) time.Time {
	typed := f.Text(fieldDue)
	if typed == "" {
		return time.Time{}
	}
	day, err := time.Parse(time.DateOnly, typed)
	switch {
	case err != nil:
		f.Reject(fieldDue, "type the day as year, month and day, for example "+today)
		return time.Time{}
	case typed < today:
		f.Reject(fieldDue, "that day is over; choose today or later, or no day")
	}
	return day
}

func readAssignmentNote(f *page.Form) string {
	note := readText(f, fieldNote)
	if says := drill.CheckNote(note, drill.MaxNote); says != "" {
		f.Reject(fieldNote, says)
	}
	return note
}

// isTicked reports whether a student is chosen.
func (v assignDrillView) isTicked(id store.PersonID) bool {
	return slices.Contains(v.Form.Values[fieldStudents], id.String())
}

// studentsWithoutSide are the students of whom nobody knows the break side.
func (v assignDrillView) studentsWithoutSide() []string {
	var names []string
	for _, s := range v.Students {
		if s.Side == "" {
			names = append(names, s.Name)
		}
	}
	return names
}

func (v assignDrillView) classOptions() []page.Option {
	options := []page.Option{{Value: "", Words: "No class: the students ticked below"}}
	for _, c := range v.Classes {
		options = append(options, page.Option{Value: c.ID.String(), Words: c.Name + " (" + say.Count(c.Students, "student", "students") + ")"})
	}
	return options
}

func sideTagWords(side table.Side) string {
	if side == "" {
		return "side not known"
	}
	return "from the " + string(side)
}

func assignPageHead(v assignDrillView) page.Head {
	h := drillsHead("Assign " + v.Drill.Name)
	h.Narrow = true
	return h
}
