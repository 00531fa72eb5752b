package exchange

import (
	"context"
	"encoding/json"
	"fmt"
	"net/http"
	"strconv"

	"breakwright/internal/drill"
	"breakwright/internal/store"
	"breakwright/web/page"
	"breakwright/web/session"
)

// jobView is a job at work, or over.
type jobView struct {
	Frame  page.Frame
	Job    store.Job
	Result result
}

// result is what an import did.
type result struct {
	Sets     int      `json:"sets"`
	Breaks   int      `json:"breaks"`
	Had      int      `json:"had"`
	Students []string `json:"students,omitempty"`
	Tables   []string `json:"tables,omitempty"`
}

func (v jobView) path() string  { return jobPath(v.Job.ID) }
func (v jobView) atWork() bool  { return v.Job.State == store.JobRunning }
func (v jobView) imports() bool { return v.Job.Kind == store.ImportJob }
func (v jobView) done() string  { return strconv.Itoa(min(v.Job.Done, v.Job.Todo)) }
func (v jobView) todo() string  { return strconv.Itoa(max(v.Job.Todo, 1)) }

// progress is how far it is: "12,000 of 50,000 breaks".
func (v jobView) progress() string {
	return grouped(min(v.Job.Done, v.Job.Todo)) + " of " + count(v.Job.Todo, "one break", "breaks")
}

func (v jobView) answer() string {
	switch v.Job.State {
	case store.JobRunning:
		if v.imports() {
			return "Being taken over: " + v.progress() + "."
		}
		return "Being written: " + v.progress() + "."
	case store.JobStopped:
		return "This stopped at " + v.progress() + ": the server was restarted or lost the database."
	case store.JobFailed:
		return v.Job.Failure
	case store.JobWaiting:
		return "Not begun yet."
	}
	if v.imports() {
		return v.Result.words()
	}
	return "Ready: " + count(v.Job.Done, "one break", "breaks") + "."
}

func (r result) words() string {
	says := "Taken over: " + count(r.Breaks, "one break", "breaks") + " in " + count(r.Sets, "one set", "sets") + "."
	if r.Had > 0 {
		says += " " + capital(count(r.Had, "one set was", "sets were")) + " here already and left alone."
	}
	return says
}

// showJob shows a file to be looked at, a job at work, or what came of it. To
// htmx, which asks every two seconds, it gives the part that changes.
func (p *Pages) showJob(w http.ResponseWriter, r *http.Request) error {
	job, err := p.jobOf(r)
	if err != nil {
		return err
	}
	if job.Kind == store.ImportJob && job.State == store.JobWaiting {
		form := page.NewForm(nil)
		v, _, err := p.plan(r, job, form)
		if err != nil {
			return err
		}
		return p.renderPlan(w, r, http.StatusOK, v)
	}
	v := jobView{Job: job}
	if err := json.Unmarshal(job.Result, &v.Result); err != nil {
		return fmt.Errorf("read what came of the job: %w", err)
	}
	if page.IsPartial(r) {
		return page.Render(w, r, http.StatusOK, jobPart(v))
	}
	v.Frame = p.sessions.TakeFrame(w, r)
	return page.Render(w, r, http.StatusOK, jobPage(v))
}

func (p *Pages) jobOf(r *http.Request) (store.Job, error) {
	id, err := jobID(r)
	if err != nil {
		return store.Job{}, err
	}
	return p.store.GetJob(r.Context(), session.MustUser(r).Actor, id)
}

// beginJob takes a file over, after a last look, or begins again what has
// stopped. Whatever else a second click finds is left to itself.
func (p *Pages) beginJob(w http.ResponseWriter, r *http.Request) error {
	job, err := p.jobOf(r)
	if err != nil {
		return err
	}
	form, err := page.ReadForm(w, r)
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
	return page.Redirect(w, r, jobPath(job.ID))
}

func (p *Pages) beginExportAgain(r *http.Request, job store.Job) error {
	asked, err := aboutOf(job)
	if err != nil {
		return err
	}
	scope, _, err := p.scopeOf(r, asked.Class, asked.Student)
	if err != nil {
		return err
	}
	return p.workOnExport(r, job, scope)
}

// beginImport plans once more, since things may have changed, and begins only
// when the coach has seen who would be new.
func (p *Pages) beginImport(w http.ResponseWriter, r *http.Request, job store.Job, form *page.Form) error {
	v, sets, err := p.plan(r, job, form)
	if err != nil {
		return err
	}
	looked := form.Text(fieldShown) == v.shown()
	switch {
	case form.Text(fieldDo) == doLook && form.IsValid():
		return p.renderPlan(w, r, http.StatusOK, v)
	case !v.ready() || !looked:
		return p.renderPlan(w, r, http.StatusUnprocessableEntity, v)
	}
	if err := p.workOnImport(r, job, sets, v.names()); err != nil {
		return err
	}
	return page.Redirect(w, r, jobPath(job.ID))
}

func (p *Pages) beginImportAgain(r *http.Request, job store.Job) error {
	asked, err := aboutOf(job)
	if err != nil {
		return err
	}
	file, err := p.store.GetJobFile(r.Context(), session.MustUser(r).Actor, job.ID)
	if err != nil {
		return err
	}
	sets, err := p.readLog(file)
	if err != nil {
		return err
	}
	return p.workOnImport(r, job, sets, asked.Names)
}

// workOnImport begins the job unless it was begun before.
func (p *Pages) workOnImport(r *http.Request, job store.Job, sets []drill.Set, names map[string]string) error {
	viewer := session.MustUser(r).Actor
	run, began, err := p.store.BeginJob(r.Context(), viewer, job.ID, about{Names: names}.text())
	if err != nil || !began {
		return err
	}
	sets = named(sets, names)
	p.worker.start(viewer, run, func(ctx context.Context, seen func(int)) (*store.JobEnd, error) {
		return nil, p.store.ImportInJob(ctx, viewer, run, sets, seen, func(done store.ImportResult) store.JobEnd {
			return store.JobEnd{Done: breaksOf(sets), Result: resultOf(done, sets).text()}
		})
	})
	return nil
}

// removeJob throws a file or a finished job away.
func (p *Pages) removeJob(w http.ResponseWriter, r *http.Request) error {
	job, err := p.jobOf(r)
	if err != nil {
		return err
	}
	if err := p.store.DeleteJob(r.Context(), session.MustUser(r).Actor, job.ID); err != nil {
		return err
	}
	p.sessions.SetFlash(w, r, "Thrown away: "+job.Title+". What was taken over stays.")
	return page.Redirect(w, r, "/records")
}
