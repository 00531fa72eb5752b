package plan

import (
	"crypto/sha256"
	"encoding/hex"
	"net/http"

	"breakwright/internal/drill"
	"breakwright/internal/store"
	"breakwright/web/page"
	"breakwright/web/session"

	"github.com/google/uuid"
)

// Hidden fields of the editor: which drill is being changed ("" for a new one),
// the id that a new one gets, and what the drill was when the form was opened.
const (
	fieldDrill = "drill"
	fieldID    = "id"
	fieldSeen  = "seen"
)

// openNew gives the editor of a new drill.
func openNew(d drill.Drill) *editorView {
	v := &editorView{Form: fillDrill(d), Drawn: d}
	v.Form.Values.Set(fieldID, newID())
	rememberShown(v.Form, d)
	return v
}

// openDrill gives the editor of a drill as it is kept.
func openDrill(d store.Drill) *editorView {
	v := &editorView{Form: fillDrill(d.Drill), Drawn: d.Drill, Drill: d}
	v.Form.Values.Set(fieldDrill, d.ID.String())
	v.Form.Values.Set(fieldSeen, fingerprint(d.Drill))
	rememberShown(v.Form, d.Drill)
	return v
}

// reopen gives the editor with what was typed, after the form has followed the
// coach's choices.
func reopen(f *page.Form) (v *editorView, typed drill.Drill) {
	v = &editorView{Form: f}
	v.Followed = follow(f)
	typed = readDrill(f)
	v.draw(typed)
	return v, typed
}

// draw sets what the pictures show.
func (v *editorView) draw(typed drill.Drill) {
	shown, _ := order(typed.Setup.Game, v.Form.Text(shownOrder)) // drawable looks whether it is legal
	v.Drawn = drawable(typed, shown)
	rememberShown(v.Form, v.Drawn)
}

// useEditor does what one of the editor's buttons asks for and shows the form
// again with the result: whole, or to htmx the part that changed. It saves
// nothing.
func (p *Plan) useEditor(w http.ResponseWriter, r *http.Request) error {
	form, err := page.ReadForm(w, r)
	if err != nil {
		return err
	}
	kept, err := p.kept(r, form)
	if err != nil {
		return err
	}
	v, _ := reopen(form)
	v.Said = act(form, v.Drawn, fairRand())
	form.Problems = nil
	v.draw(readDrill(form))
	forgiveEmptyName(form)
	v.Drill = kept
	if !page.IsPartial(r) {
		v.Frame = p.sessions.TakeFrame(w, r)
		return page.Render(w, r, http.StatusOK, editorPage(v))
	}
	if form.Text(fieldAction) == actUpdate && len(v.Followed) == 0 {
		w.Header().Set("HX-Reswap", "none") // each piece says itself where it goes
		return page.Render(w, r, http.StatusOK, editorUpdates(v))
	}
	w.Header().Set("HX-Retarget", "#plan")
	w.Header().Set("HX-Reswap", "innerHTML")
	return page.Render(w, r, http.StatusOK, editorPart(v))
}

// kept is the drill that the form changes; the zero Drill for a new one.
func (p *Plan) kept(r *http.Request, f *page.Form) (store.Drill, error) {
	if f.Text(fieldDrill) == "" {
		return store.Drill{}, nil
	}
	id, err := store.ParseID[store.DrillID](f.Text(fieldDrill))
	if err != nil {
		return store.Drill{}, err
	}
	return p.store.GetDrill(r.Context(), session.MustUser(r).Actor, id)
}

// leaveEditor answers a reload of the address that the buttons post to.
func (p *Plan) leaveEditor(w http.ResponseWriter, r *http.Request) error {
	return page.Redirect(w, r, "/drills/new")
}

// forgiveEmptyName asks for a name only when the drill is saved.
func forgiveEmptyName(f *page.Form) {
	if text(f, fieldName) != "" {
		return
	}
	var rest drill.Problems
	for _, problem := range f.Problems {
		if problem.Field != fieldName {
			rest = append(rest, problem)
		}
	}
	f.Problems = rest
}

// fingerprint tells two states of a drill apart.
func fingerprint(d drill.Drill) string {
	sum := sha256.Sum256([]byte(fillDrill(d).Values.Encode()))
	return hex.EncodeToString(sum[:8])
}

// newID makes the id of what a form will make.
func newID() string { return uuid.Must(uuid.NewV7()).String() }

// madeBy is the id of what a form makes: the same when the form is sent twice,
// another when it was called back and changed, so that a new thing never takes
// the place of the first. A form that lost its id repeats nothing.
func madeBy(f *page.Form, content string) uuid.UUID {
	id, err := uuid.Parse(f.Text(fieldID))
	if err != nil {
		return uuid.Must(uuid.NewV7())
	}
	return uuid.NewSHA1(id, []byte(content))
}
