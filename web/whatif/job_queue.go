package whatif

import (
	"context"
	"errors"
	"sync"
	"sync/atomic"
	"time"
)

// computeTask is something to be computed.
type computeTask interface {
	// Key tells tasks apart. The same key has the same answer.
	Key() string
	// CountBreaks counts the breaks to be computed, CacheWeight says what its answer takes
	// to keep, by a kept break.
	CountBreaks() int
	CacheWeight() int
	// Run computes the answer, says now and then how many breaks are done, and
	// ends when ctx does.
	Run(ctx context.Context, progress func(done int)) (any, error)
}

// jobQueue takes questions and gives answers: kept ones at once, others one after
// another, so that a class's phones never wait for the model.
type jobQueue struct {
	now   func() time.Time
	cache *answerCache
	// turn lets one computation run at a time.
	running chan struct{}
	// lease is how long a computation goes on without anybody asking for it.
	lease time.Duration

	mu         sync.Mutex
	jobs       map[string]*computeJob
	lastNumber int
}

// maxJobs bounds the queue.
const maxJobs = 12

// errQueueFull is a question that found the queue full.
var errQueueFull = errors.New("whatif: too many questions wait")

// errStopped ends a computation that nobody waits for.
var errStopped = errors.New("stopped, since nobody waits for it")

func newJobQueue(now func() time.Time) *jobQueue {
	return &jobQueue{now: now, cache: newAnswerCache(), running: make(chan struct{}, 1), lease: 6 * time.Second, jobs: map[string]*computeJob{}}
}

// computeJob is a computation that waits or runs.
type computeJob struct {
	key      string
	tasks    []computeTask
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
	waitingUntil map[string]time.Time
}

// jobProgress is how far a computation is.
type jobProgress struct {
	Done, Total int
	// JobsAhead counts the computations that come first.
	JobsAhead int
}

// awaitAnswers returns the answers of tasks, or, when they are not there after
// patience, how far they are; whoever asked for them must ask again within the
// lease. When ctx ends, the person waits no longer.
func (d *jobQueue) awaitAnswers(ctx context.Context, who string, tasks []computeTask, patience time.Duration) ([]any, *jobProgress, error) {
	if answers, all := d.cachedAnswers(tasks); all {
		return answers, nil, nil
	}
	j, err := d.joinJob(who, tasks, patience)
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
		d.leaveJob(who, tasks)
		return nil, nil, context.Cause(ctx)
	case <-timer.C:
		return nil, d.measureProgress(j), nil
	}
}

func (d *jobQueue) cachedAnswers(tasks []computeTask) (answers []any, all bool) {
	for _, t := range tasks {
		a, found := d.cache.getAnswer(t.Key())
		if !found {
			return nil, false
		}
		answers = append(answers, a)
	}
	return answers, true
}

// joinJob finds the job of these tasks or starts it, and notes that a person
// waits for it.
func (d *jobQueue) joinJob(who string, tasks []computeTask, patience time.Duration) (*computeJob, error) {
	d.mu.Lock()
	defer d.mu.Unlock()
	key := joinTaskKeys(tasks)
	j, going := d.jobs[key]
	if !going {
		if len(d.jobs) >= maxJobs {
			return nil, errQueueFull
		}
		ctx, stop := context.WithCancelCause(context.Background())
		d.lastNumber++
		j = &computeJob{key: key, tasks: tasks, number: d.lastNumber, stop: stop, finished: make(chan struct{}), waitingUntil: map[string]time.Time{}}
		for _, t := range tasks {
			j.total += t.CountBreaks()
		}
		d.jobs[key] = j
		go d.runJob(ctx, j)
		go d.watchLease(ctx, j)
	}
	j.waitingUntil[who] = d.now().Add(patience + d.lease)
	return j, nil
}

// leaveJob notes that a person waits no longer; the last one to leave stops it.
func (d *jobQueue) leaveJob(who string, tasks []computeTask) {
	d.mu.Lock()
	defer d.mu.Unlock()
	if j, going := d.jobs[joinTaskKeys(tasks)]; going {
		delete(j.waitingUntil, who)
		d.stopUnwantedJob(j)
	}
}

// stopUnwantedJob stops a job that nobody waits for; the caller holds mu.
func (d *jobQueue) stopUnwantedJob(j *computeJob) {
	now := d.now()
	for who, until := range j.waitingUntil {
		if until.Before(now) {
			delete(j.waitingUntil, who)
		}
	}
	if len(j.waitingUntil) == 0 {
		j.stop(errStopped)
		d.removeJob(j) // whoever asks again begins anew
	}
}

// removeJob takes a job off the queue; the caller holds mu.
func (d *jobQueue) removeJob(j *computeJob) {
	if d.jobs[j.key] == j {
		delete(d.jobs, j.key)
	}
}

// watchLease stops a job whose people went away without a word.
func (d *jobQueue) watchLease(ctx context.Context, j *computeJob) {
	ticker := time.NewTicker(d.lease / 4)
	defer ticker.Stop()
	for {
		select {
		case <-ctx.Done():
			return
		case <-ticker.C:
			d.mu.Lock()
			d.stopUnwantedJob(j)
			d.mu.Unlock()
		}
	}
}

// runJob waits for its turn and computes.
func (d *jobQueue) runJob(ctx context.Context, j *computeJob) {
	j.answers, j.err = d.computeAnswers(ctx, j)
	d.mu.Lock()
	d.removeJob(j)
	d.mu.Unlock()
	close(j.finished)
	j.stop(nil)
}

func (d *jobQueue) computeAnswers(ctx context.Context, j *computeJob) ([]any, error) {
	select {
	case d.running <- struct{}{}:
		defer func() { <-d.running }()
	case <-ctx.Done():
		return nil, context.Cause(ctx)
	}
	var answers []any
	before := 0
	for _, t := range j.tasks {
		a, found := d.cache.getAnswer(t.Key())
		if !found {
			var err error
			if a, err = t.Run(ctx, func(done int) { j.done.Store(int64(before + done)) }); err != nil {
				return nil, err
			}
			d.cache.putAnswer(t.Key(), a, t.CacheWeight())
		}
		before += t.CountBreaks()
		answers = append(answers, a)
	}
	return answers, nil
}

func (d *jobQueue) measureProgress(j *computeJob) *jobProgress {
	d.mu.Lock()
	defer d.mu.Unlock()
	p := &jobProgress{Done: int(j.done.Load()), Total: j.total}
	for _, other := range d.jobs {
		if other.number < j.number {
			p.JobsAhead++
		}
	}
	return p
}

func joinTaskKeys(tasks []computeTask) string {
	key := ""
	for _, t := range tasks {
		key += t.Key() + "\n"
	}
	return key
}
