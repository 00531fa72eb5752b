package exchange

import (
	"context"
	"errors"
	"fmt"
	"log/slog"
	"runtime/debug"
	"sync/atomic"
	"time"

	"breakwright/internal/drill"
	"breakwright/internal/store"
)

// jobWorker does long work in the background, one piece at a time, so that pages
// stay quick. It says how far it is; when its process ends, the job is silent
// and can be begun again.
type jobWorker struct {
	running context.Context // ends with the server, and the work with it
	store   *store.Store
	log     *slog.Logger
	turn    chan struct{}
	// reportInterval is how often it says how far it is.
	reportInterval time.Duration
}

func newJobWorker(running context.Context, s *store.Store, log *slog.Logger) *jobWorker {
	return &jobWorker{running: running, store: s, log: log, turn: make(chan struct{}, 1), reportInterval: 2 * time.Second}
}

// jobWork does the work and tells seen how many breaks were seen to. It may end
// the job itself; when it gives an end, that is kept.
type jobWork func(ctx context.Context, seen func(breaks int)) (*store.JobEnd, error)

// startJob does the work of a job that has been begun, in the name of v.
func (w *jobWorker) startJob(v store.Actor, run store.JobRun, do jobWork) {
	ctx, stop := context.WithCancel(w.running)
	var done atomic.Int64
	go w.reportProgress(ctx, stop, v, run, &done)
	go func() {
		defer stop()
		select {
		case w.turn <- struct{}{}:
			defer func() { <-w.turn }()
		case <-ctx.Done():
			return
		}
		end, err := w.runRecovering(ctx, do, func(n int) { done.Store(int64(n)) })
		if ctx.Err() != nil {
			return // it was stopped, not ended
		}
		if err != nil {
			w.log.ErrorContext(ctx, "a job failed", "job", run.ID, "error", err)
			end = &store.JobEnd{Failure: failureWords(err), Done: int(done.Load())}
		}
		if end == nil || errors.Is(err, store.ErrStale) || errors.Is(err, store.ErrUnavailable) {
			return
		}
		if err := w.store.EndJob(ctx, v, run, *end); err != nil && !errors.Is(err, store.ErrStale) {
			w.log.ErrorContext(ctx, "a job's end was not kept", "job", run.ID, "error", err)
		}
	}()
}

// reportProgress says how far the work is until it has ended, and stops it when the job
// has been begun anew by somebody else.
func (w *jobWorker) reportProgress(ctx context.Context, stop func(), v store.Actor, run store.JobRun, done *atomic.Int64) {
	ticks := time.NewTicker(w.reportInterval)
	defer ticks.Stop()
	for {
		select {
		case <-ctx.Done():
			return
		case <-ticks.C:
		}
		if err := w.store.ReportJobProgress(ctx, v, run, int(done.Load())); errors.Is(err, store.ErrStale) {
			stop()
		}
	}
}

// runRecovering does the work, and turns a panic into an error: one bad job must not take
// the server with it.
func (w *jobWorker) runRecovering(ctx context.Context, do jobWork, seen func(int)) (end *store.JobEnd, err error) {
	defer func() {
		if cause := recover(); cause != nil {
			err = fmt.Errorf("panic: %v\n%s", cause, debug.Stack())
		}
	}()
	return do(ctx, seen)
}

// failureWords says to a coach why a job failed.
func failureWords(err error) string {
	var problems drill.Problems
	switch {
	case errors.As(err, &problems), errors.Is(err, store.ErrConflict):
		return "Nothing was saved: " + err.Error() + "."
	}
	return "Something went wrong here on the server, and nothing was saved. Begin again; if it happens twice, tell whoever keeps the server."
}
