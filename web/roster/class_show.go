package roster

import (
	"net/http"
	"strconv"

	"breakwright/internal/account"
	"breakwright/internal/say"
	"breakwright/internal/store"
	"breakwright/internal/table"
	"breakwright/web/page"
	"breakwright/web/route"
	"breakwright/web/session"
)

// classView is the page of one class.
type classView struct {
	Frame    page.Frame
	Path     string
	Name     string
	Archived bool
	Students []studentLine
	// Waiting counts those who have not joined.
	Waiting     int
	Assignments []assignmentLine
	More        int // assignments that are not listed
	// Rename and Add are the page's two forms; Same asks whether to add names
	// that are there already.
	Rename, Add *page.Form
	Same        bool
	// Look is how pasted names were read, to be looked at before they are added.
	Look []lookLine
}

// studentLine is a student in a class's list.
type studentLine struct {
	ID, Path, Class, Name string
	Side                  table.Side
	// Code as it is printed; "" for none.
	Code   string
	Joined bool
	// Undo takes back the side that was just set in the row; nil for none.
	Undo *page.UndoForm
}

type assignmentLine struct{ Path, Drill, Due, Done string }

// isBegun reports whether the class has anything to list.
func (v classView) isBegun() bool { return len(v.Students) > 0 || len(v.Assignments) > 0 }

// columns puts the form for names beside what is listed, or alone.
func (v classView) columns() string {
	if v.isBegun() {
		return "beside"
	}
	return "alone"
}

func (v classView) headline() string {
	n := len(v.Students)
	switch {
	case n == 0:
		return "No students yet. Paste their names, one a line."
	case v.Waiting == 0:
		return countStudents(n) + ", all joined."
	case v.Waiting == n:
		return countStudents(n) + ", none joined yet. Print their codes and hand them out."
	}
	return countStudents(n) + ", " + strconv.Itoa(v.Waiting) + " not joined yet."
}

func (ro *Pages) showClass(w http.ResponseWriter, r *http.Request) error {
	return ro.renderClass(w, r, http.StatusOK, func(*classView) {})
}

// renderClass shows the class; with puts in the form that was refused.
func (ro *Pages) renderClass(w http.ResponseWriter, r *http.Request, status int, with func(*classView)) error {
	class, members, err := ro.findClass(r)
	if err != nil {
		return err
	}
	v := classView{
		Frame: ro.Sessions.TakeFrame(w, r), Path: route.ClassPath(class.ID), Name: class.Name, Archived: class.Archived,
		Rename: page.NewForm(map[string]string{"name": class.Name}), Add: newFormWithID(),
	}
	for _, m := range members {
		line := newStudentLine(m, class.ID)
		v.Students = append(v.Students, line)
		if !line.Joined {
			v.Waiting++
		}
	}
	if v.Assignments, v.More, err = ro.openAssignments(r, class.ID); err != nil {
		return err
	}
	with(&v)
	return page.Render(w, r, status, classPage(v))
}

func newStudentLine(p store.Person, class store.ClassID) studentLine {
	return studentLine{
		ID: p.ID.String(), Path: route.StudentPath(p.ID), Class: class.String(), Name: p.Name,
		Side: p.Side, Code: account.FormatCode(p.Code), Joined: p.HasSecret,
	}
}

// assignmentsShown is how many drills under way a class's page lists.
const assignmentsShown = 12

// openAssignments lists what is open for the class, the most urgent first, and
// says how many more there are.
func (ro *Pages) openAssignments(r *http.Request, class store.ClassID) (lines []assignmentLine, more int, err error) {
	open, err := ro.Store.PageAssignments(r.Context(), session.MustUser(r).Actor, store.AssignmentFilter{Class: class, Most: assignmentsShown})
	lines = make([]assignmentLine, len(open.List))
	for i, a := range open.List {
		lines[i] = assignmentLine{
			Path: route.AssignmentPath(a.ID), Drill: a.DrillName, Due: dueWords(a.Due),
			Done: say.OfTotal(a.Done, a.For) + " done",
		}
	}
	return lines, open.Total - len(lines), err
}
