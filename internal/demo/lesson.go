package demo

import (
	"context"
	"math/rand/v2"
	"time"

	"breakwright/internal/advice"
	"breakwright/internal/drill"
	"breakwright/internal/rehearsal"
	"breakwright/internal/store"
)

// room is where a lesson is held: in mind, to see how it would end, or in the
// store.
type room interface {
	// begin starts a set and gives the setup to break under.
	begin(ctx context.Context, at time.Time) (drill.Setup, error)
	record(ctx context.Context, b drill.Break) error
	// end closes the set and gives what the adviser said.
	end(ctx context.Context) (store.Closing, error)
	// decide answers the proposal of the set that was ended.
	decide(ctx context.Context, d store.Decision) error
}

// lesson is a part being played with certain luck.
type lesson struct {
	part
	breaker rehearsal.Breaker
	luck    uint64
	// first is what became of the first proposal, verdict the latest word.
	first   store.State
	verdict string
	sets    int
	setup   drill.Setup // of the latest set
	waiting bool        // a proposal has no answer
}

// over says whether the part has come to its end.
func (l *lesson) over() bool {
	if l.sets < l.least || l.first != l.part.end {
		return false
	}
	return l.first == store.Proposed || !l.waiting && (l.first != "" || l.verdict == string(advice.Keep))
}

// play holds sets until the part is over or has as many as it may.
func (l *lesson) play(ctx context.Context, r room, at func(set int) time.Time) error {
	for l.sets < l.most && !l.over() {
		if err := l.set(ctx, r, at(l.sets), drill.UsualBreaks); err != nil {
			return err
		}
		l.sets++
		c, err := r.end(ctx)
		if err != nil {
			return err
		}
		if err := l.hear(ctx, r, c); err != nil {
			return err
		}
	}
	return nil
}

// betweenBreaks is how long it takes to rack again.
const betweenBreaks = 2 * time.Minute

// set begins a set and records so many breaks of it.
func (l *lesson) set(ctx context.Context, r room, at time.Time, breaks int) error {
	setup, err := r.begin(ctx, at)
	if err != nil {
		return err
	}
	l.setup = setup
	rng := rand.New(rand.NewPCG(l.luck, uint64(l.sets)))
	for i := range breaks {
		b := l.breaker.Break(setup, rng)
		b.Number, b.At = i+1, at.Add(time.Duration(i+1)*betweenBreaks)
		if err := r.record(ctx, b); err != nil {
			return err
		}
	}
	return nil
}

// hear has the coach answer what was said.
func (l *lesson) hear(ctx context.Context, r room, c store.Closing) error {
	l.verdict = c.Verdict
	if c.Trial != "" && l.first != "" && !l.settled() {
		l.first = c.Trial
	}
	l.waiting = c.Proposal != nil
	if c.Proposal == nil {
		return nil
	}
	answer := approves
	if l.first == "" {
		answer, l.first = l.coach, store.Proposed
	}
	d, decides := answer(l.setup, c.Proposal.Setup)
	if !decides {
		return nil
	}
	if l.first == store.Proposed {
		l.first = d.Answer
	}
	l.waiting = false
	return r.decide(ctx, d)
}

// settled says that the first proposal's trial is over.
func (l *lesson) settled() bool {
	return l.first == store.Helped || l.first == store.NoDifference || l.first == store.Hurt
}
