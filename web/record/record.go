package record

import (
	"context"
	"net/http"
	"slices"
	"strconv"
	"time"

	"breakwright/internal/say"
	"breakwright/internal/setreview"
	"breakwright/internal/store"
	"breakwright/internal/table"
	"breakwright/web/page"
	"breakwright/web/picture"
	"breakwright/web/route"
	"breakwright/web/session"
)

// Pages are the pages at the table.
type Pages struct {
	store    *store.Store
	sessions *session.Manager
	now      func() time.Time
}

// New makes them; now is the clock that breaks are dated with.
func New(s *store.Store, sessions *session.Manager, now func() time.Time) *Pages {
	return &Pages{store: s, sessions: sessions, now: now}
}

// Routes are the rows of the route table. The set's own page, /my/sets/{set},
// sends here while a break is still to be entered.
func (p *Pages) Routes() []route.Route {
	return []route.Route{
		route.Get("/my/sets/{set}/next", route.Student, p.showNextBreak),
		route.Post("/my/sets/{set}/next", route.Student, p.saveNextBreak),
		route.Get("/my/sets/{set}/breaks/{break}", route.Student, p.showBreak),
		route.Post("/my/sets/{set}/breaks/{break}", route.Student, p.saveBreak),
		route.Post("/my/sets/{set}/breaks/{break}/delete", route.Student, p.deleteBreak),
		route.Post("/my/sets/{set}/undo", route.Student, p.undoLast),
		route.Post("/my/sets/{set}/close", route.Student, p.closeSet),
		route.Post("/my/sets/{set}/reopen", route.Student, p.reopenSet),
		route.Post("/my/sets/{set}/discard", route.Student, p.discardSet),
		route.Get("/my/sets/{set}/cloth.svg", route.Student, p.serveCloth),
		route.Get("/table", route.Anyone, p.showTablePage).At(route.Asset),
		route.Get("/sw.js", route.Anyone, p.serveServiceWorker).At(route.Asset),
		route.Get("/manifest.webmanifest", route.Anyone, p.serveManifest).At(route.Asset),
	}
}

// findSet finds who asks, and the set of theirs that the address names.
func (p *Pages) findSet(r *http.Request) (session.User, store.Set, error) {
	set, err := session.FindNamed(r, "set", p.store.GetSet)
	return session.MustUser(r), set, err
}

// readSetForm finds who asks and their set, and reads what they typed.
func (p *Pages) readSetForm(w http.ResponseWriter, r *http.Request) (session.User, recordView, error) {
	user, set, err := p.findSet(r)
	if err != nil {
		return user, recordView{}, err
	}
	form, err := page.ReadForm(w, r)
	return user, recordView{Set: set, Form: form}, err
}

// WholeSetPath is the set's own page while breaks are still to be entered: there it is
// closed early, put away, or moved.
func WholeSetPath(set store.Set) string { return route.OwnSetPath(set.ID) + "?review" }

// nextBreakNumber is the first number without a break, and false when the set is
// full.
func nextBreakNumber(set store.Set) (int, bool) {
	for n := 1; n <= set.Planned; n++ {
		if !slices.ContainsFunc(set.Breaks, func(b store.Break) bool { return b.Number == n }) {
			return n, true
		}
	}
	return 0, false
}

func (p *Pages) showNextBreak(w http.ResponseWriter, r *http.Request) error {
	user, set, err := p.findSet(r)
	if err != nil {
		return err
	}
	number, more := nextBreakNumber(set)
	if !more || !set.Closed.IsZero() {
		return page.Redirect(w, r, route.OwnSetPath(set.ID))
	}
	form := page.NewFormIn(user.Units, map[string]string{
		"break_id": store.NewID[store.BreakID]().String(), "revision": "1", "number": strconv.Itoa(number),
	})
	v := recordView{Set: set, Form: form, Number: number}
	if v.watchList().CueOnly {
		form.Values.Set("wing", wingNotWatched)
	}
	return p.renderForm(w, r, http.StatusOK, v)
}

func (p *Pages) saveNextBreak(w http.ResponseWriter, r *http.Request) error {
	user, v, err := p.readSetForm(w, r)
	if err != nil {
		return err
	}
	// The number is the form's own, so that a form sent twice is the same break.
	if v.Number, err = strconv.Atoi(v.Form.Text("number")); err != nil {
		v.Number, _ = nextBreakNumber(v.Set)
	}
	return p.saveForm(w, r, user, v)
}

func (p *Pages) showBreak(w http.ResponseWriter, r *http.Request) error {
	user, set, err := p.findSet(r)
	if err != nil {
		return err
	}
	v := recordView{Set: set}
	if err := v.findEdited(r); err != nil {
		return err
	}
	if !set.Closed.IsZero() {
		return page.Redirect(w, r, route.OwnSetPath(set.ID))
	}
	v.fillForm(user.Units)
	return p.renderForm(w, r, http.StatusOK, v)
}

func (p *Pages) saveBreak(w http.ResponseWriter, r *http.Request) error {
	user, v, err := p.readSetForm(w, r)
	if err != nil {
		return err
	}
	if err := v.findEdited(r); err != nil {
		return err
	}
	v.Form.Values.Set("break_id", v.Edited.ID.String())
	return p.saveForm(w, r, user, v)
}

// renderForm shows the form of a break.
func (p *Pages) renderForm(w http.ResponseWriter, r *http.Request, status int, v recordView) error {
	v.Frame = p.sessions.TakeFrame(w, r)
	return page.Render(w, r, status, recordPage(v))
}

// saveForm keeps the break of a form and leads back to its set, or shows the form
// again.
func (p *Pages) saveForm(w http.ResponseWriter, r *http.Request, user session.User, v recordView) error {
	status, err := p.keepBreak(r.Context(), user, &v)
	switch {
	case err != nil:
		return err
	case status != http.StatusSeeOther:
		return p.renderForm(w, r, status, v)
	}
	return page.Redirect(w, r, route.OwnSetPath(v.Set.ID))
}

// keepBreak reads the form's break and keeps it, or notes in the form what is wrong; the
// status is that of the answer. A tap on the picture only marks the place. What was not
// read back as it would be kept is read back first; a form that knows nothing of that is
// kept at once.
func (p *Pages) keepBreak(ctx context.Context, user session.User, v *recordView) (status int, err error) {
	if !v.Set.Closed.IsZero() {
		return 0, store.ErrClosed
	}
	if v.applyTap() {
		return http.StatusOK, nil
	}
	b := store.Break{Break: readBreak(v.Form, v.Set.Setup, v.Number)}
	if b.ID, err = store.ParseID[store.BreakID](v.Form.Text("break_id")); err != nil {
		return 0, err
	}
	if b.Revision, err = strconv.Atoi(v.Form.Text("revision")); err != nil {
		return 0, page.ErrUnreadableForm
	}
	b.At = breakTime(v.Set, b.ID, p.now())
	if !v.Form.IsValid() {
		return http.StatusUnprocessableEntity, nil
	}
	if v.Form.Has("read_back") && !v.readBackIsCurrent() {
		if v.Read = v.readBackWords(); v.Read != "" {
			return http.StatusOK, nil
		}
	}
	if _, err = p.store.SaveBreak(ctx, user.Actor, v.Set.ID, b); err != nil {
		return v.rejectBreak(err)
	}
	return http.StatusSeeOther, nil
}

// breakTime keeps the time of a break that is being changed, so that a change sent
// twice is the same.
func breakTime(set store.Set, id store.BreakID, now time.Time) time.Time {
	for _, b := range set.Breaks {
		if b.ID == id {
			return b.At
		}
	}
	return now.UTC().Truncate(time.Second)
}

func (p *Pages) deleteBreak(w http.ResponseWriter, r *http.Request) error {
	user, v, err := p.readSetForm(w, r)
	if err != nil {
		return err
	}
	if err := v.findEdited(r); err != nil {
		return err
	}
	typed, b := v.Form, v.Edited
	v.fillForm(user.Units)
	v.Form.Values.Set("reason", typed.RawText("reason"))
	if reason := typed.Text("reason"); reason == "" {
		v.Form.Reject("reason", "every break counts: say why this one does not")
	} else if err := p.store.DeleteBreak(r.Context(), user.Actor, v.Set.ID, b.ID, b.Revision+1, reason); err != nil && !v.Form.AddProblems(err) {
		return err
	}
	if !v.Form.IsValid() {
		return p.renderForm(w, r, http.StatusUnprocessableEntity, v)
	}
	p.sessions.SetFlash(w, r, "Break "+strconv.Itoa(b.Number)+" was taken out. Your coach sees the reason.")
	return page.Redirect(w, r, route.OwnSetPath(v.Set.ID))
}

// undoLast takes out the break that was recorded last, if it still is.
func (p *Pages) undoLast(w http.ResponseWriter, r *http.Request) error {
	user, v, err := p.readSetForm(w, r)
	if err != nil {
		return err
	}
	for _, b := range v.Set.Breaks {
		if b.ID.String() != v.Form.Text("break") {
			continue
		}
		if err := p.store.DeleteBreak(r.Context(), user.Actor, v.Set.ID, b.ID, b.Revision+1, "undone at once"); err != nil {
			return err
		}
		p.sessions.SetFlash(w, r, "Break "+strconv.Itoa(b.Number)+" is undone: enter it again.")
	}
	return page.Redirect(w, r, route.OwnSetPath(v.Set.ID))
}

func (p *Pages) closeSet(w http.ResponseWriter, r *http.Request) error {
	user, set, err := p.findSet(r)
	if err != nil {
		return err
	}
	if _, more := nextBreakNumber(set); more && set.Closed.IsZero() {
		form, err := page.ReadForm(w, r)
		if err != nil {
			return err
		}
		if !form.Has("early") {
			p.sessions.SetFlash(w, r, "This set is not full yet: record the other breaks, or close it early.")
			return page.Redirect(w, r, WholeSetPath(set))
		}
	}
	if err := p.store.CloseSet(r.Context(), user.Actor, set.ID, setreview.JudgeCase); err != nil {
		return err
	}
	return page.Redirect(w, r, route.OwnSetPath(set.ID))
}

// reopenSet opens a set again that was closed by mistake; where that cannot be, its
// page says why.
func (p *Pages) reopenSet(w http.ResponseWriter, r *http.Request) error {
	user, set, err := p.findSet(r)
	if err != nil {
		return err
	}
	err = p.store.ReopenSet(r.Context(), user.Actor, set.ID)
	words := store.SentenceOf(err)
	if err != nil && words == "" {
		return err
	}
	if err == nil {
		words = "the set is open again"
	}
	p.sessions.SetFlash(w, r, say.Sentence(words))
	return page.Redirect(w, r, route.OwnSetPath(set.ID))
}

// discardSet puts an empty set away; one that holds something says why it stays.
func (p *Pages) discardSet(w http.ResponseWriter, r *http.Request) error {
	user, set, err := p.findSet(r)
	if err != nil {
		return err
	}
	err = p.store.DiscardSet(r.Context(), user.Actor, set.ID)
	if words := store.SentenceOf(err); words != "" {
		p.sessions.SetFlash(w, r, say.Sentence(words))
		return page.Redirect(w, r, WholeSetPath(set))
	}
	if err != nil {
		return err
	}
	p.sessions.SetFlash(w, r, "The empty set is put away.")
	return page.Redirect(w, r, "/today")
}

// serveCloth is the picture to tap, with the window and the cue ball where it was
// said to be.
func (p *Pages) serveCloth(w http.ResponseWriter, r *http.Request) error {
	_, set, err := p.findSet(r)
	if err != nil {
		return err
	}
	t := picture.TableView{ID: "cloth", Kind: set.Table.Kind, Window: &set.Window, Tappable: true}
	query := r.URL.Query()
	if at, err := table.ParsePlace(query.Get("x") + "," + query.Get("y")); err == nil && set.Table.Kind.OnCloth(at) {
		t.Stops = []picture.Stop{{Place: at}}
	}
	w.Header().Set("Content-Type", "image/svg+xml")
	w.Header().Set("Cache-Control", "private, max-age=3600")
	return picture.WriteSVG(w, t)
}
