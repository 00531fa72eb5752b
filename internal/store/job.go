package store

import (
	"context"
	"time"

	"github.com/google/uuid"

	"breakwright/internal/store/internal/query"
)

// JobID is the id of a job, made by the page that asks for it.
type JobID struct{ uuid.UUID }

// Job is long work that goes on while nobody looks.
//
// It is for coaches: to a student it is [ErrNotFound]. It is kept with its file until
// it is deleted or a month old ([Store.SweepExpired]); erasing anybody deletes all of the
// club's, since a file may name them.
type Job struct {
	ID    JobID
	By    PersonID
	Kind  JobKind
	Title string // what it is about, in words: the name of a file or a class
	// About is what is asked for and Result what came of it, both JSON of
	// whoever does the work; "{}" for nothing.
	About, Result []byte
	State         JobState
	// Done of Todo breaks are worked on.
	Done, Todo int
	// Failure is why it failed.
	Failure string
	HasFile bool
	Created time.Time
	Ended   time.Time // zero before
}

// JobKind says what is done.
type JobKind string

// The kinds.
const (
	ImportJob JobKind = "import"
	ExportJob JobKind = "export"
)

// JobState says how it stands.
type JobState string

// The states. A job that waits has not been begun; one that is stopped was,
// but nothing was reported of it for JobTimeout: its process has ended, and it
// can be begun again.
const (
	JobWaiting JobState = "waiting"
	JobRunning JobState = "running"
	JobStopped JobState = "stopped"
	JobDone    JobState = "done"
	JobFailed  JobState = "failed"
)

// JobTimeout is how long a process may keep silent about its job. It should
// speak several times as often ([Store.ReportJobProgress]).
const JobTimeout = 30 * time.Second

// CreateJob keeps a job that waits, with its file or without one; ID, Kind,
// Title, About and Todo are taken from it. The same id again changes nothing.
// Coaches only.
func (s *Store) CreateJob(ctx context.Context, v Actor, j Job, file []byte) error {
	return s.changeAsCoach(ctx, v, "keep the job", func(t *tx) error {
		_, err := t.InsertJob(ctx, query.InsertJobParams{
			ClubID: v.Club.UUID, ID: j.ID.UUID, AskedBy: v.Person.UUID, Kind: string(j.Kind), Title: j.Title,
			About: jsonOrEmpty(j.About), Todo: j.Todo, File: file,
		})
		if err != nil {
			return err
		}
		return t.requireRoom(ctx, RoomForJobs, uuid.Nil)
	})
}

// GetJob returns a job. Coaches only.
func (s *Store) GetJob(ctx context.Context, v Actor, id JobID) (Job, error) {
	return readInTransaction(ctx, s, v, "get the job", func(t *tx) (Job, error) {
		row, err := t.Queries.GetJob(ctx, id.UUID)
		return jobFromRow(query.ListJobsRow(row)), err
	})
}

// newestJobs is how many are listed.
const newestJobs = 20

// ListJobs returns the latest jobs, newest first. Coaches only.
func (s *Store) ListJobs(ctx context.Context, v Actor) ([]Job, error) {
	return readInTransaction(ctx, s, v, "list the jobs", func(t *tx) ([]Job, error) {
		if err := v.requireCoach(); err != nil {
			return nil, err
		}
		rows, err := t.Queries.ListJobs(ctx, newestJobs)
		return mapRows(rows, jobFromRow), err
	})
}

// GetJobFile returns a job's file: the one that came in, or when it is done the
// one that goes out. [ErrNotFound] when there is none. Coaches only.
func (s *Store) GetJobFile(ctx context.Context, v Actor, id JobID) ([]byte, error) {
	return readInTransaction(ctx, s, v, "get the job's file", func(t *tx) ([]byte, error) {
		return t.Queries.GetJobFile(ctx, id.UUID)
	})
}

// DeleteJob takes a job with its file away, unless it is at work; that it is
// not there is no harm. Coaches only.
func (s *Store) DeleteJob(ctx context.Context, v Actor, id JobID) error {
	return s.changeAsCoach(ctx, v, "remove the job", func(t *tx) error {
		_, err := t.Queries.DeleteJob(ctx, query.DeleteJobParams{ID: id.UUID, Silence: JobTimeout.Seconds()})
		return err
	})
}

func jsonOrEmpty(json []byte) []byte {
	if len(json) == 0 {
		return []byte("{}")
	}
	return json
}

func jobFromRow(row query.ListJobsRow) Job {
	j := Job{
		ID: JobID{row.ID}, By: PersonID{row.AskedBy}, Kind: JobKind(row.Kind), Title: row.Title,
		About: row.About, Result: row.Result, State: JobState(row.State), Done: row.Done, Todo: row.Todo,
		Failure: row.Says, HasFile: row.HasFile, Created: row.CreatedAt.UTC(), Ended: utcOrZero(row.EndedAt),
	}
	if j.State == JobRunning && row.SilentSeconds > JobTimeout.Seconds() {
		j.State = JobStopped
	}
	return j
}
