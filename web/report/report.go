// Package report holds what is handed out on paper about progress: the report of
// a class, for a club or an evening with parents, and the report of one student,
// to take home.
//
// It knows how a report is laid out on A4 and on Letter, and which conclusions
// its counts allow. It counts nothing itself: the store keeps the counts, package
// progress under internal compares them, and stories and rows are told as the
// pages about progress tell them. What a report says by colour it also says in
// words or by shape, since most printers are black and white.
package report

import (
	"net/http"
	"time"

	"breakwright/internal/say"
	"breakwright/internal/store"
	"breakwright/web/page"
	"breakwright/web/route"
	"breakwright/web/session"
)

// Pages are the reports.
type Pages struct {
	store    *store.Store
	sessions *session.Manager
	now      func() time.Time
}

// New makes them; now is the clock that dates them.
func New(s *store.Store, sessions *session.Manager, now func() time.Time) *Pages {
	return &Pages{store: s, sessions: sessions, now: now}
}

// Routes are the rows of the route table.
func (p *Pages) Routes() []route.Route {
	return []route.Route{
		route.Get("/classes/{class}/report", route.Coach, p.showClassReport),
		route.Get("/students/{student}/report", route.Coach, p.showStudentReport),
		route.Get("/my/report", route.Student, p.showOwnReport),
	}
}

// reportSheetView is what every report is printed with.
type reportSheetView struct {
	Frame page.Frame
	Back  page.NavLink
	// Title stands in the running head of each page, with the club and the day.
	Title, Club, Printed string
	Paper                paperSize
	// Path is the report's own, Form what is chosen on the screen.
	Path string
	Form *page.Form
}

func (p *Pages) newSheetView(r *http.Request, path string) reportSheetView {
	user := session.MustUser(r)
	v := reportSheetView{Club: user.Club, Printed: say.Day(p.now().In(user.Zone)), Path: path, Paper: choosePaper(r)}
	v.Form = page.NewForm(map[string]string{fieldPaper: string(v.Paper)})
	return v
}

func (v reportSheetView) pageHead(here string) page.Head {
	return page.Head{Title: v.Title, NavPath: here, Styles: []string{"css/progress.css", "css/report.css", v.Paper.stylesheetPath()}}
}
