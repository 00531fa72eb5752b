package drills

import (
	"net/http"

	"breakwright/internal/drill"
	"breakwright/internal/say"
	"breakwright/internal/store"
	"breakwright/web/page"
	"breakwright/web/route"
	"breakwright/web/session"
)

func (p *Pages) showNewDrill(w http.ResponseWriter, r *http.Request) error {
	v := newEditor(newDrillDefaults(), say.UnitsOf(r.Context()))
	v.Frame = p.sessions.TakeFrame(w, r)
	return page.Render(w, r, http.StatusOK, editorPage(v))
}

func (p *Pages) showDrill(w http.ResponseWriter, r *http.Request) error {
	d, err := p.findDrill(r)
	if err != nil {
		return err
	}
	v := editorOfDrill(d, say.UnitsOf(r.Context()))
	v.Frame = p.sessions.TakeFrame(w, r)
	return page.Render(w, r, http.StatusOK, editorPage(v))
}

// createDrill saves a new drill.
func (p *Pages) createDrill(w http.ResponseWriter, r *http.Request) error {
	form, err := page.ReadForm(w, r)
	if err != nil {
		return err
	}
	form.Values.Del(fieldDrill)
	v, typed := reopenEditor(form)
	if !v.canSave() {
		return p.renderRefused(w, r, v)
	}
	id := store.DrillID{UUID: idFromForm(form, fingerprint(typed))}
	saved, err := p.store.SaveDrill(r.Context(), session.MustUser(r).Actor, id, typed)
	if form.AddProblems(err) {
		return p.renderRefused(w, r, v)
	}
	if err != nil {
		return err
	}
	p.sessions.SetFlash(w, r, "Drill saved. Nobody has it yet: assign it when you are ready.")
	return page.Redirect(w, r, route.DrillPath(saved.ID))
}

// changeDrill saves an edit. The store decides whether the drill is changed or,
// because students have it already, replaced by a new one.
func (p *Pages) changeDrill(w http.ResponseWriter, r *http.Request) error {
	kept, form, err := page.ReadFormOf(w, r, p.findDrill)
	if err != nil {
		return err
	}
	form.Values.Set(fieldDrill, kept.ID.String())
	v, typed := reopenEditor(form)
	v.Drill = kept
	v.Overtaken = changedMeanwhile(form, kept, typed)
	if !v.canSave() {
		return p.renderRefused(w, r, v)
	}
	saved, err := p.store.SaveDrill(r.Context(), session.MustUser(r).Actor, kept.ID, typed)
	if form.AddProblems(err) {
		return p.renderRefused(w, r, v)
	}
	if err != nil {
		return err
	}
	p.sessions.SetFlash(w, r, savedDrillWords(kept.ID, saved))
	return page.Redirect(w, r, route.DrillPath(saved.ID))
}

// changedMeanwhile reports whether somebody saved the drill after this form was opened.
// The form then shows so once, and may be saved again.
func changedMeanwhile(f *page.Form, kept store.Drill, typed drill.Drill) bool {
	seen := f.Text(fieldFingerprint)
	now := fingerprint(kept.Drill)
	f.Values.Set(fieldFingerprint, now)
	return seen != now && !kept.Archived && kept.Drill != typed
}

func savedDrillWords(was store.DrillID, saved store.Drill) string {
	if saved.ID != was {
		return "Saved as a new version: assignments already given keep the old one."
	}
	return "Drill saved."
}

// renderRefused shows the form again with everything that was typed.
func (p *Pages) renderRefused(w http.ResponseWriter, r *http.Request, v *editorView) error {
	v.Saving = true
	v.Frame = p.sessions.TakeFrame(w, r)
	return page.Render(w, r, http.StatusUnprocessableEntity, editorPage(v))
}
