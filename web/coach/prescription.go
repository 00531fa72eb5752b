package coach

import (
	"cmp"
	"context"
	"net/http"

	"github.com/go-chi/chi/v5"

	"breakwright/internal/drill"
	"breakwright/internal/say"
	"breakwright/internal/store"
	"breakwright/internal/table"
	"breakwright/web/component"
	"breakwright/web/page"
	"breakwright/web/route"
	"breakwright/web/session"
)

// prescriptionView is the page on which a coach changes what is proposed.
type prescriptionView struct {
	Frame page.Frame
	Path  string
	Set   store.Set
	One   store.Prescription
	Form  *page.Form
	// Shown is the setup that the pictures show: the one typed so far.
	Shown drill.Setup
	// Typed says that the form came from the page and was not saved.
	Typed bool
	// Own says that the coach makes a change that nobody proposed.
	Own bool
	// Undo takes a decision back; nil when there is none, or it is too late.
	Undo *page.UndoForm
}

func (v prescriptionView) isOpen() bool { return v.Own || v.One.State == store.Proposed }

// drawn are the pictures that write into the form, with the place before the change.
func (v prescriptionView) drawn() component.DrawnSetup {
	kind := v.Set.Table.Kind
	look := component.SetupView{ID: "look", Setup: v.Shown, Kind: kind, Window: v.Set.Window, Box: v.Set.House.BreakBox, From: &v.One.Before}
	return component.DrawnSetup{
		ID: "drawn", Setup: v.Shown, Kind: kind, Table: look.TableView(),
		CueStep: 0.25,
	}
}

// drawnApart is drawn as a part that follows the fields.
func (v prescriptionView) drawnApart() component.DrawnSetup {
	d := v.drawn()
	d.Apart = true
	return d
}

// setupFields are the fields of cue ball and stroke, as every form has them.
func (v prescriptionView) setupFields() []page.Field {
	var all []page.Field
	for _, i := range component.NewSetupInputs(v.Shown, v.Set.Table.Kind, v.Set.House.BreakBox, v.Form.Units).List() {
		all = append(all, page.Field{Name: i.Name, Label: i.Label, Hint: i.Hint, InputMode: i.Mode, Optional: i.Optional, Short: true})
	}
	return all
}

// coach is who reads the page.
func (v prescriptionView) coach(ctx context.Context) say.Reader {
	return say.Reader{Who: say.Coach, Units: say.UnitsOf(ctx)}.BreakingFrom(v.One.Before.Side)
}

// unsavedState says to the script whether the form holds what is nowhere saved.
func (v prescriptionView) unsavedState() string {
	if v.Typed {
		return "yes"
	}
	return "no"
}

// isDrawing reports whether only the pictures of what is typed are asked for.
func isDrawing(r *http.Request, form *page.Form) bool {
	return page.IsPartial(r) && form.Text("show") == "drawn"
}

// findPrescription finds a prescription of the club with its set.
func (p *Pages) findPrescription(r *http.Request) (store.Set, store.Prescription, error) {
	id, err := store.ParseID[store.PrescriptionID](chi.URLParam(r, "prescription"))
	if err != nil {
		return store.Set{}, store.Prescription{}, err
	}
	actor := session.MustUser(r).Actor
	one, err := p.store.GetPrescription(r.Context(), actor, id)
	if err != nil {
		return store.Set{}, one, err
	}
	set, err := p.store.GetSet(r.Context(), actor, one.Set)
	return set, one, err
}

func (p *Pages) showPrescription(w http.ResponseWriter, r *http.Request) error {
	set, one, err := p.findPrescription(r)
	if err != nil {
		return err
	}
	v := prescriptionView{
		Frame: p.sessions.TakeFrame(w, r), Path: route.PrescriptionPath(one.ID), Set: set, One: one,
		Form: fillSetupForm(r, one.Setup, set.Table.Kind), Shown: one.After,
	}
	// Typed on the desk, or told with a decision that was taken back.
	v.Form.Values.Set("note", cmp.Or(r.URL.Query().Get("note"), one.DecisionNote))
	if page.IsPartial(r) && v.isOpen() {
		return page.Render(w, r, http.StatusOK, changeSetupRow(v))
	}
	if v.Undo, err = p.findUndo(r, set, one); err != nil {
		return err
	}
	return page.Render(w, r, http.StatusOK, prescriptionPage(v))
}

// findUndo returns the form that takes a decision back, nil when that cannot be.
func (p *Pages) findUndo(r *http.Request, set store.Set, one store.Prescription) (*page.UndoForm, error) {
	if one.Decision == "" {
		return nil, nil
	}
	can, err := p.store.CanReopenDecision(r.Context(), session.MustUser(r).Actor, one.ID)
	if err != nil || !can {
		return nil, err
	}
	return reopenForm(one.ID, set.StudentName), nil
}

func (p *Pages) decidePrescription(w http.ResponseWriter, r *http.Request) error {
	form, err := page.ReadForm(w, r)
	if err != nil {
		return err
	}
	set, one, err := p.findPrescription(r)
	if err != nil {
		return err
	}
	decision := store.Decision{Answer: store.State(form.Text("answer")), Note: form.Text("note")}
	v := prescriptionView{Path: route.PrescriptionPath(one.ID), Set: set, One: one, Form: form, Shown: one.Setup}
	if decision.Answer == store.Changed || form.Has("show") {
		decision.Setup = component.ReadSetup(form, one.Setup, set.Table.Kind)
		v.Shown = decision.Setup
		checkChange(form, decision.Setup, set)
	}
	if form.IsValid() && decision.Answer == store.Changed && !form.Has("show") && decision.Setup == one.Before.Rounded() {
		form.Reject(component.FieldCueAcross, "this is the setup as it was: decline the change instead")
	}
	if form.IsValid() && !form.Has("show") {
		err := p.store.DecidePrescription(r.Context(), session.MustUser(r).Actor, one.ID, decision)
		if err == nil {
			return p.renderDecided(w, r, set, one, decision.Answer)
		}
		if !form.AddProblems(err) {
			return err
		}
	}
	v.Frame, v.Typed = page.Frame{Person: session.PagePerson(r)}, true
	if !form.IsValid() {
		v.Shown = one.Setup
	}
	if isDrawing(r, form) {
		return renderDrawn(w, r, v)
	}
	if page.IsPartial(r) && v.isOpen() {
		return page.Render(w, r, formStatus(form), changeSetupRow(v))
	}
	return page.Render(w, r, formStatus(form), prescriptionPage(v))
}

// checkChange objects beside the fields to a setup that cannot be, and to a cue ball that
// leaves the room's break box.
func checkChange(form *page.Form, s drill.Setup, set store.Set) {
	if s.Cue != set.Setup.Cue { // where it was it may stay
		component.RefuseOutsideBox(form, s, set.House.BreakBox)
	}
	component.AddFieldProblems(form, s.Check(set.Table.Kind))
}

// renderDrawn answers with the pictures of a setup that can be; of another there
// are none, and the page stays as it is.
func renderDrawn(w http.ResponseWriter, r *http.Request, v prescriptionView) error {
	if !v.Form.IsValid() {
		w.WriteHeader(http.StatusNoContent)
		return nil
	}
	return page.Render(w, r, http.StatusOK, drawnChange(v))
}

func formStatus(form *page.Form) int {
	if form.IsValid() {
		return http.StatusOK
	}
	return http.StatusUnprocessableEntity
}

// renderDecided tells the coach what was done, in the place of the proposal or on the
// desk.
func (p *Pages) renderDecided(w http.ResponseWriter, r *http.Request, set store.Set, one store.Prescription, answer store.State) error {
	words := map[store.State]string{
		store.Approved: "approved. The next set carries the change.",
		store.Changed:  "changed. The next set carries your own setup.",
		store.Declined: "declined. The next set stays as it was.",
	}[answer]
	if page.IsPartial(r) {
		return page.Render(w, r, http.StatusOK, decidedRow(one.ID.String(), set.StudentName, words, reopenForm(one.ID, set.StudentName)))
	}
	p.sessions.SetFlashWithUndo(w, r, set.StudentName+": "+words, reopenForm(one.ID, set.StudentName))
	return page.Redirect(w, r, "/desk")
}

// fillSetupForm shows the parts of a setup that a coach may set otherwise.
func fillSetupForm(r *http.Request, s drill.Setup, k table.Kind) *page.Form {
	u := say.UnitsOf(r.Context())
	return page.NewFormIn(u, component.SetupValues(s, k, u))
}
