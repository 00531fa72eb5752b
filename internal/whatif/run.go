package whatif

import (
	"context"
	"fmt"
	"math/rand/v2"

	"breakwright/internal/breaksim"
)

// Answer is a question with the breaks that answer it.
type Answer struct {
	Question Question
	Breaks   []SimulatedBreak
}

// breaksPerCheck is how many breaks are computed between two looks at whether anybody
// still wants the answer.
const breaksPerCheck = 10

// RunBreaks breaks as often as the question says, on one core. progress, which may be
// nil, is called now and then with how many breaks are done. When ctx ends, so does
// Run, with the reason. A question that Check refuses is refused.
func RunBreaks(ctx context.Context, q Question, progress func(done int)) (Answer, error) {
	q = q.Canonical()
	t, err := newTable(q)
	if err != nil {
		return Answer{}, err
	}
	a := Answer{Question: q, Breaks: make([]SimulatedBreak, 0, q.Breaks)}
	in := q.breakInput()
	for i := range q.Breaks {
		if i%breaksPerCheck == 0 {
			if err := context.Cause(ctx); err != nil {
				return Answer{}, fmt.Errorf("whatif: stopped after %d of %d breaks: %w", i, q.Breaks, err)
			}
			if progress != nil {
				progress(i)
			}
		}
		r, err := t.ComputeBreak(in, breakRandom(i))
		if err != nil {
			return Answer{}, fmt.Errorf("whatif: break %d: %w", i+1, err)
		}
		a.Breaks = append(a.Breaks, recordBreak(q, r))
	}
	if progress != nil {
		progress(q.Breaks)
	}
	return a, nil
}

// ReplayBreak computes break number i (from 0) of a question once more, with the path
// of every ball.
func ReplayBreak(q Question, i int) (breaksim.BreakResult, error) {
	q = q.Canonical()
	t, err := newTable(q)
	if err != nil {
		return breaksim.BreakResult{}, err
	}
	in := q.breakInput()
	in.Paths = true
	r, err := t.ComputeBreak(in, breakRandom(i))
	if err != nil {
		return breaksim.BreakResult{}, fmt.Errorf("whatif: break %d: %w", i+1, err)
	}
	return r, nil
}

func newTable(q Question) (*breaksim.Table, error) {
	if err := q.Check(); err != nil {
		return nil, err
	}
	t, err := breaksim.NewTable(breaksim.Defaults(), q.Kind)
	if err != nil {
		return nil, fmt.Errorf("whatif: %w", err)
	}
	return t, nil
}

// breakRandom is the chance that break number i meets, whatever is asked.
func breakRandom(i int) *rand.Rand { return rand.New(rand.NewPCG(0x627265616b, uint64(i))) }
