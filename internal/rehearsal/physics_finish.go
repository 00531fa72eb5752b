package rehearsal

import (
	"math"

	"breakwright/internal/drill"
	"breakwright/internal/table"
)

// The two ways in which a physical student's targets are set.
const (
	standardTargets = "standard targets"
	suitedTargets   = "targets to suit"
)

// finish undoes the fault in the best setup, sets the targets and turns the
// student to their side.
func (d *embodied) finish(f Fault) Student {
	d.best.Contact = table.Flip(hundredth(d.body.Pull))
	d.best.Tip = hundredth(d.best.Tip - d.body.Raise)
	d.best = d.best.Rounded()
	side := table.Left
	if d.rng.IntN(2) == 0 {
		side = table.Right
	}
	s := d.student(f)
	s.Breaker = d.body
	s.Start, s.Best = d.start.For(side), d.best.For(side)
	s.NotesMisses, s.CountsRails = d.body.Habit.Misses, d.body.Habit.Rails
	s.Targets = drill.StandardTargets(d.kind)
	aims := standardTargets
	if d.rng.IntN(2) == 0 {
		aims = suitedTargets
		s.Targets = d.suited(s)
	}
	s.parts = d.parts
	if f == NoFault {
		s.parts = append(s.parts, aims)
	}
	return s
}

// suited are targets of a coach who knows about how well the student can come
// to break: from 5 fewer in a hundred than their best to 15 more, in twentieths.
func (d *embodied) suited(s Student) drill.Targets {
	t := newTruth(s, d.rng.Uint64())
	t.usual = 200
	best := t.of(s.Best)
	twentieths := func(rate float64) float64 { return math.Max(1, math.Round(20*rate)) / 20 }
	return drill.Targets{
		Wing:   twentieths(best.Wing - d.between(-0.05, 0.15)),
		Window: twentieths(best.Window - d.between(-0.05, 0.10)),
	}
}
