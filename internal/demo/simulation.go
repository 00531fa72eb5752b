package demo

import (
	"context"
	"math/rand/v2"
	"time"

	"breakwright/internal/drill"
	"breakwright/internal/evidence"
	"breakwright/internal/rehearsal"
	"breakwright/internal/setreview"
	"breakwright/internal/store"
)

// setRecorder is where sets are kept: in mind, to see how they would end, or in the
// store.
type setRecorder interface {
	// begin starts a set and gives the setup to break under.
	beginSet(ctx context.Context, at time.Time) (drill.Setup, error)
	recordBreak(ctx context.Context, b drill.Break) error
	// end closes the set and gives what the adviser said.
	endSet(ctx context.Context) (store.Judgement, error)
	// decide answers the proposal of the set that was ended.
	decideChange(ctx context.Context, d store.Decision) error
}

// simulation is a part being played by somebody with certain hands and luck.
type simulation struct {
	castPart
	luck uint64
	// before and after are the hands before and after the part's turn.
	handsBefore, handsAfter rehearsal.Physics
	// cueOnly says that the drill asks for the cue ball alone.
	cueOnly bool

	sets  int         // that were closed
	setup drill.Setup // of the latest
	// wing counts the wing balls of each set, flew the breaks in which a ball
	// left the table.
	wing         []evidence.Count
	flyingBreaks []int
	// changes are the proposals, oldest first; waiting says that the last one
	// has no answer, card that the latest advice holds a break card.
	changes       []proposedChange
	waiting, card bool
}

// proposedChange is a change with what became of it; after is the setup it led to.
type proposedChange struct {
	state store.State
	after drill.Setup
}

// isFinished reports whether the part has come to its end.
func (l *simulation) isFinished() bool {
	return l.sets >= l.leastSets && l.storyCheck(l) == storyComplete
}

// isHopeless reports whether it never will.
func (l *simulation) isHopeless() bool { return l.storyCheck(l) == storyImpossible }

// playSets holds sets until the part is over, or is lost, or has as many as it may.
func (l *simulation) playSets(ctx context.Context, r setRecorder, at func(set int) time.Time) error {
	for l.sets < l.mostSets && !l.isFinished() && !l.isHopeless() {
		if err := l.playSet(ctx, r, at(l.sets), drill.UsualBreaks); err != nil {
			return err
		}
		c, err := r.endSet(ctx)
		if err != nil {
			return err
		}
		l.sets++
		if err := l.answerAdvice(ctx, r, c); err != nil {
			return err
		}
	}
	return nil
}

// betweenBreaks is how long it takes to rack again.
const betweenBreaks = 2 * time.Minute

// playSet begins a set and records so many breaks of it.
func (l *simulation) playSet(ctx context.Context, r setRecorder, at time.Time, breaks int) error {
	setup, err := r.beginSet(ctx, at)
	if err != nil {
		return err
	}
	hands := l.handsBefore
	if l.faultTurnsAfter > 0 && l.sets >= l.faultTurnsAfter {
		hands = l.handsAfter
	}
	l.setup = setup
	made, flew := evidence.Count{Tried: breaks}, 0
	rng := rand.New(rand.NewPCG(l.luck, uint64(l.sets)))
	for i := range breaks {
		b := hands.Break(setup, rng)
		if l.cueOnly {
			b = noteCueBallAlone(b)
		}
		b.Number, b.At = i+1, at.Add(time.Duration(i+1)*betweenBreaks)
		if b.WingMade(setup) {
			made.Made++
		}
		if b.HasBallsOff() {
			flew++
		}
		if err := r.recordBreak(ctx, b); err != nil {
			return err
		}
	}
	l.wing, l.flyingBreaks = append(l.wing, made), append(l.flyingBreaks, flew)
	return nil
}

// answerAdvice has the coach answer what was said.
func (l *simulation) answerAdvice(ctx context.Context, r setRecorder, c store.Judgement) error {
	advised, err := setreview.ReadAdvice(&store.Advice{JSON: c.JSON})
	if err != nil {
		return err
	}
	l.card = advised.Card != nil
	if t := l.changeOnTest(); t != nil && c.Outcome != "" {
		t.state = c.Outcome
	}
	l.waiting = c.Proposal != nil
	if c.Proposal == nil {
		return nil
	}
	answer := l.coachAnswers
	for _, c := range l.changes {
		if c.state != store.Proposed {
			answer = approveChange
		}
	}
	d, decides := answer(l.setup, c.Proposal.Setup)
	change := proposedChange{state: store.Proposed, after: c.Proposal.Setup}
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
	return r.decideChange(ctx, d)
}

// changeOnTest is the change that the latest set tried out; nil for none.
func (l *simulation) changeOnTest() *proposedChange {
	for i := len(l.changes) - 1; i >= 0; i-- {
		c := &l.changes[i]
		if c.state == store.Declined || c.state == store.Proposed {
			continue
		}
		if isSettled(c.state) || c.after != l.setup {
			return nil
		}
		return c
	}
	return nil
}

// isSettled reports whether a change was tried to the end.
func isSettled(s store.State) bool {
	return s == store.Helped || s == store.NoDifference || s == store.Hurt
}
