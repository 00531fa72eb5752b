// Package drills holds the coach's pages about what is to be done: writing
// drills, giving them to classes and students, and who has done them.
//
// It knows how a drill is typed and drawn; it refuses to judge a result.
// Lengths are typed in inches: across the table from the long string, along it
// behind the head string for the cue ball and from the head rail for the
// window.
package drills

import (
	"net/http"
	"time"

	"github.com/go-chi/chi/v5"

	"breakwright/internal/store"
	"breakwright/web/page"
	"breakwright/web/route"
	"breakwright/web/session"
)

// Pages is what these pages need.
type Pages struct {
	store    *store.Store
	sessions *session.Manager
	// now is the clock that due days are compared with.
	now func() time.Time
}

// New makes the pages.
func New(s *store.Store, sessions *session.Manager) *Pages {
	return &Pages{store: s, sessions: sessions, now: time.Now}
}

// Routes are the rows of the route table.
func (p *Pages) Routes() []route.Route {
	return []route.Route{
		route.Get("/drills", route.Coach, p.listDrills),
		route.Post("/drills", route.Coach, p.createDrill),
		route.Get("/drills/new", route.Coach, p.showNewDrill),
		route.Get("/drills/library", route.Coach, p.showLibrary),
		route.Post("/drills/library", route.Coach, p.takeLesson),
		route.Get("/drills/library/lesson", route.Coach, p.readLesson),
		route.Get("/drills/editor", route.Coach, p.leaveEditor),
		route.Post("/drills/editor", route.Coach, p.runEditorAction),
		route.Get("/drills/{drill}", route.Coach, p.showDrill),
		route.Post("/drills/{drill}", route.Coach, p.changeDrill),
		route.Get("/drills/{drill}/read", route.Coach, p.readDrillPage),
		route.Post("/drills/{drill}/copy", route.Coach, p.copyDrill),
		route.Post("/drills/{drill}/mirror", route.Coach, p.mirrorDrill),
		route.Post("/drills/{drill}/archive", route.Coach, p.archiveDrill),
		route.Post("/drills/{drill}/restore", route.Coach, p.restoreDrill),
		route.Get("/drills/{drill}/assign", route.Coach, p.showAssignForm),
		route.Post("/drills/{drill}/assign", route.Coach, p.assignDrill),
		route.Get("/assignments", route.Coach, p.listAssignments),
		route.Get("/assignments/{assignment}", route.Coach, p.showAssignment),
		route.Post("/assignments/{assignment}", route.Coach, p.changeAssignment),
		route.Post("/assignments/{assignment}/end", route.Coach, p.endAssignment),
		route.Post("/assignments/{assignment}/resume", route.Coach, p.resumeAssignment),
	}
}

// findDrill finds the drill that the address names.
func (p *Pages) findDrill(r *http.Request) (store.Drill, error) {
	return session.FindNamed(r, "drill", p.store.GetDrill)
}

// parseAssignmentID reads the address.
func parseAssignmentID(r *http.Request) (store.AssignmentID, error) {
	return store.ParseID[store.AssignmentID](chi.URLParam(r, "assignment"))
}

// drillsHead is the layout's head of these pages.
func drillsHead(title string) page.Head {
	return page.Head{Title: title, NavPath: "/drills", Styles: []string{"css/plan.css", "css/drawn.css"}}
}
