// Package exchange holds the pages through which records leave and come in:
// break logs out and in, the calendar of due days, and long work that goes on
// while nobody looks.
//
// It knows how a file arrives and how far work is; what a file means is package
// breaklog's, and what becomes of it the store's. It judges no break: imported
// sets get no advice of their own, but the student's next set is judged with
// them.
package exchange

import (
	"context"
	"log/slog"
	"net/http"
	"time"

	"github.com/go-chi/chi/v5"

	"breakwright/internal/store"
	"breakwright/web/page"
	"breakwright/web/route"
	"breakwright/web/session"
)

// Pages are these pages.
type Pages struct {
	store    *store.Store
	sessions *session.Manager
	worker   *jobWorker
	now      func() time.Time
	// uploads and looking are places for files in memory.
	uploads, looking chan struct{}
}

// New makes them; now names the files by their day. Work that goes on while nobody looks
// ends when running does.
func New(running context.Context, s *store.Store, sessions *session.Manager, now func() time.Time, log *slog.Logger) *Pages {
	return &Pages{
		store: s, sessions: sessions, worker: newJobWorker(running, s, log), now: now,
		uploads: make(chan struct{}, uploadsAtOnce), looking: make(chan struct{}, 1),
	}
}

// Routes are the rows of the route table.
func (p *Pages) Routes() []route.Route {
	return []route.Route{
		route.Get("/records", route.Coach, p.showRecords),
		route.Get("/export", route.Coach, p.exportBreakLog).At(route.Download),
		route.Post("/export", route.Coach, p.beginExport),
		route.Get("/export/struck", route.Coach, p.exportStruck).At(route.Download),
		route.Post("/import", route.Coach, p.uploadLog).At(route.Upload),
		route.Get("/jobs/{job}", route.Coach, p.showJob),
		route.Post("/jobs/{job}", route.Coach, p.beginOrResumeJob),
		route.Get("/jobs/{job}/file", route.Coach, p.sendJobFile).At(route.Download),
		route.Post("/jobs/{job}/remove", route.Coach, p.removeJob),
		route.Get("/my/export", route.Student, p.exportOwnBreakLog).At(route.Download),
		route.Get("/calendar.ics", route.Member, p.sendCalendar),
	}
}

// parseJobID reads the address.
func parseJobID(r *http.Request) (store.JobID, error) {
	return store.ParseID[store.JobID](chi.URLParam(r, "job"))
}

func jobPagePathOf(id store.JobID) string { return "/jobs/" + id.String() }

// recordsHead is the layout's head of these pages.
func recordsHead(title string, scripts ...string) page.Head {
	return page.Head{Title: title, NavPath: "/classes", Styles: []string{"css/exchange.css"}, Scripts: scripts}
}
