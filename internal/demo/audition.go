package demo

import (
	"context"
	"math/rand/v2"
	"time"

	"breakwright/internal/drill"
	"breakwright/internal/store"
)

// mostAuditions bounds the search; the cast is such that far fewer are needed.
const mostAuditions = 500

// audition draws virtual students until one, with the luck they have, plays the
// part to its end in mind. So the club shows every state there is, whatever
// the rules of the day are. When nobody does, the last one drawn is taken.
func audition(ctx context.Context, p part, place int, d drill.Drill, t store.Table) (*lesson, error) {
	for luck := uint64(1); ; luck++ {
		l := newLesson(p, place, luck, d, t)
		if err := l.play(ctx, imagine(d.For(p.side), t), func(int) time.Time { return time.Time{} }); err != nil {
			return nil, err
		}
		if l.over() || luck == mostAuditions {
			again := newLesson(p, place, luck, d, t)
			again.most = l.sets // the same sets, for good
			return again, nil
		}
	}
}

// newLesson draws the student who plays the part, with a chance of their own.
func newLesson(p part, place int, luck uint64, d drill.Drill, t store.Table) *lesson {
	rng := rand.New(rand.NewPCG(luck, uint64(place)))
	setup := d.For(p.side).Setup.OnKind(d.Kind, t.Kind)
	return &lesson{part: p, breaker: virtual(p.fault, t.Kind, setup, rng), luck: luck}
}
