package account

import (
	"sync"
	"time"

	"golang.org/x/time/rate"
)

// AttemptLimiter limits how often something may be tried under one name: an address, a
// sign-in name, a join code. It is kept in memory, so each server process
// counts for itself.
type AttemptLimiter struct {
	mu     sync.Mutex
	every  rate.Limit
	burst  int
	byName map[string]*attemptRecord
	now    func() time.Time
}

type attemptRecord struct {
	limiter *rate.Limiter
	last    time.Time
}

// NewAttemptLimiter allows burst tries at once and one more every interval after that.
// now is the clock.
func NewAttemptLimiter(burst int, interval time.Duration, now func() time.Time) *AttemptLimiter {
	return &AttemptLimiter{every: rate.Every(interval), burst: burst, byName: map[string]*attemptRecord{}, now: now}
}

// maxTrackedNames bounds the memory a flood of names can take.
const maxTrackedNames = 20_000

// Allow takes a try under that name, or says no.
func (t *AttemptLimiter) Allow(name string) bool {
	t.mu.Lock()
	defer t.mu.Unlock()
	now := t.now()
	one, known := t.byName[name]
	if !known {
		if len(t.byName) >= maxTrackedNames {
			t.forgetRefilled(now)
		}
		one = &attemptRecord{limiter: rate.NewLimiter(t.every, t.burst)}
		t.byName[name] = one
	}
	one.last = now
	return one.limiter.AllowN(now, 1)
}

// Reset forgets the tries under a name, after one that was right.
func (t *AttemptLimiter) Reset(name string) {
	t.mu.Lock()
	defer t.mu.Unlock()
	delete(t.byName, name)
}

// forgetRefilled forgets names whose allowance has filled up again, and, if that is not
// enough, everything: a flood must not end in no memory.
func (t *AttemptLimiter) forgetRefilled(now time.Time) {
	full := time.Duration(float64(t.burst) / float64(t.every) * float64(time.Second))
	for name, one := range t.byName {
		if now.Sub(one.last) > full {
			delete(t.byName, name)
		}
	}
	if len(t.byName) >= maxTrackedNames {
		clear(t.byName)
	}
}
