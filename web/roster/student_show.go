package roster

import (
	"net/http"
	"slices"

	"breakwright/internal/store"
	"breakwright/web/page"
	"breakwright/web/session"
)

// studentView is the coach's page of one student.
type studentView struct {
	Frame page.Frame
	// studentLine without a class: a change of side comes back to this page.
	studentLine
	Archived bool
	// Last is the day of the latest set, "" before the first.
	Last          string
	In            []classLine
	Elsewhere     []page.Option // the classes they are not in
	Sets          []setRow
	Prescriptions []prescriptionLine
	// The page's forms.
	Rename, SideForm, Classes *page.Form
}

func (v studentView) answer() string {
	says := sideWords(v.Side)
	switch n := len(v.Sets); {
	case n == 0 && v.Joined:
		return says + ". Joined, no set recorded yet."
	case n == 0:
		return says + ". Not joined yet."
	default:
		return says + ". " + upper(count(n, "set", "sets")) + ", the last on " + v.Last + "."
	}
}

func (ro *Roster) showStudent(w http.ResponseWriter, r *http.Request) error {
	return ro.renderStudent(w, r, http.StatusOK, func(*studentView) {})
}

// renderStudent shows the student; with puts in the form that was refused.
func (ro *Roster) renderStudent(w http.ResponseWriter, r *http.Request, status int, with func(*studentView)) error {
	student, err := ro.student(r)
	if err != nil {
		return err
	}
	joined, err := ro.hasJoined(r.Context(), student)
	if err != nil {
		return err
	}
	v := studentView{
		studentLine: lineOf(student, store.ClassID{}, joined), Archived: student.Archived,
		Rename:   page.NewForm(map[string]string{"name": student.Name}),
		SideForm: page.NewForm(nil), Classes: page.NewForm(nil),
	}
	v.Class = ""
	if err := ro.fillClasses(r, student, &v); err != nil {
		return err
	}
	if err := ro.fillRecords(r, student, &v); err != nil {
		return err
	}
	with(&v)
	v.Frame = ro.Sessions.Frame(w, r)
	return page.Render(w, r, status, studentPage(v))
}

// fillClasses adds the classes the student is in, and those they could be in.
func (ro *Roster) fillClasses(r *http.Request, student store.Person, v *studentView) error {
	coach := session.From(r).Viewer
	all, err := ro.Store.ListClasses(r.Context(), coach, store.Live)
	if err != nil {
		return err
	}
	// What the student would see of the classes is their own.
	asStudent := store.Viewer{Club: coach.Club, Person: student.ID, Role: store.Student}
	in, err := ro.Store.ListClasses(r.Context(), asStudent, store.Live)
	if err != nil {
		return err
	}
	for _, c := range all {
		if slices.ContainsFunc(in, func(mine store.Class) bool { return mine.ID == c.ID }) {
			v.In = append(v.In, classLine{Path: classPath(c.ID), ID: c.ID.String(), Name: c.Name})
		} else {
			v.Elsewhere = append(v.Elsewhere, page.Option{Value: c.ID.String(), Words: c.Name})
		}
	}
	return nil
}

// fillRecords adds what the student recorded and was told.
func (ro *Roster) fillRecords(r *http.Request, student store.Person, v *studentView) error {
	visitor := session.From(r)
	sets, err := ro.Store.ListSets(r.Context(), visitor.Viewer, student.ID)
	if err != nil {
		return err
	}
	history, err := ro.Store.GetHistory(r.Context(), visitor.Viewer, student.ID)
	if err != nil {
		return err
	}
	drills, err := ro.Store.ListDrills(r.Context(), visitor.Viewer, store.All)
	if err != nil {
		return err
	}
	prescriptions, err := ro.Store.ListPrescriptions(r.Context(), visitor.Viewer, student.ID)
	if err != nil {
		return err
	}
	v.Sets = setRows(sets, history, drills, visitor.Zone)
	v.Prescriptions = prescriptionLines(prescriptions, visitor.Zone)
	if len(sets) > 0 {
		v.Last = day(sets[0].Started, visitor.Zone)
	}
	return nil
}
