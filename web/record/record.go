package record

import (
	"errors"
	"net/http"
	"slices"
	"strconv"
	"time"

	"github.com/go-chi/chi/v5"

	"breakwright/internal/drill"
	"breakwright/internal/say"
	"breakwright/internal/setreview"
	"breakwright/internal/store"
	"breakwright/internal/table"
	"breakwright/web/component"
	"breakwright/web/page"
	"breakwright/web/picture"
	"breakwright/web/route"
	"breakwright/web/session"
	"breakwright/web/sync"
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
		route.Get("/my/sets/{set}/cloth.svg", route.Student, p.serveCloth),
		route.Get("/table", route.Anyone, p.showTablePage).At(route.Asset),
		route.Get("/sw.js", route.Anyone, p.serveServiceWorker).At(route.Asset),
		route.Get("/manifest.webmanifest", route.Anyone, p.serveManifest).At(route.Asset),
	}
}

// findSet finds the visitor's own set.
func (p *Pages) findSet(r *http.Request) (store.Set, error) {
	id, err := store.ParseID[store.SetID](chi.URLParam(r, "set"))
	if err != nil {
		return store.Set{}, err
	}
	return p.store.GetSet(r.Context(), session.MustUser(r).Actor, id)
}

func setPath(set store.Set) string { return "/my/sets/" + set.ID.String() }

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

// newRecordView fills the page for a break of a set.
func newRecordView(set store.Set, frame page.Frame, form *page.Form, number int, u say.Units) recordView {
	watch, list := sync.WatchOf(set)
	undo := ""
	if last := lastRecorded(set); last != nil {
		undo = last.ID.String()
	}
	return recordView{
		Undo: undo, Frame: frame, Path: setPath(set), Drill: set.Title(), Setup: set.Setup, Kind: set.Table.Kind,
		Watch: watch, List: list, Leave: set.Targets.WatchLeave(), Change: sync.TryingWords(set.Under, u), Number: number, Planned: set.Planned, Form: form,
		Action: setPath(set) + "/next", Done: recordedBreakLines(set),
	}
}

// lastRecorded is the break with the latest time, nil before the first.
func lastRecorded(set store.Set) *store.Break {
	var last *store.Break
	for i := range set.Breaks {
		if b := &set.Breaks[i]; last == nil || !b.At.Before(last.At) {
			last = b
		}
	}
	return last
}

func recordedBreakLines(set store.Set) []component.BreakLine {
	breaks := make([]drill.Break, len(set.Breaks))
	for i, b := range set.Breaks {
		breaks[i] = b.Break
	}
	return component.ListBreakLines(breaks, set.Setup, set.Table.Kind, func(i int) string {
		return setPath(set) + "/breaks/" + set.Breaks[i].ID.String()
	})
}

func (p *Pages) showNextBreak(w http.ResponseWriter, r *http.Request) error {
	set, err := p.findSet(r)
	if err != nil {
		return err
	}
	number, more := nextBreakNumber(set)
	if !more || !set.Closed.IsZero() {
		return page.Redirect(w, r, setPath(set))
	}
	form := page.NewFormIn(say.UnitsOf(r.Context()), map[string]string{
		"break_id": store.NewID[store.BreakID]().String(), "revision": "1", "number": strconv.Itoa(number),
	})
	if _, list := sync.WatchOf(set); list.CueOnly {
		form.Values.Set("wing", wingNotWatched)
	}
	return page.Render(w, r, http.StatusOK, recordPage(newRecordView(set, p.sessions.TakeFrame(w, r), form, number, say.UnitsOf(r.Context()))))
}

func (p *Pages) saveNextBreak(w http.ResponseWriter, r *http.Request) error {
	set, err := p.findSet(r)
	if err != nil {
		return err
	}
	form, err := page.ReadForm(w, r)
	if err != nil {
		return err
	}
	// The number is the form's own, so that a form sent twice is the same break.
	number, err := strconv.Atoi(form.Text("number"))
	if err != nil {
		number, _ = nextBreakNumber(set)
	}
	v := newRecordView(set, page.Frame{Person: session.PagePerson(r)}, form, number, say.UnitsOf(r.Context()))
	return p.saveForm(w, r, set, v)
}

func (p *Pages) showBreak(w http.ResponseWriter, r *http.Request) error {
	set, b, err := p.findBreak(r)
	if err != nil {
		return err
	}
	if !set.Closed.IsZero() {
		return page.Redirect(w, r, setPath(set))
	}
	form := fillBreakForm(b.Break, set.Setup, say.UnitsOf(r.Context()))
	form.Values.Set("break_id", b.ID.String())
	form.Values.Set("revision", strconv.Itoa(b.Revision+1))
	return page.Render(w, r, http.StatusOK, recordPage(p.newEditView(w, r, set, b, form)))
}

func (p *Pages) newEditView(w http.ResponseWriter, r *http.Request, set store.Set, b store.Break, form *page.Form) recordView {
	v := newRecordView(set, p.sessions.TakeFrame(w, r), form, b.Number, say.UnitsOf(r.Context()))
	v.Edit, v.Action = true, setPath(set)+"/breaks/"+b.ID.String()
	return v
}

// findBreak finds a break of the visitor's own set.
func (p *Pages) findBreak(r *http.Request) (store.Set, store.Break, error) {
	set, err := p.findSet(r)
	if err != nil {
		return set, store.Break{}, err
	}
	i := slices.IndexFunc(set.Breaks, func(b store.Break) bool { return b.ID.String() == chi.URLParam(r, "break") })
	if i < 0 {
		return set, store.Break{}, store.ErrNotFound
	}
	return set, set.Breaks[i], nil
}

func (p *Pages) saveBreak(w http.ResponseWriter, r *http.Request) error {
	set, b, err := p.findBreak(r)
	if err != nil {
		return err
	}
	form, err := page.ReadForm(w, r)
	if err != nil {
		return err
	}
	form.Values.Set("break_id", b.ID.String())
	return p.saveForm(w, r, set, p.newEditView(w, r, set, b, form))
}

// saveForm reads the form's break and keeps it, or shows the form again with what
// is wrong. A tap on the picture only marks the place. What was not read back as it
// would be kept is read back first; a form that knows nothing of that is kept at once.
func (p *Pages) saveForm(w http.ResponseWriter, r *http.Request, set store.Set, v recordView) error {
	if !set.Closed.IsZero() {
		return store.ErrClosed
	}
	if v.applyTap() {
		return page.Render(w, r, http.StatusOK, recordPage(v))
	}
	id, err := store.ParseID[store.BreakID](v.Form.Text("break_id"))
	if err != nil {
		return err
	}
	revision, err := strconv.Atoi(v.Form.Text("revision"))
	if err != nil {
		return page.ErrUnreadableForm
	}
	b := store.Break{ID: id, Revision: revision, Break: readBreak(v.Form, set.Setup, v.Number)}
	b.At = breakTime(set, id, p.now())
	if v.Form.Has("read_back") && v.Form.IsValid() && !v.readBackIsCurrent() {
		if v.Read = v.readBackWords(); v.Read != "" {
			return page.Render(w, r, http.StatusOK, recordPage(v))
		}
	}
	if v.Form.IsValid() {
		_, err = p.store.SaveBreak(r.Context(), session.MustUser(r).Actor, set.ID, b)
		if err == nil {
			return page.Redirect(w, r, setPath(set))
		}
	}
	if err != nil && !v.Form.AddProblems(err) {
		return p.renderConflict(w, r, set, v, err)
	}
	return page.Render(w, r, http.StatusUnprocessableEntity, recordPage(v))
}

// renderConflict shows the form again when somebody was quicker: the same form sent
// twice in two tabs, or the number taken meanwhile. Nothing typed is lost.
func (p *Pages) renderConflict(w http.ResponseWriter, r *http.Request, set store.Set, v recordView, err error) error {
	switch {
	case errors.Is(err, store.ErrClosed):
		return err
	case errors.Is(err, store.ErrStale), errors.Is(err, store.ErrConflict):
		v.Form.Reject("break", "Break "+strconv.Itoa(v.Number)+" was recorded or changed in another tab meanwhile. Look at the list below: it shows what is kept.")
		return page.Render(w, r, http.StatusConflict, recordPage(v))
	}
	return err
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

// applyTap reads the pixel that the picture sends as a button, and reports whether
// there was one.
func (v recordView) applyTap() bool {
	px, errX := strconv.Atoi(v.Form.Text("tap.x"))
	py, errY := strconv.Atoi(v.Form.Text("tap.y"))
	if errX != nil || errY != nil {
		return false
	}
	width, height := tapPictureSize(v.Kind)
	if at, ok := picture.PlaceFromPixels(px, py, width, height, v.Kind); ok {
		at = v.Kind.SettleBall(at)
		v.Form.Values.Set("cue_x", v.Form.Units.Number(say.Place, float64(at.X)))
		v.Form.Values.Set("cue_y", v.Form.Units.Number(say.Place, float64(at.Y)))
		v.Form.Values.Set("cue", string(drill.Stopped))
	}
	return true
}

func (p *Pages) deleteBreak(w http.ResponseWriter, r *http.Request) error {
	set, b, err := p.findBreak(r)
	if err != nil {
		return err
	}
	typed, err := page.ReadForm(w, r)
	if err != nil {
		return err
	}
	form := fillBreakForm(b.Break, set.Setup, say.UnitsOf(r.Context()))
	for name, value := range map[string]string{"break_id": b.ID.String(), "revision": strconv.Itoa(b.Revision + 1), "reason": typed.RawText("reason")} {
		form.Values.Set(name, value)
	}
	if reason := typed.Text("reason"); reason == "" {
		form.Reject("reason", "every break counts: say why this one does not")
	} else if err := p.store.DeleteBreak(r.Context(), session.MustUser(r).Actor, set.ID, b.ID, b.Revision+1, reason); err != nil && !form.AddProblems(err) {
		return err
	}
	if !form.IsValid() {
		return page.Render(w, r, http.StatusUnprocessableEntity, recordPage(p.newEditView(w, r, set, b, form)))
	}
	p.sessions.SetFlash(w, r, "Break "+strconv.Itoa(b.Number)+" was taken out. Your coach sees the reason.")
	return page.Redirect(w, r, setPath(set))
}

// undoLast takes out the break that was recorded last, if it still is.
func (p *Pages) undoLast(w http.ResponseWriter, r *http.Request) error {
	set, err := p.findSet(r)
	if err != nil {
		return err
	}
	form, err := page.ReadForm(w, r)
	if err != nil {
		return err
	}
	for _, b := range set.Breaks {
		if b.ID.String() != form.Text("break") {
			continue
		}
		err := p.store.DeleteBreak(r.Context(), session.MustUser(r).Actor, set.ID, b.ID, b.Revision+1, "undone at once")
		if err != nil {
			return err
		}
		p.sessions.SetFlash(w, r, "Break "+strconv.Itoa(b.Number)+" is undone: enter it again.")
	}
	return page.Redirect(w, r, setPath(set))
}

func (p *Pages) closeSet(w http.ResponseWriter, r *http.Request) error {
	set, err := p.findSet(r)
	if err != nil {
		return err
	}
	if _, more := nextBreakNumber(set); more && set.Closed.IsZero() {
		form, err := page.ReadForm(w, r)
		if err != nil {
			return err
		}
		if !form.Has("early") {
			p.sessions.SetFlash(w, r, "This set is not full yet: record the other breaks, or close it early at the end of the page.")
			return page.Redirect(w, r, setPath(set))
		}
	}
	if err := p.store.CloseSet(r.Context(), session.MustUser(r).Actor, set.ID, setreview.JudgeCase); err != nil {
		return err
	}
	return page.Redirect(w, r, setPath(set))
}

// serveCloth is the picture to tap, with the window and the cue ball where it was
// said to be.
func (p *Pages) serveCloth(w http.ResponseWriter, r *http.Request) error {
	set, err := p.findSet(r)
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
