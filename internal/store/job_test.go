package store_test

import (
	"bytes"
	"errors"
	"strings"
	"sync"
	"testing"

	"breakwright/internal/store"
	"breakwright/internal/store/storetest"
)

func keptJob(t *testing.T, sc storetest.Scene) store.JobID {
	t.Helper()
	j := store.Job{ID: store.NewID[store.JobID](), Kind: store.ImportJob, Title: "breaks.csv", Todo: 6}
	for range 2 { // a second click
		if err := sc.Store.CreateJob(t.Context(), sc.Coach, j, []byte("a file")); err != nil {
			t.Fatal(err)
		}
	}
	return j.ID
}

// silence makes a running job look as if its process had gone.
func silence(t *testing.T, owner string, id store.JobID) {
	t.Helper()
	_, err := connect(t, owner).Exec(t.Context(), "update job set beat_at = now() - interval '1 hour' where id = $1", id.UUID)
	if err != nil {
		t.Fatal(err)
	}
}

func TestJob_FromWaitingToDone(t *testing.T) {
	t.Parallel()
	sc := bare(t)
	ctx, s := t.Context(), sc.Store
	id := keptJob(t, sc)
	j := must(s.GetJob(ctx, sc.Coach, id))(t)
	if j.State != store.JobWaiting || !j.HasFile || j.Todo != 6 || j.By != sc.Coach.Person || string(j.About) != "{}" {
		t.Errorf("kept: %+v", j)
	}
	run, began, err := s.BeginJob(ctx, sc.Coach, id, []byte(`{"a": 1}`))
	if err != nil || !began {
		t.Fatalf("begun: %v, %v", began, err)
	}
	if _, again, err := s.BeginJob(ctx, sc.Coach, id, nil); again || err != nil {
		t.Errorf("begun twice: %v, %v", again, err)
	}
	if err := s.ReportJobProgress(ctx, sc.Coach, run, 4); err != nil {
		t.Fatal(err)
	}
	if err := s.DeleteJob(ctx, sc.Coach, id); err != nil {
		t.Fatal(err)
	}
	j = must(s.GetJob(ctx, sc.Coach, id))(t)
	if j.State != store.JobRunning || j.Done != 4 || !strings.Contains(string(j.About), `"a"`) {
		t.Errorf("at work, and not to be removed: %+v", j)
	}
	if err := s.EndJob(ctx, sc.Coach, run, store.JobEnd{Done: 6, File: []byte("what goes out"), Result: []byte(`{"sets": 2}`)}); err != nil {
		t.Fatal(err)
	}
	j = must(s.GetJob(ctx, sc.Coach, id))(t)
	if j.State != store.JobDone || j.Ended.IsZero() || string(j.Result) != `{"sets": 2}` {
		t.Errorf("done: %+v", j)
	}
	if file := must(s.GetJobFile(ctx, sc.Coach, id))(t); !bytes.Equal(file, []byte("what goes out")) {
		t.Errorf("file %q", file)
	}
	for name, err := range map[string]error{"beat": s.ReportJobProgress(ctx, sc.Coach, run, 1), "end": s.EndJob(ctx, sc.Coach, run, store.JobEnd{})} {
		if !errors.Is(err, store.ErrStale) {
			t.Errorf("%s after the end: %v", name, err)
		}
	}
	if list := must(s.ListJobs(ctx, sc.Coach))(t); len(list) != 1 || list[0].ID != id {
		t.Errorf("listed: %+v", list)
	}
	if err := s.DeleteJob(ctx, sc.Coach, id); err != nil {
		t.Fatal(err)
	}
	if _, err := s.GetJob(ctx, sc.Coach, id); !errors.Is(err, store.ErrNotFound) {
		t.Errorf("removed: %v", err)
	}
}

// A process that goes leaves a job that says so and can be begun again; a late
// word of the first one is not heard.
func TestJob_StopsWhenNothingIsHeard(t *testing.T) {
	t.Parallel()
	owner := storetest.NewDatabase(t)
	sc := storetest.Scene{Store: storetest.Open(t, owner)}
	sc.Coach, _ = storetest.NewClub(t, sc.Store)
	ctx, s := t.Context(), sc.Store
	id := keptJob(t, sc)
	first, _, err := s.BeginJob(ctx, sc.Coach, id, nil)
	if err != nil {
		t.Fatal(err)
	}
	silence(t, owner, id)
	if j := must(s.GetJob(ctx, sc.Coach, id))(t); j.State != store.JobStopped || !j.HasFile {
		t.Errorf("an hour of silence: %+v", j)
	}
	second, again, err := s.BeginJob(ctx, sc.Coach, id, nil)
	if err != nil || !again {
		t.Fatalf("begun again: %v, %v", again, err)
	}
	if err := s.EndJob(ctx, sc.Coach, first, store.JobEnd{Failure: "late"}); !errors.Is(err, store.ErrStale) {
		t.Errorf("the first one's late word: %v", err)
	}
	if err := s.EndJob(ctx, sc.Coach, second, store.JobEnd{Failure: strings.Repeat("é", 9000)}); err != nil {
		t.Error(err)
	}
	if j := must(s.GetJob(ctx, sc.Coach, id))(t); j.State != store.JobFailed || j.HasFile || len([]rune(j.Failure)) != 4000 {
		t.Errorf("failed: %+v", j)
	}
}

// After a month a job goes with its file, also one whose process has ended; one that is
// at work stays, and so does a younger one.
func TestJob_IsForgottenAfterAMonth(t *testing.T) {
	t.Parallel()
	owner := storetest.NewDatabase(t)
	sc := storetest.Scene{Store: storetest.Open(t, owner)}
	sc.Coach, _ = storetest.NewClub(t, sc.Store)
	young, waiting, stopped, working := keptJob(t, sc), keptJob(t, sc), keptJob(t, sc), keptJob(t, sc)
	for _, id := range []store.JobID{stopped, working} {
		if _, _, err := sc.Store.BeginJob(t.Context(), sc.Coach, id, nil); err != nil {
			t.Fatal(err)
		}
	}
	_, err := connect(t, owner).Exec(t.Context(), `update job set created_at = now() - interval '31 days',
		beat_at = case id when $1 then now() - interval '25 hours' else beat_at end where id <> $2`, stopped.UUID, young.UUID)
	if err != nil {
		t.Fatal(err)
	}
	if err := sc.Store.SweepExpired(t.Context()); err != nil {
		t.Fatal(err)
	}
	for id, want := range map[store.JobID]error{young: nil, waiting: store.ErrNotFound, stopped: store.ErrNotFound, working: nil} {
		if _, err := sc.Store.GetJob(t.Context(), sc.Coach, id); !errors.Is(err, want) {
			t.Errorf("after a month: %v, want %v", err, want)
		}
	}
}

func TestJob_IsTheClubsCoachesAlone(t *testing.T) {
	t.Parallel()
	sc := storetest.NewScene(t)
	other := storetest.AddScene(t, sc.Store)
	ctx, s := t.Context(), sc.Store
	id := keptJob(t, sc)
	run, _, err := s.BeginJob(ctx, sc.Coach, id, nil)
	if err != nil {
		t.Fatal(err)
	}
	_, errGet := s.GetJob(ctx, other.Coach, id)
	_, errFile := s.GetJobFile(ctx, other.Coach, id)
	_, _, errBegin := s.BeginJob(ctx, other.Coach, id, nil)
	_, errOwn := s.GetJob(ctx, sc.StudentActor(0), id)
	for name, err := range map[string]error{"get": errGet, "file": errFile, "begin": errBegin, "a student": errOwn} {
		if !errors.Is(err, store.ErrNotFound) {
			t.Errorf("%s: %v", name, err)
		}
	}
	if err := s.EndJob(ctx, other.Coach, run, store.JobEnd{}); !errors.Is(err, store.ErrStale) {
		t.Errorf("another club ends it: %v", err)
	}
	if err := s.CreateJob(ctx, sc.StudentActor(0), store.Job{Kind: store.ExportJob, Title: "x"}, nil); !errors.Is(err, store.ErrNotAllowed) {
		t.Errorf("a student asks for one: %v", err)
	}
	if err := s.DeleteJob(ctx, other.Coach, id); err != nil {
		t.Error(err)
	}
	if j := must(s.GetJob(ctx, sc.Coach, id))(t); j.State != store.JobRunning {
		t.Errorf("another club removed it: %+v", j)
	}
}

// The job is done exactly when the sets are there.
func TestImportAs_EndsTheJobWithTheSets(t *testing.T) {
	t.Parallel()
	sc := bare(t)
	ctx, s := t.Context(), sc.Store
	id := keptJob(t, sc)
	run, _, err := s.BeginJob(ctx, sc.Coach, id, nil)
	if err != nil {
		t.Fatal(err)
	}
	var seen []int
	end := func(done store.ImportResult) store.JobEnd { return store.JobEnd{Done: done.Sets*100 + done.Breaks} }
	if err := s.ImportInJob(ctx, sc.Coach, run, fullSets(), func(n int) { seen = append(seen, n) }, end); err != nil {
		t.Fatal(err)
	}
	if j := must(s.GetJob(ctx, sc.Coach, id))(t); j.State != store.JobDone || j.Done != 406 || j.HasFile {
		t.Errorf("job: %+v", j)
	}
	if len(seen) != 4 || seen[3] != 6 {
		t.Errorf("seen to: %v", seen)
	}
	// Another process has begun it anew meanwhile: nothing of this one is kept.
	again := keptJob(t, sc)
	if err := s.ImportInJob(ctx, sc.Coach, store.JobRun{ID: again, Run: 7}, renamed(fullSets()), func(int) {}, end); !errors.Is(err, store.ErrStale) {
		t.Errorf("a run that is over: %v", err)
	}
	if got := exported(t, sc, store.ExportScope{}); len(got) != 4 {
		t.Errorf("%d sets are kept", len(got))
	}
}

// Several coaches press at once: one begins.
func TestBeginJob_Once(t *testing.T) {
	t.Parallel()
	sc := bare(t)
	id := keptJob(t, sc)
	var all sync.WaitGroup
	begun := make(chan bool, 8)
	for range cap(begun) {
		all.Go(func() {
			_, began, err := sc.Store.BeginJob(t.Context(), sc.Coach, id, nil)
			if err != nil {
				t.Error(err)
			}
			begun <- began
		})
	}
	all.Wait()
	close(begun)
	n := 0
	for began := range begun {
		if began {
			n++
		}
	}
	if n != 1 {
		t.Errorf("%d began it", n)
	}
}
