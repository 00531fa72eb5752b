package demo

import (
	"context"
	"math/rand/v2"
	"time"

	"breakwright/internal/closing"
	"breakwright/internal/drill"
	"breakwright/internal/evidence"
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

// lesson is a part being played by somebody with certain hands and luck.
type lesson struct {
	part
	luck uint64
	// before and after are the hands before and after the part's turn.
	before, after rehearsal.Physics

	sets  int         // that were closed
	setup drill.Setup // of the latest
	// wing counts the wing balls of each set, flew the breaks in which a ball
	// left the table.
	wing []evidence.Count
	flew []int
	// changes are the proposals, oldest first; waiting says that the last one
	// has no answer, card that the latest advice holds a break card.
	changes       []proposed
	waiting, card bool
}

// proposed is a change with what became of it; after is the setup it led to.
type proposed struct {
	state store.State
	after drill.Setup
}

// over says whether the part has come to its end.
func (l *lesson) over() bool { return l.sets >= l.least && l.story(l) == isTold }

// lost says that it never will.
func (l *lesson) lost() bool { return l.story(l) == isSpoilt }

// play holds sets until the part is over, or is lost, or has as many as it may.
func (l *lesson) play(ctx context.Context, r room, at func(set int) time.Time) error {
	for l.sets < l.most && !l.over() && !l.lost() {
		if err := l.set(ctx, r, at(l.sets), drill.UsualBreaks); err != nil {
			return err
		}
		c, err := r.end(ctx)
		if err != nil {
			return err
		}
		l.sets++
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
	hands := l.before
	if l.turns > 0 && l.sets >= l.turns {
		hands = l.after
	}
	l.setup = setup
	made, flew := evidence.Count{Tried: breaks}, 0
	rng := rand.New(rand.NewPCG(l.luck, uint64(l.sets)))
	for i := range breaks {
		b := hands.Break(setup, rng)
		b.Number, b.At = i+1, at.Add(time.Duration(i+1)*betweenBreaks)
		if b.WingMade(setup) {
			made.Made++
		}
		if b.BallsOff() {
			flew++
		}
		if err := r.record(ctx, b); err != nil {
			return err
		}
	}
	l.wing, l.flew = append(l.wing, made), append(l.flew, flew)
	return nil
}

// hear has the coach answer what was said.
func (l *lesson) hear(ctx context.Context, r room, c store.Closing) error {
	said, err := closing.Read(&store.Advice{JSON: c.JSON})
	if err != nil {
		return err
	}
	l.card = said.Card != nil
	if t := l.inTrial(); t != nil && c.Trial != "" {
		t.state = c.Trial
	}
	l.waiting = c.Proposal != nil
	if c.Proposal == nil {
		return nil
	}
	answer := l.coach
	for _, c := range l.changes {
		if c.state != store.Proposed {
			answer = approves
		}
	}
	d, decides := answer(l.setup, c.Proposal.Setup)
	change := proposed{state: store.Proposed, after: c.Proposal.Setup}
	if decides {
		l.waiting, change.state = false, d.Answer
	}
	if d.Answer == store.Changed {
		change.after = d.Setup
	}
	l.changes = append(l.changes, change)
	if !decides {
		return nil
	}
	return r.decide(ctx, d)
}

// inTrial is the change that the latest set tried out; nil for none.
func (l *lesson) inTrial() *proposed {
	for i := len(l.changes) - 1; i >= 0; i-- {
		c := &l.changes[i]
		if c.state == store.Declined || c.state == store.Proposed {
			continue
		}
		if settled(c.state) || c.after != l.setup {
			return nil
		}
		return c
	}
	return nil
}

// settled says that a change was tried to the end.
func settled(s store.State) bool {
	return s == store.Helped || s == store.NoDifference || s == store.Hurt
}
