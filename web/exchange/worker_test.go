package exchange

import (
	"context"
	"errors"
	"log/slog"
	"strings"
	"testing"
	"time"

	"breakwright/internal/drill"
	"breakwright/internal/store"
	"breakwright/internal/store/storetest"
)

// begun is a worker with a job that has been begun.
func begun(t *testing.T) (*jobWorker, store.Actor, store.JobRun) {
	t.Helper()
	s := storetest.New(t)
	coach, _ := storetest.NewClub(t, s)
	j := store.Job{ID: store.NewID[store.JobID](), Kind: store.ExportJob, Title: "x", Todo: 10}
	if err := s.CreateJob(t.Context(), coach, j, nil); err != nil {
		t.Fatal(err)
	}
	run, _, err := s.BeginJob(t.Context(), coach, j.ID, nil)
	if err != nil {
		t.Fatal(err)
	}
	w := newJobWorker(t.Context(), s, slog.New(slog.DiscardHandler))
	w.reportInterval = 5 * time.Millisecond
	return w, coach, run
}

// until waits for a state of the job.
func until(t *testing.T, w *jobWorker, coach store.Actor, run store.JobRun, is func(store.Job) bool) store.Job {
	t.Helper()
	for end := time.Now().Add(20 * time.Second); time.Now().Before(end); time.Sleep(5 * time.Millisecond) {
		j, err := w.store.GetJob(t.Context(), coach, run.ID)
		if err != nil {
			t.Fatal(err)
		}
		if is(j) {
			return j
		}
	}
	t.Fatal("the job never came to that")
	return store.Job{}
}

func TestWorker_FailuresAreSaidAndTakeNothingWithThem(t *testing.T) {
	t.Parallel()
	for name, c := range map[string]struct {
		do   jobWork
		says string
	}{
		"a panic":    {func(context.Context, func(int)) (*store.JobEnd, error) { panic("a slip") }, "Something went wrong"},
		"an error":   {func(context.Context, func(int)) (*store.JobEnd, error) { return nil, errors.New("no room") }, "Something went wrong"},
		"a conflict": {func(context.Context, func(int)) (*store.JobEnd, error) { return nil, store.ErrConflict }, "in conflict"},
		"a problem": {func(context.Context, func(int)) (*store.JobEnd, error) {
			return nil, drill.Problems{{Field: "cue", Message: "off the cloth"}}
		}, "off the cloth"},
	} {
		w, coach, run := begun(t)
		w.startJob(coach, run, c.do)
		j := until(t, w, coach, run, func(j store.Job) bool { return j.State == store.JobFailed })
		if !strings.Contains(j.Failure, c.says) || strings.Contains(j.Failure, "no room") || strings.Contains(j.Failure, "slip") {
			t.Errorf("%s: %q", name, j.Failure)
		}
	}
}

func TestWorker_SaysHowFarItIs(t *testing.T) {
	t.Parallel()
	w, coach, run := begun(t)
	goOn := make(chan struct{})
	w.startJob(coach, run, func(_ context.Context, seen func(int)) (*store.JobEnd, error) {
		seen(4)
		<-goOn
		return &store.JobEnd{Done: 10}, nil
	})
	until(t, w, coach, run, func(j store.Job) bool { return j.State == store.JobRunning && j.Done == 4 })
	close(goOn)
	until(t, w, coach, run, func(j store.Job) bool { return j.State == store.JobDone && j.Done == 10 })
}

// The work ends with the server, so that its connection is free and the database can be
// let go. The job has not failed: it is silent, and can be begun again.
func TestWorker_EndsWithTheServer(t *testing.T) {
	t.Parallel()
	w, coach, run := begun(t)
	server, stop := context.WithCancel(t.Context())
	w.running = server
	began, ended := make(chan struct{}), make(chan struct{})
	w.startJob(coach, run, func(ctx context.Context, _ func(int)) (*store.JobEnd, error) {
		defer close(ended)
		close(began)
		<-ctx.Done()
		return nil, ctx.Err()
	})
	<-began
	stop()
	<-ended
	w.turn <- struct{}{} // what comes after the work is done too
	if j := until(t, w, coach, run, func(store.Job) bool { return true }); j.State != store.JobRunning || j.Failure != "" {
		t.Errorf("stopped with the server the job is %+v", j)
	}
}

// A job that somebody else has begun anew, or taken away, is dropped.
func TestWorker_StopsWhenItIsNotItsJobAnyMore(t *testing.T) {
	t.Parallel()
	w, coach, run := begun(t)
	run.Run = 7
	dropped := make(chan error, 1)
	w.startJob(coach, run, func(ctx context.Context, _ func(int)) (*store.JobEnd, error) {
		select {
		case <-ctx.Done():
			dropped <- nil
		case <-time.After(20 * time.Second):
			dropped <- errors.New("nobody told it to stop")
		}
		return nil, store.ErrStale
	})
	if err := <-dropped; err != nil {
		t.Error(err)
	}
}
