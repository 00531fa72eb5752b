// Package paper holds what goes on paper and comes back from it: drill sheets
// for those without a phone, the page on which a coach types such a sheet in,
// and break cards for the pocket.
//
// It knows how a sheet is laid out; how a break is written in one line is
// package shorthand's, and what can have happened package drill's. It judges
// nothing. Pages print on A4 and on Letter, and read well in black and white.
package paper

import (
	"net/http"
	"strings"
	"time"

	"breakwright/internal/say"
	"breakwright/internal/store"
	"breakwright/web/component"
	"breakwright/web/page"
	"breakwright/web/route"
	"breakwright/web/session"
)

// Pages are these pages.
type Pages struct {
	store    *store.Store
	sessions *session.Manager
	judge    store.Judge
	now      func() time.Time
}

// New makes them; judge gives the advice on a set that was typed in, and now is
// the clock that its day is compared with.
func New(s *store.Store, sessions *session.Manager, judge store.Judge, now func() time.Time) *Pages {
	return &Pages{store: s, sessions: sessions, judge: judge, now: now}
}

// Routes are the rows of the route table.
func (p *Pages) Routes() []route.Route {
	return []route.Route{
		route.Get("/drills/{drill}/sheet", route.Coach, p.showDrillSheet),
		route.Get("/assignments/{assignment}/sheet", route.Coach, p.showAssignmentSheets),
		route.Get("/students/{student}/type", route.Coach, p.showTypeForm),
		route.Post("/students/{student}/type", route.Coach, p.submitTypedSet),
		route.Get("/students/{student}/card", route.Coach, p.showBreakCards),
		route.Get("/my/card", route.Student, p.showOwnCards),
	}
}

// findStudent returns the student that the address names.
func (p *Pages) findStudent(r *http.Request) (store.Person, error) {
	return session.FindStudent(r, p.store)
}

// paperHead is the layout's head of these pages.
func paperHead(title, here string, scripts ...string) page.Head {
	return page.Head{Title: title, NavPath: here, Styles: []string{"css/paper.css"}, Scripts: scripts}
}

// tableOptions lists tables to choose from, after one that means none of them.
func tableOptions(tables []store.Table, none string, u say.Units) []page.Option {
	var options []page.Option
	if none != "" {
		options = append(options, page.Option{Words: none})
	}
	for _, t := range tables {
		options = append(options, page.Option{Value: t.ID.String(), Words: t.Label() + ", " + component.KindWithMouths(t.Kind, u)})
	}
	return options
}

// findTable finds the table of that id among tables.
func findTable(tables []store.Table, id string) (store.Table, bool) {
	for _, t := range tables {
		if t.ID.String() == strings.TrimSpace(id) {
			return t, true
		}
	}
	return store.Table{}, false
}
