package plan

import (
	"net/http"

	"breakwright/internal/drill"
	"breakwright/internal/store"
	"breakwright/web/page"
	"breakwright/web/session"
)

func (p *Plan) newDrill(w http.ResponseWriter, r *http.Request) error {
	v := openNew(firstDrill())
	v.Frame = p.sessions.TakeFrame(w, r)
	return page.Render(w, r, http.StatusOK, editorPage(v))
}

func (p *Plan) showDrill(w http.ResponseWriter, r *http.Request) error {
	d, err := p.drillOf(r)
	if err != nil {
		return err
	}
	v := openDrill(d)
	v.Frame = p.sessions.TakeFrame(w, r)
	return page.Render(w, r, http.StatusOK, editorPage(v))
}

// makeDrill saves a new drill.
func (p *Plan) makeDrill(w http.ResponseWriter, r *http.Request) error {
	form, err := page.ReadForm(w, r)
	if err != nil {
		return err
	}
	form.Values.Del(fieldDrill)
	v, typed := reopen(form)
	if !v.ready() {
		return p.refuse(w, r, v)
	}
	id := store.DrillID{UUID: madeBy(form, fingerprint(typed))}
	saved, err := p.store.SaveDrill(r.Context(), session.MustUser(r).Actor, id, typed)
	if form.AddProblems(err) {
		return p.refuse(w, r, v)
	}
	if err != nil {
		return err
	}
	p.sessions.SetFlash(w, r, "Drill saved. Nobody has it yet: assign it when you are ready.")
	return page.Redirect(w, r, "/drills/"+saved.ID.String())
}

// changeDrill saves an edit. The store decides whether the drill is changed or,
// because students have it already, replaced by a new one.
func (p *Plan) changeDrill(w http.ResponseWriter, r *http.Request) error {
	kept, err := p.drillOf(r)
	if err != nil {
		return err
	}
	form, err := page.ReadForm(w, r)
	if err != nil {
		return err
	}
	form.Values.Set(fieldDrill, kept.ID.String())
	v, typed := reopen(form)
	v.Drill = kept
	v.Overtaken = overtaken(form, kept, typed)
	if !v.ready() {
		return p.refuse(w, r, v)
	}
	saved, err := p.store.SaveDrill(r.Context(), session.MustUser(r).Actor, kept.ID, typed)
	if form.AddProblems(err) {
		return p.refuse(w, r, v)
	}
	if err != nil {
		return err
	}
	p.sessions.SetFlash(w, r, savedWords(kept.ID, saved))
	return page.Redirect(w, r, "/drills/"+saved.ID.String())
}

// overtaken says whether somebody saved the drill after this form was opened.
// The form then shows so once, and may be saved again.
func overtaken(f *page.Form, kept store.Drill, typed drill.Drill) bool {
	seen := f.Text(fieldSeen)
	now := fingerprint(kept.Drill)
	f.Values.Set(fieldSeen, now)
	return seen != now && !kept.Archived && kept.Drill != typed
}

func savedWords(was store.DrillID, saved store.Drill) string {
	if saved.ID != was {
		return "Saved as a new version: assignments already given keep the old one."
	}
	return "Drill saved."
}

// refuse shows the form again with everything that was typed.
func (p *Plan) refuse(w http.ResponseWriter, r *http.Request, v *editorView) error {
	v.Saving = true
	v.Frame = p.sessions.TakeFrame(w, r)
	return page.Render(w, r, http.StatusUnprocessableEntity, editorPage(v))
}
