package plan

import (
	"net/http"
	"slices"
	"strings"
	"time"
	"unicode/utf8"

	"breakwright/internal/drill"
	"breakwright/internal/store"
	"breakwright/internal/table"
	"breakwright/web/page"
	"breakwright/web/session"
)

// Fields of the form that assigns.
const (
	fieldClass    = "class"
	fieldStudents = "students"
	fieldSides    = "sides"
	fieldDue      = "due"
	fieldNote     = "note"
)

// assignView is the page on which a drill is given to a class or to students.
type assignView struct {
	Frame    page.Frame
	Form     *page.Form
	Drill    store.Drill
	Classes  []store.Class
	Students []store.Person
	// Today is the first day that can be chosen, as a date field writes it.
	Today string
}

func (p *Plan) askAssign(w http.ResponseWriter, r *http.Request) error {
	v, err := p.assignView(r)
	if err != nil {
		return err
	}
	v.Form = page.NewForm(map[string]string{fieldID: newID(), fieldClass: r.URL.Query().Get("class")})
	v.Frame = p.sessions.TakeFrame(w, r)
	return page.Render(w, r, http.StatusOK, assignPage(v))
}

// assignView gets what both the empty and the refused form show.
func (p *Plan) assignView(r *http.Request) (assignView, error) {
	visitor := session.MustUser(r)
	v := assignView{Today: p.now().In(visitor.Zone).Format(time.DateOnly)}
	var err error
	if v.Drill, err = p.drillOf(r); err != nil {
		return v, err
	}
	if v.Classes, err = p.store.ListClasses(r.Context(), visitor.Actor, store.ActiveOnly); err != nil {
		return v, err
	}
	v.Students, err = p.store.ListStudents(r.Context(), visitor.Actor, store.ActiveOnly)
	return v, err
}

func (p *Plan) assignDrill(w http.ResponseWriter, r *http.Request) error {
	v, err := p.assignView(r)
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
		return page.Render(w, r, http.StatusUnprocessableEntity, assignPage(v))
	}
	if !v.Form.IsValid() {
		return refused()
	}
	says, path, err := p.assign(r, wanted, v.Form.Text(fieldSides) == bothSides)
	if v.Form.AddProblems(err) {
		return refused()
	}
	if err != nil {
		return err
	}
	p.sessions.SetFlash(w, r, says)
	return page.Redirect(w, r, path)
}

// bothSides asks for two assignments, one a side.
const bothSides = "both"

// assign makes one assignment or two, and gives what to say and where it is seen.
func (p *Plan) assign(r *http.Request, wanted store.Assignment, both bool) (says, path string, err error) {
	viewer := session.MustUser(r).Actor
	if both {
		_, _, err = p.store.AssignBothSides(r.Context(), viewer, wanted)
		return "Assigned twice, from the left and from the right. The students see both on their page now.", "/assignments", err
	}
	id, err := p.store.AssignDrill(r.Context(), viewer, wanted)
	return "Assigned. The students see it on their page now.", "/assignments/" + id.String(), err
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
	a := store.Assignment{Drill: d, Due: readDue(f, today), Note: readNote(f)}
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
	a.ID = store.AssignmentID{UUID: madeBy(f, chosen(f))}
	return a, nil
}

// chosen is all that the form says, in one string.
func chosen(f *page.Form) string {
	parts := append([]string{f.Text(fieldClass), f.Text(fieldSides), f.Text(fieldDue), text(f, fieldNote)}, f.Values[fieldStudents]...)
	return strings.Join(parts, "\x1f")
}

// readDue reads a day as midnight UTC; none is the zero time. A day that is
// over where the club is is refused.
func readDue(f *page.Form, today string) time.Time {
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

func readNote(f *page.Form) string {
	note := text(f, fieldNote)
	if utf8.RuneCountInString(note) > drill.MaxNote {
		f.Reject(fieldNote, "a note has at most 2000 characters")
	}
	return note
}

// ticked says whether a student is chosen.
func (v assignView) ticked(id store.PersonID) bool {
	return slices.Contains(v.Form.Values[fieldStudents], id.String())
}

// sideless are the students of whom nobody knows the break side.
func (v assignView) sideless() []string {
	var names []string
	for _, s := range v.Students {
		if s.Side == "" {
			names = append(names, s.Name)
		}
	}
	return names
}

func (v assignView) classOptions() []page.Option {
	options := []page.Option{{Value: "", Words: "No class: the students ticked below"}}
	for _, c := range v.Classes {
		options = append(options, page.Option{Value: c.ID.String(), Words: c.Name + " (" + count(c.Students, "student", "students") + ")"})
	}
	return options
}

func sideTag(side table.Side) string {
	if side == "" {
		return "side not known"
	}
	return "from the " + string(side)
}

func assignHead(v assignView) page.Head {
	h := head("Assign " + v.Drill.Name)
	h.Narrow = true
	return h
}
