package rehearsal

import (
	"math"

	"breakwright/internal/drill"
	"breakwright/internal/table"
)

// The two ways in which a physical student's targets are set.
const (
	standardTargets = "standard targets"
	fittedTargets   = "targets to suit"
)

// finishStudent undoes the fault in the best setup, sets the targets and turns the
// student to their side.
func (d *bodyDraft) finishStudent(f Fault) Student {
	d.best.Contact = table.FlipSign(roundToHundredth(d.body.Pull))
	d.best.Tip = roundToHundredth(d.best.Tip - d.body.Raise)
	d.best = d.best.Rounded()
	side := table.Left
	if d.rng.IntN(2) == 0 {
		side = table.Right
	}
	s := d.buildStudent(f)
	s.Breaker = d.body
	s.Start, s.Best = d.start.ForSide(side), d.best.ForSide(side)
	s.NotesMisses, s.CountsRails = d.body.Habit.Misses, d.body.Habit.Rails
	s.Targets = drill.StandardTargets(d.kind)
	aims := standardTargets
	if d.rng.IntN(2) == 0 {
		aims = fittedTargets
		s.Targets = d.fitTargets(s)
	}
	s.reportParts = d.parts
	if f == NoFault {
		s.reportParts = append(s.reportParts, aims)
	}
	return s
}

// fitTargets are targets of a coach who knows about how well the student can come
// to break: from 5 fewer in a hundred than their best to 15 more, in twentieths.
func (d *bodyDraft) fitTargets(s Student) drill.Targets {
	t := newRateCounter(s, d.rng.Uint64())
	t.usualBreaks = 200
	best := t.usualRates(s.Best)
	twentieths := func(rate float64) float64 { return math.Max(1, math.Round(20*rate)) / 20 }
	return drill.Targets{
		Wing:   twentieths(best.Wing - d.drawBetween(-0.05, 0.15)),
		Window: twentieths(best.Window - d.drawBetween(-0.05, 0.10)),
	}
}
