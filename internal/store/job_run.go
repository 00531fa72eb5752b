package store

import (
	"context"
	"errors"

	"github.com/jackc/pgx/v5"

	"breakwright/internal/store/internal/query"
)

// JobRun is one beginning of a job. What an older beginning reports is ignored.
type JobRun struct {
	ID  JobID
	Run int
}

// BeginJob begins a job that waits or has stopped: about is what is asked for
// in the end. began is false when it was begun before and is at work or over.
// Coaches only.
func (s *Store) BeginJob(ctx context.Context, v Actor, id JobID, about []byte) (run JobRun, began bool, err error) {
	run.ID = id
	err = s.changeAsCoach(ctx, v, "begin the job", func(t *tx) error {
		if _, err := t.Queries.GetJob(ctx, id.UUID); err != nil {
			return err
		}
		run.Run, err = t.Queries.BeginJob(ctx, query.BeginJobParams{ID: id.UUID, About: jsonOrEmpty(about), Silence: JobTimeout.Seconds()})
		if errors.Is(err, pgx.ErrNoRows) {
			return nil
		}
		began = err == nil
		return err
	})
	return run, began && err == nil, err
}

// ReportJobProgress says that a job is still at work, and how far. [ErrStale] when it has
// been begun anew or is over, so that this beginning should end.
func (s *Store) ReportJobProgress(ctx context.Context, v Actor, run JobRun, done int) error {
	return s.changeAsCoach(ctx, v, "say how far the job is", func(t *tx) error {
		return t.requireCurrentRun(t.Queries.UpdateJobProgress(ctx, query.UpdateJobProgressParams{ID: run.ID.UUID, Run: run.Run, Done: done}))
	})
}

// JobEnd is how a job ended.
type JobEnd struct {
	// Failure is why it failed; "" when it did not.
	Failure string
	// Result is JSON, File what goes out; nil for none: what came in is not
	// kept beyond the end.
	Result, File []byte
	Done         int
}

// EndJob ends a job; [ErrStale] as for [Store.ReportJobProgress].
func (s *Store) EndJob(ctx context.Context, v Actor, run JobRun, end JobEnd) error {
	return s.changeAsCoach(ctx, v, "end the job", func(t *tx) error { return t.endJob(ctx, run, end) })
}

func (t *tx) endJob(ctx context.Context, run JobRun, end JobEnd) error {
	state := JobDone
	if end.Failure != "" {
		state = JobFailed
	}
	return t.requireCurrentRun(t.Queries.EndJob(ctx, query.EndJobParams{
		ID: run.ID.UUID, Run: run.Run, State: string(state), Done: end.Done, Says: truncateFailure(end.Failure),
		Result: jsonOrEmpty(end.Result), File: end.File,
	}))
}

// requireCurrentRun turns "no row changed" into stale.
func (t *tx) requireCurrentRun(rows int64, err error) error {
	if err == nil && rows == 0 {
		return newRefusal(ErrStale, "this job was begun anew or is over")
	}
	return err
}

// maxFailureLetters is what a row has room for, in letters.
const maxFailureLetters = 4000

func truncateFailure(says string) string {
	letters := []rune(says)
	if len(letters) <= maxFailureLetters {
		return says
	}
	return string(letters[:maxFailureLetters-1]) + "…"
}
