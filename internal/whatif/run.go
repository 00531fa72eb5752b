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
	Breaks   []Break
}

// every is how many breaks are computed between two looks at whether anybody
// still wants the answer.
const every = 10

// Run breaks as often as the question says, on one core. progress, which may be
// nil, is told now and then how many breaks are done. When ctx ends, so does
// Run, with the reason. A question that Check refuses is refused.
func Run(ctx context.Context, q Question, progress func(done int)) (Answer, error) {
	q = q.Canonical()
	t, err := tableOf(q)
	if err != nil {
		return Answer{}, err
	}
	a := Answer{Question: q, Breaks: make([]Break, 0, q.Breaks)}
	in := q.input()
	for i := range q.Breaks {
		if i%every == 0 {
			if err := context.Cause(ctx); err != nil {
				return Answer{}, fmt.Errorf("whatif: stopped after %d of %d breaks: %w", i, q.Breaks, err)
			}
			if progress != nil {
				progress(i)
			}
		}
		r, err := t.Break(in, luck(i))
		if err != nil {
			return Answer{}, fmt.Errorf("whatif: break %d: %w", i+1, err)
		}
		a.Breaks = append(a.Breaks, seen(q, r))
	}
	if progress != nil {
		progress(q.Breaks)
	}
	return a, nil
}

// Show computes break number i (from 0) of a question once more, with the path
// of every ball.
func Show(q Question, i int) (breaksim.Result, error) {
	q = q.Canonical()
	t, err := tableOf(q)
	if err != nil {
		return breaksim.Result{}, err
	}
	in := q.input()
	in.Paths = true
	r, err := t.Break(in, luck(i))
	if err != nil {
		return breaksim.Result{}, fmt.Errorf("whatif: break %d: %w", i+1, err)
	}
	return r, nil
}

func tableOf(q Question) (*breaksim.Table, error) {
	if err := q.Check(); err != nil {
		return nil, err
	}
	t, err := breaksim.New(breaksim.Defaults(), q.Kind)
	if err != nil {
		return nil, fmt.Errorf("whatif: %w", err)
	}
	return t, nil
}

// luck is the chance that break number i meets, whatever is asked.
func luck(i int) *rand.Rand { return rand.New(rand.NewPCG(0x627265616b, uint64(i))) }
