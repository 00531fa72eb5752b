package coach

import (
	"net/http"
	"net/url"
	"slices"

	"github.com/go-chi/chi/v5"

	"breakwright/internal/rack"
	"breakwright/internal/setreview"
	"breakwright/internal/store"
	"breakwright/web/component"
	"breakwright/web/page"
	"breakwright/web/route"
	"breakwright/web/session"
)

// showOwnChange is the page on which a coach prescribes a change that nobody
// proposed, from a closed set. A rack plan's order comes with the address.
func (p *Pages) showOwnChange(w http.ResponseWriter, r *http.Request) error {
	set, err := p.findSet(r)
	if err != nil {
		return err
	}
	if one := set.Prescription; one != nil && one.State == store.Proposed {
		return page.Redirect(w, r, route.PrescriptionPath(one.ID))
	}
	latest, err := p.store.FindSetToChange(r.Context(), session.MustUser(r).Actor, set.ID)
	if err != nil {
		return err
	}
	if latest != set.ID {
		p.sessions.SetFlash(w, r, "This is the newest set: a change is made from what "+set.StudentName+" breaks now.")
		return page.Redirect(w, r, (&url.URL{Path: route.SetChangePath(latest), RawQuery: r.URL.RawQuery}).String())
	}
	v := newOwnChangeView(set, fillSetupForm(r, set.Setup, set.Table.Kind))
	v.Frame = p.sessions.TakeFrame(w, r)
	if order, err := rack.ParseTypedOrder(set.Setup.Game, r.URL.Query().Get(component.FieldOrder)); err == nil {
		v.Shown.Order = order
		v.Form.Values.Set(component.FieldOrder, order.String())
	}
	v.Form.Values.Set("change", store.NewID[store.PrescriptionID]().String())
	return page.Render(w, r, http.StatusOK, prescriptionPage(v))
}

func newOwnChangeView(set store.Set, form *page.Form) prescriptionView {
	return prescriptionView{
		Path: route.SetChangePath(set.ID), Set: set, Own: true, Form: form, Shown: set.Setup,
		One: store.Prescription{Before: set.Setup, After: set.Setup},
	}
}

func (p *Pages) decideOwnChange(w http.ResponseWriter, r *http.Request) error {
	set, form, err := page.ReadFormOf(w, r, p.findSet)
	if err != nil {
		return err
	}
	v := newOwnChangeView(set, form)
	own := store.OwnChange{Set: set.ID, Note: form.Text("note")}
	if own.ID, err = store.ParseID[store.PrescriptionID](form.Text("change")); err != nil {
		own.ID = store.NewID[store.PrescriptionID]()
		form.Values.Set("change", own.ID.String())
	}
	own.Setup = component.ReadSetup(form, set.Setup, set.Table.Kind)
	checkChange(form, own.Setup, set)
	if form.IsValid() {
		v.Shown = own.Setup
		if !form.Has("show") && own.Setup.Rounded() == set.Setup.Rounded() {
			form.Reject(component.FieldCueAcross, "nothing is changed yet: change one part of the setup")
		}
	}
	if form.IsValid() && !form.Has("show") {
		err := p.store.DecideOwnChange(r.Context(), session.MustUser(r).Actor, own)
		if err == nil {
			p.sessions.SetFlashWithUndo(w, r, set.StudentName+": your change is prescribed. The next set carries it.", reopenForm(own.ID, set.StudentName))
			return page.Redirect(w, r, "/desk")
		}
		if !form.AddProblems(err) {
			return err
		}
	}
	if isDrawing(r, form) {
		return renderDrawn(w, r, v)
	}
	v.Frame, v.Typed = page.Frame{Person: session.PagePerson(r)}, true
	return page.Render(w, r, formStatus(form), prescriptionPage(v))
}

// findChangePlace leads to where a student's change is decided: the proposal that
// waits, else the coach's own from their latest closed set of a drill.
func (p *Pages) findChangePlace(w http.ResponseWriter, r *http.Request) error {
	student, err := store.ParseID[store.PersonID](chi.URLParam(r, "student"))
	if err != nil {
		return err
	}
	sets, err := p.store.ListSets(r.Context(), session.MustUser(r).Actor, student)
	if err != nil {
		return err
	}
	i := slices.IndexFunc(sets, func(s store.ListedSet) bool { return !s.Closed.IsZero() && s.DrillName != "" && s.Breaks > 0 })
	if i < 0 {
		p.sessions.SetFlash(w, r, "No set of a drill is done yet, so there is no setup to change.")
		return page.Redirect(w, r, route.StudentPath(student))
	}
	return page.Redirect(w, r, route.SetChangePath(sets[i].ID))
}

// reopenForm takes a decision back.
func reopenForm(id store.PrescriptionID, student string) *page.UndoForm {
	return &page.UndoForm{Path: route.PrescriptionPath(id) + "/reopen", About: "the decision for " + student}
}

func (p *Pages) reopenDecision(w http.ResponseWriter, r *http.Request) error {
	set, one, err := p.findPrescription(r)
	if err != nil {
		return err
	}
	coach := session.MustUser(r).Actor
	if err := p.store.ReopenDecision(r.Context(), coach, one.ID, setreview.JudgeCase); err != nil {
		return err
	}
	if one, err = p.store.GetPrescription(r.Context(), coach, one.ID); err != nil {
		return err
	}
	p.sessions.SetFlash(w, r, set.StudentName+": "+takenBackWords(one))
	return page.Redirect(w, r, "/desk")
}

// takenBackWords say what stands now that a decision does not.
func takenBackWords(one store.Prescription) string {
	switch {
	case one.IsOwn():
		return "your change is taken back. The next set stays as it was before it."
	case one.State == store.Proposed:
		return "the decision is taken back. The proposal waits for you again."
	}
	return "the decision is taken back. A newer set was closed since: what that says stands now."
}
