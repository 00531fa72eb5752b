package rehearsal

import (
	"context"
	"fmt"
	"math/rand/v2"
	"sync"

	"breakwright/internal/advice"
	"breakwright/internal/response"
)

// Options says which rehearsal is held.
type Options struct {
	// Students is how many there are of each fault; Sets how many sets of ten
	// each breaks under every adviser.
	Students, Sets int
	// Faults in the order of the report; none means all of them.
	Faults []Fault
	Seed   uint64
	// Model is what the students are made of; empty for curves.
	Model Model
	// Rack is what computed students break; nine-ball with the head ball on the
	// spot when empty.
	Rack response.Rack
	// Table puts computed students at one of the Tables, from 1, as a class: each is
	// judged beside what the others' breaks show of it. With 0 each is at any of them, and
	// judged alone.
	Table int
	// Forget takes a fact out of every break before the adviser sees it; empty for
	// none. See Facts.
	Forget Fact
	// Without names rules that are switched off.
	Without []advice.RuleName
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

// Limits of a run: what a small machine does in a few minutes.
const (
	MostStudents = 5000
	MostSets     = 50
)

// complete completes the options, or says what in them cannot be held.
func (p Options) complete() (Options, studentSource, error) {
	if p.Students < 1 || p.Students > MostStudents || p.Sets < 1 || p.Sets > MostSets {
		return p, studentSource{}, fmt.Errorf("rehearse: from 1 to %d students a fault and from 1 to %d sets", MostStudents, MostSets)
	}
	if p.Table < 0 || p.Table > Tables || p.Table > 0 && p.Model != PhysicsModel {
		return p, studentSource{}, fmt.Errorf("rehearse: computed students stand at the tables 1 to %d", Tables)
	}
	for _, name := range p.Without {
		if _, err := findRule(name); err != nil {
			return p, studentSource{}, fmt.Errorf("rehearse: %w", err)
		}
	}
	if p.Model == "" {
		p.Model = CurveModel
	}
	if p.Rack == (response.Rack{}) {
		p.Rack = response.Racks()[0]
	}
	if p.Forget != "" && forgetters[p.Forget] == nil {
		return p, studentSource{}, fmt.Errorf("rehearse: there is no fact %q: one of %v", p.Forget, Facts())
	}
	drawn, err := p.findSource()
	if err != nil {
		return p, drawn, fmt.Errorf("rehearse: %w", err)
	}
	if len(p.Faults) == 0 {
		p.Faults = drawn.faults
	}
	return p, drawn, nil
}

// Run holds the rehearsal. It stops early only when ctx ends.
func Run(ctx context.Context, p Options) (Report, error) {
	p, from, err := p.complete()
	if err != nil {
		return Report{}, err
	}
	return p.hold(ctx, from)
}

// hold holds the rehearsal of complete options with students from a source.
func (p Options) hold(ctx context.Context, from studentSource) (Report, error) {
	class, err := p.gatherClass(ctx, from)
	if err != nil {
		return Report{}, err
	}
	outcomes, err := collectFromStudents(ctx, p, func(fault, student int) studentOutcome {
		return p.rehearseStudent(from, class, fault, student)
	})
	if err != nil {
		return Report{}, err
	}
	return p.buildReport(outcomes, from), nil
}

// collectFromStudents returns what of gives of every student, by fault and number.
func collectFromStudents[T any](ctx context.Context, p Options, of func(fault, student int) T) ([][]T, error) {
	all := make([][]T, len(p.Faults))
	for i := range all {
		all[i] = make([]T, p.Students)
	}
	if err := p.forEachStudent(ctx, func(fault, student int) { all[fault][student] = of(fault, student) }); err != nil {
		return nil, fmt.Errorf("rehearse: %w", err)
	}
	return all, nil
}

// forEachStudent calls do for every student of every fault, by as many workers as the
// options have.
func (p Options) forEachStudent(ctx context.Context, do func(fault, student int)) error {
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

// studentOutcome is what became of one student under every adviser.
type studentOutcome struct {
	student                                Student
	start                                  Rates
	best                                   bestChange
	advised, unchanged, inchwise, informed trainingRun
}

// drawStudent draws a student of the run, and gives what is true of them and the seed
// of their luck. A student's secret depends on the seed, the fault and the number
// only, so that a rehearsal of one fault meets the same students as one of all.
func (p Options) drawStudent(from studentSource, fault, student int) (Student, *rateCounter, uint64) {
	f := p.Faults[fault]
	identity := uint64(faultOrdinal(f))<<32 | uint64(student)
	s := from.draw(f, rand.New(rand.NewPCG(p.Seed, identity)))
	t := newRateCounter(s, p.Seed+identity)
	t.usualBreaks, t.fineBreaks = from.usualBreaks, from.fineBreaks
	return s, t, p.Seed ^ (identity+1)*0x9e3779b97f4a7c15
}

func (p Options) rehearseStudent(from studentSource, class classmates, fault, student int) studentOutcome {
	s, t, luck := p.drawStudent(from, fault, student)
	with := func(a setupAdviser) trainingRun { return runTraining(s, a, t, p.Sets, luck) }
	best := from.findBest(s, t)
	return studentOutcome{
		student: s, start: t.fineRates(s.Start), best: best,
		advised:   with(p.adviserBeside(class, s, fault, student)),
		unchanged: with(fixedAdviser{}),
		inchwise:  with(inchwiseAdviser{s.Targets.Wing}),
		informed:  with(informedAdviser{best.setup}),
	}
}

// adviserBeside is the real adviser of a student beside a class.
func (p Options) adviserBeside(class classmates, s Student, fault, student int) ruleAdviser {
	adviser := p.realAdviser(s, rulesWithout(p.Without...))
	adviser.brief.TablesPlay = class.tablesBeside(fault, student).TablesPlay(s.Start)
	return adviser
}

// realAdviser is the adviser that is rehearsed.
func (p Options) realAdviser(s Student, rules advice.Rules) ruleAdviser {
	return ruleAdviser{advice.Brief{Window: s.Window, Targets: s.Targets, Rules: rules}, forgetters[p.Forget]}
}

func faultOrdinal(f Fault) int {
	for i, known := range ComputedFaults() {
		if f == known {
			return i
		}
	}
	return len(ComputedFaults())
}
