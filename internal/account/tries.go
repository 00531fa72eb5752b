package account

import (
	"sync"
	"time"

	"golang.org/x/time/rate"
)

// Tries limits how often something may be tried under one name: an address, a
// sign-in name, a join code. It is kept in memory, so each server process
// counts for itself.
type Tries struct {
	mu    sync.Mutex
	every rate.Limit
	burst int
	seen  map[string]*tried
	now   func() time.Time
}

type tried struct {
	limiter *rate.Limiter
	last    time.Time
}

// NewTries allows burst tries at once and one more every interval after that.
// now is the clock.
func NewTries(burst int, interval time.Duration, now func() time.Time) *Tries {
	return &Tries{every: rate.Every(interval), burst: burst, seen: map[string]*tried{}, now: now}
}

// mostNames bounds the memory a flood of names can take.
const mostNames = 20_000

// Allow takes a try under that name, or says no.
func (t *Tries) Allow(name string) bool {
	t.mu.Lock()
	defer t.mu.Unlock()
	now := t.now()
	one, known := t.seen[name]
	if !known {
		if len(t.seen) >= mostNames {
			t.sweep(now)
		}
		one = &tried{limiter: rate.NewLimiter(t.every, t.burst)}
		t.seen[name] = one
	}
	one.last = now
	return one.limiter.AllowN(now, 1)
}

// Forgive forgets the tries under a name, after one that was right.
func (t *Tries) Forgive(name string) {
	t.mu.Lock()
	defer t.mu.Unlock()
	delete(t.seen, name)
}

// sweep forgets names whose allowance has filled up again, and, if that is not
// enough, everything: a flood must not end in no memory.
func (t *Tries) sweep(now time.Time) {
	full := time.Duration(float64(t.burst) / float64(t.every) * float64(time.Second))
	for name, one := range t.seen {
		if now.Sub(one.last) > full {
			delete(t.seen, name)
		}
	}
	if len(t.seen) >= mostNames {
		clear(t.seen)
	}
}
