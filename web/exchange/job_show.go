package exchange

import (
	"context"
	"encoding/json"
	"fmt"
	"net/http"
	"strconv"

	"breakwright/internal/say"
	"breakwright/internal/store"
	"breakwright/web/page"
	"breakwright/web/session"
)

// jobPageView is a job at work, or over.
type jobPageView struct {
	Frame  page.Frame
	Job    store.Job
	Result importOutcome
}

// importOutcome is what an import did.
type importOutcome struct {
	Sets       int      `json:"sets"`
	Breaks     int      `json:"breaks"`
	Duplicates int      `json:"had"`
	Students   []string `json:"students,omitempty"`
	Tables     []string `json:"tables,omitempty"`
}

func (v jobPageView) pagePath() string  { return jobPagePathOf(v.Job.ID) }
func (v jobPageView) isRunning() bool   { return v.Job.State == store.JobRunning }
func (v jobPageView) isImport() bool    { return v.Job.Kind == store.ImportJob }
func (v jobPageView) doneValue() string { return strconv.Itoa(min(v.Job.Done, v.Job.Todo)) }
func (v jobPageView) todoValue() string { return strconv.Itoa(max(v.Job.Todo, 1)) }

// progressWords is how far it is: "12,000 of 50,000 breaks".
func (v jobPageView) progressWords() string {
	return say.Thousands(min(v.Job.Done, v.Job.Todo)) + " of " + say.CountFromOne(v.Job.Todo, "break", "breaks")
}

func (v jobPageView) headline() string {
	switch v.Job.State {
	case store.JobRunning:
		if v.isImport() {
			return "Being taken over: " + v.progressWords() + "."
		}
		return "Being written: " + v.progressWords() + "."
	case store.JobStopped:
		return "This stopped at " + v.progressWords() + ": the server was restarted or lost the database."
	case store.JobFailed:
		return v.Job.Failure
	case store.JobWaiting:
		return "Not begun yet."
	}
	if v.isImport() {
		return v.Result.summaryWords()
	}
	return "Ready: " + say.CountFromOne(v.Job.Done, "break", "breaks") + "."
}

func (r importOutcome) summaryWords() string {
	says := "Taken over: " + say.CountFromOne(r.Breaks, "break", "breaks") + " in " + say.CountFromOne(r.Sets, "set", "sets") + "."
	if r.Duplicates > 0 {
		says += " " + say.Capitalize(say.CountFromOne(r.Duplicates, "set was", "sets were")) + " here already and left alone."
	}
	return says
}

// showJob shows a file to be looked at, a job at work, or what came of it. To
// htmx, which asks every two seconds, it gives the part that changes.
func (p *Pages) showJob(w http.ResponseWriter, r *http.Request) error {
	job, err := p.findJob(r)
	if err != nil {
		return err
	}
	if job.Kind == store.ImportJob && job.State == store.JobWaiting {
		form := page.NewForm(nil)
		v, err := p.previewImport(r, job, form)
		switch {
		case err == nil:
			return p.renderPreview(w, r, http.StatusOK, v)
		case !p.begunMeanwhile(r):
			return err
		}
		return page.Redirect(w, r, jobPagePathOf(job.ID))
	}
	v := jobPageView{Job: job}
	if err := json.Unmarshal(job.Result, &v.Result); err != nil {
		return fmt.Errorf("read what came of the job: %w", err)
	}
	if page.IsPartial(r) {
		return page.Render(w, r, http.StatusOK, jobStatusPart(v))
	}
	v.Frame = p.sessions.TakeFrame(w, r)
	return page.Render(w, r, http.StatusOK, jobPage(v))
}

// begunMeanwhile reports whether a job that waited when it was found does so no more: its
// button was pressed twice. Its file is gone when it is done.
func (p *Pages) begunMeanwhile(r *http.Request) bool {
	now, err := p.findJob(r)
	return err == nil && now.State != store.JobWaiting
}

func (p *Pages) findJob(r *http.Request) (store.Job, error) {
	id, err := parseJobID(r)
	if err != nil {
		return store.Job{}, err
	}
	return p.store.GetJob(r.Context(), session.MustUser(r).Actor, id)
}

// beginOrResumeJob takes a file over, after a last look, or begins again what has
// stopped. Whatever else a second click finds is left to itself.
func (p *Pages) beginOrResumeJob(w http.ResponseWriter, r *http.Request) error {
	job, form, err := page.ReadFormOf(w, r, p.findJob)
	if err != nil {
		return err
	}
	switch {
	case job.State != store.JobWaiting && job.State != store.JobStopped:
	case job.Kind == store.ExportJob:
		err = p.beginExportAgain(r, job)
	case job.State == store.JobStopped:
		err = p.beginImportAgain(r, job)
	default:
		return p.beginImport(w, r, job, form)
	}
	if err != nil {
		return err
	}
	return page.Redirect(w, r, jobPagePathOf(job.ID))
}

func (p *Pages) beginExportAgain(r *http.Request, job store.Job) error {
	asked, err := readJobRequest(job)
	if err != nil {
		return err
	}
	scope, _, err := p.readScope(r, asked.Class, asked.Student)
	if err != nil {
		return err
	}
	return p.startExport(r, job, scope)
}

// beginImport plans once more, since things may have changed, and begins only
// when the coach has seen who would be new.
func (p *Pages) beginImport(w http.ResponseWriter, r *http.Request, job store.Job, form *page.Form) error {
	v, err := p.previewImport(r, job, form)
	if p.begunMeanwhile(r) {
		return page.Redirect(w, r, jobPagePathOf(job.ID))
	}
	if err != nil {
		return err
	}
	looked := form.Text(fieldShown) == v.encodeNewStudents()
	switch {
	case form.Text(fieldDo) == doLook && form.IsValid():
		return p.renderPreview(w, r, http.StatusOK, v)
	case !v.canImport() || !looked:
		return p.renderPreview(w, r, http.StatusUnprocessableEntity, v)
	}
	if err := p.startImport(r, job, v.changedNames()); err != nil {
		return err
	}
	return page.Redirect(w, r, jobPagePathOf(job.ID))
}

func (p *Pages) beginImportAgain(r *http.Request, job store.Job) error {
	asked, err := readJobRequest(job)
	if err != nil {
		return err
	}
	return p.startImport(r, job, asked.Names)
}

// startImport begins the job unless it was begun before.
func (p *Pages) startImport(r *http.Request, job store.Job, names map[string]string) error {
	actor := session.MustUser(r).Actor
	run, began, err := p.store.BeginJob(r.Context(), actor, job.ID, jobRequest{Names: names}.marshal())
	if err != nil || !began {
		return err
	}
	p.worker.startJob(actor, run, func(ctx context.Context, seen func(int)) (*store.JobEnd, error) {
		sets, err := p.readJobLog(ctx, actor, job.ID)
		if err != nil {
			return nil, err
		}
		sets = renameStudents(sets, names)
		return nil, p.store.ImportInJob(ctx, actor, run, sets, seen, func(done store.ImportResult) store.JobEnd {
			return store.JobEnd{Done: countBreaks(sets), Result: newImportOutcome(done, sets).marshal()}
		})
	})
	return nil
}

// removeJob throws a file or a finished job away.
func (p *Pages) removeJob(w http.ResponseWriter, r *http.Request) error {
	job, err := p.findJob(r)
	if err != nil {
		return err
	}
	if err := p.store.DeleteJob(r.Context(), session.MustUser(r).Actor, job.ID); err != nil {
		return err
	}
	p.sessions.SetFlash(w, r, "Thrown away: "+job.Title+". What was taken over stays.")
	return page.Redirect(w, r, "/records")
}
