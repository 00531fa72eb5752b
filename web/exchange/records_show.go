package exchange

import (
	"net/http"
	"time"

	"breakwright/internal/breaklog"
	"breakwright/internal/say"
	"breakwright/internal/store"
	"breakwright/web/page"
	"breakwright/web/session"
)

// recordsView is the page from which records leave and come in.
type recordsView struct {
	Frame page.Frame
	Form  *page.Form
	// ID is made with the page, for what its forms ask for.
	ID      string
	Classes []page.Option
	Jobs    []jobListLine
	// Refused is the file that was sent and not taken, nil for none.
	Refused *refusedFile
}

// refusedFile is a file with what is wrong with it.
type refusedFile struct {
	Name     string
	Problems breaklog.Problems
}

// jobListLine is a job in the list.
type jobListLine struct {
	Path, Title, When, State, Mark string
}

// showRecords is the page as it is opened.
func (p *Pages) showRecords(w http.ResponseWriter, r *http.Request) error {
	return p.renderRecords(w, r, http.StatusOK, page.NewForm(nil), nil)
}

func (p *Pages) renderRecords(w http.ResponseWriter, r *http.Request, status int, form *page.Form, refused *refusedFile) error {
	user := session.MustUser(r)
	v := recordsView{Form: form, ID: store.NewID[store.JobID]().String(), Refused: refused}
	classes, err := p.store.ListClasses(r.Context(), user.Actor, store.ActiveOnly)
	if err != nil {
		return err
	}
	v.Classes = []page.Option{{Words: "The whole club, archived students too"}}
	for _, c := range classes {
		v.Classes = append(v.Classes, page.Option{Value: c.ID.String(), Words: c.Name})
	}
	jobs, err := p.store.ListJobs(r.Context(), user.Actor)
	if err != nil {
		return err
	}
	for _, j := range jobs {
		v.Jobs = append(v.Jobs, newJobLine(j, user.Zone))
	}
	v.Frame = p.sessions.TakeFrame(w, r)
	return page.Render(w, r, status, recordsPage(v))
}

func newJobLine(j store.Job, zone *time.Location) jobListLine {
	line := jobListLine{Path: jobPagePathOf(j.ID), Title: j.Title, When: say.Moment(j.Created.In(zone))}
	switch j.State {
	case store.JobWaiting:
		line.State, line.Mark = "to be looked at", "ask"
	case store.JobRunning:
		line.State = "at work"
	case store.JobStopped:
		line.State, line.Mark = "stopped", "warn"
	case store.JobFailed:
		line.State, line.Mark = "failed", "warn"
	case store.JobDone:
		line.State = "taken over"
		if j.Kind == store.ExportJob {
			line.State, line.Mark = "ready", "good"
		}
	}
	return line
}
