package rehearsal

import (
	"context"
	"fmt"
	"math/rand/v2"
	"sync"

	"breakwright/internal/advice"
)

// Plan says which rehearsal is held.
type Plan struct {
	// Students is how many there are of each fault; Sets how many sets of ten
	// each breaks under every adviser.
	Students, Sets int
	// Faults in the order of the report; none means all of them.
	Faults []Fault
	Seed   uint64
	// Workers share the students out between them; fewer than one means one.
	// The report does not depend on it.
	Workers int
}

// Limits of a plan: what a small machine does in a few minutes.
const (
	MostStudents = 5000
	MostSets     = 50
)

// Run holds the rehearsal. It stops early only when ctx ends.
func Run(ctx context.Context, p Plan) (Report, error) {
	if p.Students < 1 || p.Students > MostStudents || p.Sets < 1 || p.Sets > MostSets {
		return Report{}, fmt.Errorf("rehearse: from 1 to %d students a fault and from 1 to %d sets", MostStudents, MostSets)
	}
	if len(p.Faults) == 0 {
		p.Faults = Faults()
	}
	outcomes := make([][]outcome, len(p.Faults))
	for i := range outcomes {
		outcomes[i] = make([]outcome, p.Students)
	}
	if err := p.share(ctx, func(fault, student int) {
		outcomes[fault][student] = p.rehearse(fault, student)
	}); err != nil {
		return Report{}, fmt.Errorf("rehearse: %w", err)
	}
	return p.report(outcomes), nil
}

// share calls do for every student of every fault, by as many workers as the
// plan has.
func (p Plan) share(ctx context.Context, do func(fault, student int)) error {
	work := make(chan [2]int)
	var group sync.WaitGroup
	for range max(p.Workers, 1) {
		group.Go(func() {
			for w := range work {
				do(w[0], w[1])
			}
		})
	}
	var stopped error
	for i := range p.Faults {
		for j := range p.Students {
			select {
			case work <- [2]int{i, j}:
			case <-ctx.Done():
				stopped = ctx.Err()
			}
			if stopped != nil {
				break
			}
		}
	}
	close(work)
	group.Wait()
	return stopped
}

// outcome is what became of one student under every adviser.
type outcome struct {
	student                      Student
	start, best                  Rates
	advised, left, inched, known lesson
}

func (p Plan) rehearse(fault, student int) outcome {
	f := p.Faults[fault]
	// A student's secret depends on the seed, the fault and the number only, so
	// that a rehearsal of one fault meets the same students as one of all.
	identity := uint64(ordinal(f))<<32 | uint64(student)
	s := Draw(f, rand.New(rand.NewPCG(p.Seed, identity)))
	t := newTruth(s, p.Seed+identity)
	luck := p.Seed ^ (identity+1)*0x9e3779b97f4a7c15
	with := func(a adviser) lesson { return hold(s, a, t, p.Sets, luck) }
	return outcome{
		student: s, start: t.of(s.Start), best: t.of(s.Best),
		advised: with(judge{advice.Brief{Window: s.Window, Targets: s.Targets}}),
		left:    with(never{}),
		inched:  with(inchwise{s.Targets.Wing}),
		known:   with(told{s.Best}),
	}
}

func ordinal(f Fault) int {
	for i, known := range Faults() {
		if f == known {
			return i
		}
	}
	return len(Faults())
}
