package roster

import (
	"net/http"
	"slices"

	"breakwright/internal/store"
	"breakwright/web/page"
	"breakwright/web/progress"
	"breakwright/web/route"
	"breakwright/web/session"
)

// studentView is the coach's page of one student.
type studentView struct {
	Frame page.Frame
	// studentLine without a class: a change of side comes back to this page.
	studentLine
	Archived  bool
	In        []classListLine
	Elsewhere []page.Option // the classes they are not in
	// Story is what they recorded and were told.
	Story progress.Story
	Next  studentNext
	// The page's forms.
	Rename, SideForm, Classes, Note, Message *page.Form
}

func (v studentView) headline() string {
	says := breakSideWords(v.Side) + ". "
	switch {
	case len(v.Story.Steps) > 0:
		return says + v.Story.Answer
	case v.Joined:
		return says + "Joined, no set closed yet."
	}
	return says + "Not joined yet."
}

func (v studentView) messageHint() string {
	if v.Story.LastSet == "" {
		return "They read it on their first page."
	}
	return "They read it beside their latest set."
}

func (ro *Pages) showStudent(w http.ResponseWriter, r *http.Request) error {
	return ro.renderStudent(w, r, http.StatusOK, func(*studentView) {})
}

// renderStudent shows the student; with puts in the form that was refused.
func (ro *Pages) renderStudent(w http.ResponseWriter, r *http.Request, status int, with func(*studentView)) error {
	student, err := ro.findStudent(r)
	if err != nil {
		return err
	}
	v := studentView{
		studentLine: newStudentLine(student, store.ClassID{}), Archived: student.Archived,
		Rename:   page.NewForm(map[string]string{"name": student.Name}),
		SideForm: page.NewForm(nil), Classes: page.NewForm(nil), Message: newFormWithID(),
	}
	note, err := ro.Store.GetStudentNote(r.Context(), session.MustUser(r).Actor, student.ID)
	if err != nil {
		return err
	}
	v.Note = page.NewForm(map[string]string{"note": note})
	v.Class = ""
	if err := ro.fillClasses(r, student, &v); err != nil {
		return err
	}
	if v.Story, err = progress.LoadStory(r, ro.Store, student.ID, v.Path); err != nil {
		return err
	}
	if err := ro.loadNext(r, student, &v); err != nil {
		return err
	}
	with(&v)
	v.Frame = ro.Sessions.TakeFrame(w, r)
	return page.Render(w, r, status, studentPage(v))
}

// fillClasses adds the classes the student is in, and those they could be in.
func (ro *Pages) fillClasses(r *http.Request, student store.Person, v *studentView) error {
	coach := session.MustUser(r).Actor
	all, err := ro.Store.ListClasses(r.Context(), coach, store.ActiveOnly)
	if err != nil {
		return err
	}
	// What the student would see of the classes is their own.
	asStudent := store.Actor{Club: coach.Club, Person: student.ID, Role: store.Student}
	in, err := ro.Store.ListClasses(r.Context(), asStudent, store.ActiveOnly)
	if err != nil {
		return err
	}
	for _, c := range all {
		if slices.ContainsFunc(in, func(mine store.Class) bool { return mine.ID == c.ID }) {
			v.In = append(v.In, classListLine{Path: route.ClassPath(c.ID), ID: c.ID.String(), Name: c.Name})
		} else {
			v.Elsewhere = append(v.Elsewhere, page.Option{Value: c.ID.String(), Words: c.Name})
		}
	}
	return nil
}
