package exchange

import (
	"context"
	"encoding/json"
	"fmt"
	"net/http"

	"breakwright/internal/store"
	"breakwright/web/page"
	"breakwright/web/session"
)

// jobRequest is what a job is asked for.
type jobRequest struct {
	// Class and Student say whose records go out; both empty for the club.
	Class   string `json:"class,omitempty"`
	Student string `json:"student,omitempty"`
	// Names are what the students of a file are called in the club.
	Names map[string]string `json:"names,omitempty"`
}

func (a jobRequest) marshal() []byte {
	text, err := json.Marshal(a)
	if err != nil {
		panic("exchange: words that do not marshal: " + err.Error())
	}
	return text
}

func readJobRequest(j store.Job) (a jobRequest, err error) {
	if err := json.Unmarshal(j.About, &a); err != nil {
		return a, fmt.Errorf("read what the job is about: %w", err)
	}
	return a, nil
}

// beginExport writes a log in the background, to be fetched when it is ready.
func (p *Pages) beginExport(w http.ResponseWriter, r *http.Request) error {
	form, err := page.ReadForm(w, r)
	if err != nil {
		return err
	}
	actor := session.MustUser(r).Actor
	asked := jobRequest{Class: form.Text("class"), Student: form.Text("student")}
	scope, name, err := p.readScope(r, asked.Class, asked.Student)
	if err != nil {
		return err
	}
	id, err := store.ParseID[store.JobID](form.Text("id"))
	if err != nil {
		return page.ErrUnreadableForm
	}
	todo, err := p.store.CountBreaks(r.Context(), actor, scope)
	if err != nil {
		return err
	}
	job := store.Job{ID: idFromForm(id, asked.marshal()), Kind: store.ExportJob, Title: name, About: asked.marshal(), Todo: todo}
	if err := p.store.CreateJob(r.Context(), actor, job, nil); err != nil {
		return err
	}
	if err := p.startExport(r, job, scope); err != nil {
		return err
	}
	return page.Redirect(w, r, jobPagePathOf(job.ID))
}

// startExport begins the job unless it was begun before.
func (p *Pages) startExport(r *http.Request, j store.Job, scope store.ExportScope) error {
	actor := session.MustUser(r).Actor
	run, began, err := p.store.BeginJob(r.Context(), actor, j.ID, j.About)
	if err != nil || !began {
		return err
	}
	p.worker.startJob(actor, run, func(ctx context.Context, seen func(int)) (*store.JobEnd, error) {
		zipped, breaks, err := p.zipLog(ctx, actor, scope, seen)
		return &store.JobEnd{Done: breaks, File: zipped}, err
	})
	return nil
}

// sendJobFile sends what an export has written. It is kept compressed, and goes
// out so to browsers that take it.
func (p *Pages) sendJobFile(w http.ResponseWriter, r *http.Request) error {
	id, err := parseJobID(r)
	if err != nil {
		return err
	}
	actor := session.MustUser(r).Actor
	job, err := p.store.GetJob(r.Context(), actor, id)
	if err != nil {
		return err
	}
	if job.Kind != store.ExportJob || job.State != store.JobDone {
		return store.ErrNotFound
	}
	zipped, err := p.store.GetJobFile(r.Context(), actor, id)
	if err != nil {
		return err
	}
	return p.sendZipped(w, r, job.Title, zipped)
}
