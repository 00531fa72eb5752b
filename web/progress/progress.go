// Package progress holds the pages about where students stand: a class with
// every student in one row, a class's picture, and one student's story, which
// coach and student see alike.
//
// It counts nothing itself: the store keeps the counts, package progress under
// internal says what can be compared and when a chart signals, and the adviser's
// words are shown as they were said.
package progress

import (
	"net/http"
	"time"

	"github.com/go-chi/chi/v5"

	"breakwright/internal/say"
	"breakwright/internal/store"
	"breakwright/web/page"
	"breakwright/web/route"
	"breakwright/web/session"
)

// Pages are the pages about progress.
type Pages struct {
	store    *store.Store
	sessions *session.Manager
	// kept are pages of classes that were made before.
	kept keptPages
}

// New makes them.
func New(s *store.Store, sessions *session.Manager) *Pages {
	return &Pages{store: s, sessions: sessions}
}

// Routes are the rows of the route table. A coach's page of one student is the
// roster's; the story on it is made here.
func (p *Pages) Routes() []route.Route {
	return []route.Route{
		route.Get("/classes/{class}/progress", route.Coach, p.showClassProgress),
		route.Get("/classes/{class}/picture", route.Coach, p.showClassPicture),
		route.Post("/students/{student}/cards", route.Coach, p.issueBreakCard),
		route.Get("/my/progress", route.Student, p.showOwnStory),
	}
}

// stylesheetPath is the package's own stylesheet.
const stylesheetPath = "css/progress.css"

// Stylesheet is the stylesheet of a page that shows a story.
func Stylesheet() string { return stylesheetPath }

func parseClassID(r *http.Request) (store.ClassID, error) {
	return store.ParseID[store.ClassID](chi.URLParam(r, "class"))
}

// issueBreakCard gives a student the break card of the stint they stand on.
func (p *Pages) issueBreakCard(w http.ResponseWriter, r *http.Request) error {
	form, err := page.ReadForm(w, r)
	if err != nil {
		return err
	}
	student, err := store.ParseID[store.PersonID](chi.URLParam(r, "student"))
	if err != nil {
		return err
	}
	id, err := store.ParseID[store.CardID](form.Text("card"))
	if err != nil {
		return err
	}
	set, err := store.ParseID[store.SetID](form.Text("set"))
	if err != nil {
		return err
	}
	actor := session.MustUser(r).Actor
	found, err := p.store.GetSet(r.Context(), actor, set)
	if err != nil {
		return err
	}
	if found.Student != student {
		return store.ErrNotFound
	}
	if form.Has("undo") {
		return p.withdrawBreakCard(w, r, id, found)
	}
	if err := p.store.IssueCard(r.Context(), actor, id, set); err != nil {
		return err
	}
	says := "Break card issued for " + found.Table.Label() + "."
	undo := WithdrawForm(id, set, student, found.StudentName)
	if page.IsPartial(r) {
		return page.Render(w, r, http.StatusOK, cardIssuedRow(found.StudentName, says, undo))
	}
	p.sessions.SetFlashWithUndo(w, r, found.StudentName+": "+says, &undo)
	return page.Redirect(w, r, route.StudentPath(student)+"#cards")
}

// WithdrawForm takes a break card back that was issued for a set of a student.
func WithdrawForm(card store.CardID, set store.SetID, student store.PersonID, name string) page.UndoForm {
	return page.UndoForm{Path: route.StudentPath(student) + "/cards", About: "the break card of " + name, Fields: []page.HiddenField{
		{Name: "card", Value: card.String()}, {Name: "set", Value: set.String()}, {Name: "undo", Value: "yes"},
	}}
}

func (p *Pages) withdrawBreakCard(w http.ResponseWriter, r *http.Request, id store.CardID, set store.Set) error {
	if err := p.store.WithdrawCard(r.Context(), session.MustUser(r).Actor, id, set.Student); err != nil {
		return err
	}
	p.sessions.SetFlash(w, r, set.StudentName+": the break card is withdrawn.")
	return page.Redirect(w, r, route.StudentPath(set.Student))
}

// formatSpan says from which day to which.
func formatSpan(first, last time.Time, zone *time.Location) string {
	from, to := first.In(zone), last.In(zone)
	switch {
	case from.Format("20060102") == to.Format("20060102"):
		return say.Day(to)
	case from.Year() == to.Year():
		return say.DayOfYear(from) + " to " + say.Day(to)
	}
	return say.Day(from) + " to " + say.Day(to)
}
