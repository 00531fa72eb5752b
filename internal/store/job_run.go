package store

import (
	"context"
	"errors"

	"github.com/jackc/pgx/v5"

	"breakwright/internal/store/internal/query"
)

// JobRun is one beginning of a job. What an older beginning says is not heard.
type JobRun struct {
	ID  JobID
	Run int
}

// BeginJob begins a job that waits or has stopped: about is what is asked for
// in the end. began is false when it was begun before and is at work or over.
// Coaches only.
func (s *Store) BeginJob(ctx context.Context, v Viewer, id JobID, about []byte) (run JobRun, began bool, err error) {
	run.ID = id
	err = s.change(ctx, v, "begin the job", func(t *tx) error {
		if _, err := t.Queries.GetJob(ctx, id.UUID); err != nil {
			return err
		}
		run.Run, err = t.Queries.BeginJob(ctx, query.BeginJobParams{ID: id.UUID, About: orEmpty(about), Silence: JobSilence.Seconds()})
		if errors.Is(err, pgx.ErrNoRows) {
			return nil
		}
		began = err == nil
		return err
	})
	return run, began && err == nil, err
}

// BeatJob says that a job is still at work, and how far. [ErrStale] when it has
// been begun anew or is over, so that this beginning should end.
func (s *Store) BeatJob(ctx context.Context, v Viewer, run JobRun, done int) error {
	return s.change(ctx, v, "say how far the job is", func(t *tx) error {
		return t.heard(t.Queries.BeatJob(ctx, query.BeatJobParams{ID: run.ID.UUID, Run: run.Run, Done: done}))
	})
}

// JobEnd is how a job ended.
type JobEnd struct {
	// Says is why it failed; "" when it did not.
	Says string
	// Result is JSON, File what goes out; nil for none: what came in is not
	// kept beyond the end.
	Result, File []byte
	Done         int
}

// EndJob ends a job; [ErrStale] as for BeatJob.
func (s *Store) EndJob(ctx context.Context, v Viewer, run JobRun, end JobEnd) error {
	return s.change(ctx, v, "end the job", func(t *tx) error { return t.endJob(ctx, run, end) })
}

func (t *tx) endJob(ctx context.Context, run JobRun, end JobEnd) error {
	state := JobDone
	if end.Says != "" {
		state = JobFailed
	}
	return t.heard(t.Queries.EndJob(ctx, query.EndJobParams{
		ID: run.ID.UUID, Run: run.Run, State: string(state), Done: end.Done, Says: shorten(end.Says),
		Result: orEmpty(end.Result), File: end.File,
	}))
}

// heard turns "no row changed" into stale.
func (t *tx) heard(rows int64, err error) error {
	if err == nil && rows == 0 {
		return refuse(ErrStale, "this job was begun anew or is over")
	}
	return err
}

// longestSays is what a row has room for, in letters.
const longestSays = 4000

func shorten(says string) string {
	letters := []rune(says)
	if len(letters) <= longestSays {
		return says
	}
	return string(letters[:longestSays-1]) + "…"
}
