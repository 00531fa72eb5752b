package drills

import (
	"crypto/sha256"
	"encoding/hex"
	"net/http"

	"github.com/google/uuid"

	"breakwright/internal/drill"
	"breakwright/internal/rack"
	"breakwright/internal/say"
	"breakwright/internal/store"
	"breakwright/web/page"
	"breakwright/web/session"
)

// Hidden fields of the editor: which drill is being changed ("" for a new one),
// the id that a new one gets, and what the drill was when the form was opened.
const (
	fieldDrill       = "drill"
	fieldID          = "id"
	fieldFingerprint = "seen"
)

// newEditor returns the editor of a new drill.
func newEditor(d drill.Drill, u say.Units) *editorView {
	v := &editorView{Form: fillDrillForm(d, u), Drawn: d}
	v.Form.Values.Set(fieldID, newFormID())
	rememberShown(v.Form, d)
	return v
}

// editorOfDrill returns the editor of a drill as it is kept.
func editorOfDrill(d store.Drill, u say.Units) *editorView {
	v := &editorView{Form: fillDrillForm(d.Drill, u), Drawn: d.Drill, Drill: d}
	v.Form.Values.Set(fieldDrill, d.ID.String())
	v.Form.Values.Set(fieldFingerprint, fingerprint(d.Drill))
	rememberShown(v.Form, d.Drill)
	return v
}

// reopenEditor returns the editor with what was typed, after the form has followed the
// coach's choices.
func reopenEditor(f *page.Form) (v *editorView, typed drill.Drill) {
	v = &editorView{Form: f}
	v.Followed = followChoices(f)
	typed = readDrill(f)
	v.drawPictures(typed)
	return v, typed
}

// drawPictures sets what the pictures show.
func (v *editorView) drawPictures(typed drill.Drill) {
	shown, _ := rack.ParseTypedOrder(typed.Setup.Game, v.Form.Text(shownOrder)) // drawable looks whether it is legal
	v.Drawn = drawableDrill(typed, shown)
	rememberShown(v.Form, v.Drawn)
}

// runEditorAction does what one of the editor's buttons asks for and shows the form
// again with the result: whole, or to htmx the part that changed. It saves
// nothing.
func (p *Pages) runEditorAction(w http.ResponseWriter, r *http.Request) error {
	form, err := page.ReadForm(w, r)
	if err != nil {
		return err
	}
	kept, err := p.findEditedDrill(r, form)
	if err != nil {
		return err
	}
	v, _ := reopenEditor(form)
	v.Feedback = applyAction(form, v.Drawn, newUnpredictableRand())
	form.Problems = nil
	v.drawPictures(readDrill(form))
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

// findEditedDrill is the drill that the form changes; the zero Drill for a new one.
func (p *Pages) findEditedDrill(r *http.Request, f *page.Form) (store.Drill, error) {
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
func (p *Pages) leaveEditor(w http.ResponseWriter, r *http.Request) error {
	return page.Redirect(w, r, "/drills/new")
}

// forgiveEmptyName asks for a name only when the drill is saved.
func forgiveEmptyName(f *page.Form) {
	if readText(f, fieldName) != "" {
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
	sum := sha256.Sum256([]byte(fillDrillForm(d, say.InchesAndMiles).Values.Encode()))
	return hex.EncodeToString(sum[:8])
}

// newFormID makes the id of what a form will make.
func newFormID() string { return uuid.Must(uuid.NewV7()).String() }

// idFromForm is the id of what a form makes: the same when the form is sent twice,
// another when it was called back and changed, so that a new thing never takes
// the place of the first. A form that lost its id repeats nothing.
func idFromForm(f *page.Form, content string) uuid.UUID {
	id, err := uuid.Parse(f.Text(fieldID))
	if err != nil {
		return uuid.Must(uuid.NewV7())
	}
	return uuid.NewSHA1(id, []byte(content))
}
