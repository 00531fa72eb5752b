package demo

import (
	"math/rand/v2"

	"breakwright/internal/drill"
	"breakwright/internal/rehearsal"
	"breakwright/internal/table"
)

// virtual draws somebody with the fault, on this kind of table, whose fault
// shows under the setup that they are told.
func virtual(f rehearsal.Fault, k table.Kind, told drill.Setup, rng *rand.Rand) rehearsal.Breaker {
	for {
		if s := rehearsal.Draw(f, rng); s.Kind == k {
			return moved(s, told)
		}
	}
}

// moved carries a student's numbers along from the setup they were drawn with
// to the one they are told, so that they break under it as under the first.
func moved(s rehearsal.Student, told drill.Setup) rehearsal.Breaker {
	c, ok := s.Breaker.(rehearsal.Curve)
	if !ok {
		return s.Breaker
	}
	from, to := s.Start.For(table.Left), told.For(table.Left)
	c.Place += from.Cue.X - to.Cue.X
	c.Pull += from.Contact - to.Contact
	c.Tip += to.Tip - from.Tip
	faster := to.Speed - from.Speed
	c.Own, c.Needs, c.Control, c.Flies = c.Own+faster, c.Needs+faster, c.Control+faster, c.Flies+faster
	// The club's students have learnt to note what they see.
	c.Habit.Misses, c.Habit.Paths, c.Habit.Rails, c.Habit.Shots = true, true, true, true
	return c
}
