package whatif

import (
	"context"
	"errors"
	"sync"
	"sync/atomic"
	"time"
)

// task is something to be computed.
type task interface {
	// Key tells tasks apart. The same key has the same answer.
	Key() string
	// Breaks counts the breaks to be computed, Weight says what its answer takes
	// to keep, by a kept break.
	Breaks() int
	Weight() int
	// Run computes the answer, says now and then how many breaks are done, and
	// ends when ctx does.
	Run(ctx context.Context, progress func(done int)) (any, error)
}

// desk takes questions and gives answers: kept ones at once, others one after
// another, so that a lesson's phones never wait for the model.
type desk struct {
	now  func() time.Time
	kept *cache
	// turn lets one computation run at a time.
	turn chan struct{}
	// lease is how long a computation goes on without anybody asking for it.
	lease time.Duration

	mu   sync.Mutex
	jobs map[string]*job
	last int
}

// mostJobs bounds the queue.
const mostJobs = 12

// errBusy is a question that found the queue full.
var errBusy = errors.New("whatif: too many questions wait")

// errStopped ends a computation that nobody waits for.
var errStopped = errors.New("stopped, since nobody waits for it")

func newDesk(now func() time.Time) *desk {
	return &desk{now: now, kept: newCache(), turn: make(chan struct{}, 1), lease: 6 * time.Second, jobs: map[string]*job{}}
}

// job is a computation that waits or runs.
type job struct {
	key      string
	tasks    []task
	number   int // counts up: lower ones are before it
	done     atomic.Int64
	total    int
	stop     context.CancelCauseFunc
	finished chan struct{}
	// answers and err are set before finished is closed.
	answers []any
	err     error
	// waiting says until when each person is believed to want it; guarded by the
	// desk's mu.
	waiting map[string]time.Time
}

// progress is how far a computation is.
type progress struct {
	Done, Total int
	// Before counts the computations that come first.
	Before int
}

// ask gives the answers of tasks, or, when they are not there after
// patience, how far they are; whoever asked for them must ask again within the
// lease. When ctx ends, the person waits no longer.
func (d *desk) ask(ctx context.Context, who string, tasks []task, patience time.Duration) ([]any, *progress, error) {
	if answers, all := d.keptAnswers(tasks); all {
		return answers, nil, nil
	}
	j, err := d.join(who, tasks, patience)
	if err != nil {
		return nil, nil, err
	}
	timer := time.NewTimer(patience)
	defer timer.Stop()
	select {
	case <-j.finished:
		if j.err != nil {
			return nil, nil, j.err
		}
		return j.answers, nil, nil
	case <-ctx.Done():
		d.leave(who, tasks)
		return nil, nil, context.Cause(ctx)
	case <-timer.C:
		return nil, d.progressOf(j), nil
	}
}

func (d *desk) keptAnswers(tasks []task) (answers []any, all bool) {
	for _, t := range tasks {
		a, found := d.kept.get(t.Key())
		if !found {
			return nil, false
		}
		answers = append(answers, a)
	}
	return answers, true
}

// join finds the job of these tasks or starts it, and notes that a person
// waits for it.
func (d *desk) join(who string, tasks []task, patience time.Duration) (*job, error) {
	d.mu.Lock()
	defer d.mu.Unlock()
	key := keyOf(tasks)
	j, going := d.jobs[key]
	if !going {
		if len(d.jobs) >= mostJobs {
			return nil, errBusy
		}
		ctx, stop := context.WithCancelCause(context.Background())
		d.last++
		j = &job{key: key, tasks: tasks, number: d.last, stop: stop, finished: make(chan struct{}), waiting: map[string]time.Time{}}
		for _, t := range tasks {
			j.total += t.Breaks()
		}
		d.jobs[key] = j
		go d.work(ctx, j)
		go d.watch(ctx, j)
	}
	j.waiting[who] = d.now().Add(patience + d.lease)
	return j, nil
}

// leave notes that a person waits no longer; the last one to leave stops it.
func (d *desk) leave(who string, tasks []task) {
	d.mu.Lock()
	defer d.mu.Unlock()
	if j, going := d.jobs[keyOf(tasks)]; going {
		delete(j.waiting, who)
		d.stopUnwanted(j)
	}
}

// stopUnwanted stops a job that nobody waits for; the caller holds mu.
func (d *desk) stopUnwanted(j *job) {
	now := d.now()
	for who, until := range j.waiting {
		if until.Before(now) {
			delete(j.waiting, who)
		}
	}
	if len(j.waiting) == 0 {
		j.stop(errStopped)
		d.forget(j) // whoever asks again begins anew
	}
}

// forget takes a job off the queue; the caller holds mu.
func (d *desk) forget(j *job) {
	if d.jobs[j.key] == j {
		delete(d.jobs, j.key)
	}
}

// watch stops a job whose people went away without a word.
func (d *desk) watch(ctx context.Context, j *job) {
	ticker := time.NewTicker(d.lease / 4)
	defer ticker.Stop()
	for {
		select {
		case <-ctx.Done():
			return
		case <-ticker.C:
			d.mu.Lock()
			d.stopUnwanted(j)
			d.mu.Unlock()
		}
	}
}

// work waits for its turn and computes.
func (d *desk) work(ctx context.Context, j *job) {
	j.answers, j.err = d.compute(ctx, j)
	d.mu.Lock()
	d.forget(j)
	d.mu.Unlock()
	close(j.finished)
	j.stop(nil)
}

func (d *desk) compute(ctx context.Context, j *job) ([]any, error) {
	select {
	case d.turn <- struct{}{}:
		defer func() { <-d.turn }()
	case <-ctx.Done():
		return nil, context.Cause(ctx)
	}
	var answers []any
	before := 0
	for _, t := range j.tasks {
		a, found := d.kept.get(t.Key())
		if !found {
			var err error
			if a, err = t.Run(ctx, func(done int) { j.done.Store(int64(before + done)) }); err != nil {
				return nil, err
			}
			d.kept.put(t.Key(), a, t.Weight())
		}
		before += t.Breaks()
		answers = append(answers, a)
	}
	return answers, nil
}

func (d *desk) progressOf(j *job) *progress {
	d.mu.Lock()
	defer d.mu.Unlock()
	p := &progress{Done: int(j.done.Load()), Total: j.total}
	for _, other := range d.jobs {
		if other.number < j.number {
			p.Before++
		}
	}
	return p
}

func keyOf(tasks []task) string {
	key := ""
	for _, t := range tasks {
		key += t.Key() + "\n"
	}
	return key
}
