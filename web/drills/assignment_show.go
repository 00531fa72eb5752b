package drills

import (
	"net/http"
	"time"

	"breakwright/internal/store"
	"breakwright/web/page"
	"breakwright/web/route"
	"breakwright/web/session"
)

// assignmentView is the page that says who has done an assignment.
type assignmentView struct {
	Frame      page.Frame
	Form       *page.Form
	Assignment store.Assignment
	Drill      store.Drill
	ClassName  string // "" when it is for single students
	Rows       []store.AssignmentProgress
	Zone       *time.Location
	// Today is the day it is in the club.
	Today string
	// Changing opens the part in which due day and note are changed.
	Changing bool
}

func (v assignmentView) pagePath() string { return route.AssignmentPath(v.Assignment.ID) }
func (v assignmentView) isEnded() bool    { return !v.Assignment.Ended.IsZero() }

func (p *Pages) showAssignment(w http.ResponseWriter, r *http.Request) error {
	v, err := p.loadAssignment(r)
	if err != nil {
		return err
	}
	v.Frame = p.sessions.TakeFrame(w, r)
	return page.Render(w, r, http.StatusOK, assignmentPage(v))
}

// loadAssignment gets the page whole, its form filled as it is kept.
func (p *Pages) loadAssignment(r *http.Request) (v assignmentView, err error) {
	user, ctx := session.MustUser(r), r.Context()
	v.Zone = user.Zone
	v.Today = p.now().In(user.Zone).Format(time.DateOnly)
	id, err := parseAssignmentID(r)
	if err != nil {
		return v, err
	}
	if v.Assignment, err = p.store.GetAssignment(ctx, user.Actor, id); err != nil {
		return v, err
	}
	if v.Drill, err = p.store.GetDrill(ctx, user.Actor, v.Assignment.Drill); err != nil {
		return v, err
	}
	if !store.IsZero(v.Assignment.Class) {
		class, _, err := p.store.GetClass(ctx, user.Actor, v.Assignment.Class)
		if err != nil {
			return v, err
		}
		v.ClassName = class.Name
	}
	v.Form = page.NewForm(map[string]string{fieldDue: formatDateField(v.Assignment.Due), fieldNote: v.Assignment.Note})
	v.Rows, err = p.store.GetAssignmentProgress(ctx, user.Actor, id)
	return v, err
}

// changeAssignment gives it another due day and note.
func (p *Pages) changeAssignment(w http.ResponseWriter, r *http.Request) error {
	v, err := p.loadAssignment(r)
	if err != nil {
		return err
	}
	kept := v.Form.Text(fieldDue)
	if v.Form, err = page.ReadForm(w, r); err != nil {
		return err
	}
	earliest := v.Today
	if kept != "" {
		earliest = min(earliest, kept) // the day it has may stay, even when it is over
	}
	due, note := readDueDay(v.Form, earliest), readAssignmentNote(v.Form)
	if v.Form.IsValid() {
		err = p.store.ChangeAssignment(r.Context(), session.MustUser(r).Actor, v.Assignment.ID, due, note)
		if !v.Form.AddProblems(err) && err != nil {
			return err
		}
	}
	if !v.Form.IsValid() {
		v.Changing = true
		v.Frame = p.sessions.TakeFrame(w, r)
		return page.Render(w, r, http.StatusUnprocessableEntity, assignmentPage(v))
	}
	p.sessions.SetFlash(w, r, "Changed. The students see it so from now on.")
	return page.Redirect(w, r, v.pagePath())
}

// endAssignment takes it off the students' pages, with its twin when the form names one;
// ending it twice is no harm.
func (p *Pages) endAssignment(w http.ResponseWriter, r *http.Request) error {
	id, err := parseAssignmentID(r)
	if err != nil {
		return err
	}
	form, err := page.ReadForm(w, r)
	if err != nil {
		return err
	}
	ending := []store.AssignmentID{id}
	if form.Has(fieldTwin) {
		twin, err := store.ParseID[store.AssignmentID](form.Text(fieldTwin))
		if err != nil {
			return err
		}
		ending = append(ending, twin)
	}
	if err := p.store.EndAssignment(r.Context(), session.MustUser(r).Actor, ending...); err != nil {
		return err
	}
	if len(ending) > 1 {
		p.sessions.SetFlash(w, r, "Both are ended. What was recorded stays.")
		return page.Redirect(w, r, "/assignments")
	}
	p.sessions.SetFlashWithUndo(w, r, "Ended. What was recorded stays; a set that is open can still be finished.",
		&page.UndoForm{Path: route.AssignmentPath(id) + "/resume", About: "the end of the assignment"})
	return page.Redirect(w, r, route.AssignmentPath(id))
}

// resumeAssignment puts an ended one back on the students' pages.
func (p *Pages) resumeAssignment(w http.ResponseWriter, r *http.Request) error {
	id, err := parseAssignmentID(r)
	if err != nil {
		return err
	}
	if err := p.store.ResumeAssignment(r.Context(), session.MustUser(r).Actor, id); err != nil {
		return err
	}
	p.sessions.SetFlash(w, r, "It is on the students’ pages again.")
	return page.Redirect(w, r, route.AssignmentPath(id))
}
