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
	// Model is what the students are made of; empty for curves.
	Model Model
	// Without names rules that are switched off.
	Without []advice.Name
	// Workers share the students out between them; fewer than one means one.
	// The report does not depend on it.
	Workers int
}

// What a rehearsal has when nothing else is said.
const (
	UsualStudents = 200
	UsualSets     = 6
	UsualSeed     = 1
)

// Limits of a plan: what a small machine does in a few minutes.
const (
	MostStudents = 5000
	MostSets     = 50
)

// ready completes the plan, or says what in it cannot be held.
func (p Plan) ready() (Plan, school, error) {
	if p.Students < 1 || p.Students > MostStudents || p.Sets < 1 || p.Sets > MostSets {
		return p, school{}, fmt.Errorf("rehearse: from 1 to %d students a fault and from 1 to %d sets", MostStudents, MostSets)
	}
	for _, name := range p.Without {
		if _, err := ruleOf(name); err != nil {
			return p, school{}, fmt.Errorf("rehearse: %w", err)
		}
	}
	if len(p.Faults) == 0 {
		p.Faults = Faults()
	}
	if p.Model == "" {
		p.Model = OfCurves
	}
	drawn, err := p.Model.school()
	if err != nil {
		return p, drawn, fmt.Errorf("rehearse: %w", err)
	}
	return p, drawn, nil
}

// Run holds the rehearsal. It stops early only when ctx ends.
func Run(ctx context.Context, p Plan) (Report, error) {
	p, from, err := p.ready()
	if err != nil {
		return Report{}, err
	}
	outcomes := make([][]outcome, len(p.Faults))
	for i := range outcomes {
		outcomes[i] = make([]outcome, p.Students)
	}
	if err := p.share(ctx, func(fault, student int) {
		outcomes[fault][student] = p.rehearse(from, fault, student)
	}); err != nil {
		return Report{}, fmt.Errorf("rehearse: %w", err)
	}
	return p.report(outcomes, from.margin), nil
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

// meet draws a student of the plan, and gives what is true of them and the seed
// of their luck. A student's secret depends on the seed, the fault and the number
// only, so that a rehearsal of one fault meets the same students as one of all.
func (p Plan) meet(from school, fault, student int) (Student, *truth, uint64) {
	f := p.Faults[fault]
	identity := uint64(ordinal(f))<<32 | uint64(student)
	s := from.draw(f, rand.New(rand.NewPCG(p.Seed, identity)))
	t := newTruth(s, p.Seed+identity)
	t.usual, t.finely = from.usual, from.finely
	return s, t, p.Seed ^ (identity+1)*0x9e3779b97f4a7c15
}

func (p Plan) rehearse(from school, fault, student int) outcome {
	s, t, luck := p.meet(from, fault, student)
	with := func(a adviser) lesson { return hold(s, a, t, p.Sets, luck) }
	return outcome{
		student: s, start: t.closely(s.Start), best: t.closely(s.Best),
		advised: with(judge{advice.Brief{Window: s.Window, Targets: s.Targets, Rules: without(p.Without...)}}),
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
