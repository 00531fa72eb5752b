package rackplan

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"breakwright/internal/breaksim"
	"breakwright/internal/drill"
	"breakwright/internal/leave"
	"breakwright/internal/rack"
	"breakwright/internal/rehearsal"
	"breakwright/internal/response"
	"breakwright/internal/table"
)

// handsOf breaks a rack with the hidden hands of a rehearsal student and writes
// everything down.
func handsOf(t testing.TB, s rehearsal.Student, setup drill.Setup, breaks int, rng *rand.Rand) drill.Set {
	t.Helper()
	p, physical := s.Breaker.(rehearsal.Physics)
	if !physical {
		t.Fatalf("%s breaks without physics", s.Name)
	}
	set := drill.Set{Student: s.Name, Name: "a", Table: "North 2", Kind: s.Kind, Setup: setup}
	for i := range breaks {
		in := breaksim.BreakInput{
			Game: setup.Game, Spot: setup.Spot, Order: setup.Order, Side: setup.Side, Cue: setup.Cue, Contact: setup.Contact + p.Pull,
			Tip: breaksim.RadiusFraction(min(max(setup.Tip+p.Raise, -0.5), 0.5)), Speed: max(setup.Speed+p.Rush, 10), Scatter: p.Scatter,
		}
		r, err := p.Table.ComputeBreak(in, rng)
		if err != nil {
			t.Fatal(err)
		}
		set.Breaks = append(set.Breaks, written(r, s.Kind, i+1))
	}
	return set
}

// shotsInTen are the breaks in ten that left an open shot on the lowest ball.
func shotsInTen(set drill.Set) float64 {
	n := 0
	for _, b := range set.Breaks {
		if leave.FromBreak(b, set.Setup, set.Kind).Verdict(leave.PlayerAt(leave.Club)) == drill.ShotOpen {
			n++
		}
	}
	return 10 * float64(n) / float64(len(set.Breaks))
}

// spreadOver returns the mean and its range four times in five.
func spreadOver(values []float64) (mean, low, high float64) {
	sum, squares, n := 0.0, 0.0, float64(len(values))
	for _, v := range values {
		sum, squares = sum+v, squares+v*v
	}
	mean = sum / n
	off := eighty * math.Sqrt(max(squares/n-mean*mean, 0)/max(n-1, 1))
	return mean, mean - off, mean + off
}

// rehearsed is what came of one student's plan.
type rehearsed struct {
	plan          Plan
	before, after float64 // open shots in ten fresh breaks, as the balls were and as they are then
	brought       float64 // of the goal, in one break
}

// rehearsePlan gives a rehearsal student with hidden hands a rack dealt without a
// purpose, makes a plan after forty breaks with the three lowest balls placed, and
// breaks two thousand more.
func rehearsePlan(t testing.TB, number int, goal Goal) rehearsed {
	rng := rand.New(rand.NewPCG(20, uint64(number)))
	s := rehearsal.DrawComputedStudent(response.Racks()[number/6%2], rehearsal.Faults()[number%len(rehearsal.Faults())], rng)
	setup := s.Start.ForSide(table.Left)
	setup.Order = rack.ShuffleOrder(setup.Game, rng)
	p, err := ProposeFor([]drill.Set{lowThree(handsOf(t, s, setup, 40, rng))}, goal)
	if err != nil {
		t.Fatal(err)
	}
	r := rehearsed{plan: p}
	if p.A == "" {
		return r
	}
	to, err := setup.Order.SwapSlots(setup.Game, p.A, p.B)
	if err != nil {
		t.Fatal(err)
	}
	fresh := handsOf(t, s, setup, 2000, rng)
	swapped := relabel(fresh, to)
	r.before, r.after = shotsInTen(fresh), shotsInTen(swapped)
	r.brought = played(swapped) - played(fresh)
	if goal == GoalShot {
		r.brought = (r.after - r.before) / 10
	}
	return r
}

// heldWords counts how many gains lay within their ranges.
func heldWords(list []rehearsed) string {
	below, above := 0, 0
	for _, r := range list {
		switch {
		case r.brought < r.plan.Low:
			below++
		case r.brought > r.plan.High:
			above++
		}
	}
	return fmt.Sprintf("%d of %d within the range, %d below, %d above", len(list)-below-above, len(list), below, above)
}

// meansWords returns the means in ten breaks, with their ranges four times in five.
func meansWords(list []rehearsed) string {
	text := ""
	for _, row := range []struct {
		name string
		of   func(r rehearsed) float64
	}{
		{"open shots before", func(r rehearsed) float64 { return r.before }}, {"after", func(r rehearsed) float64 { return r.after }},
		{"gained", func(r rehearsed) float64 { return r.after - r.before }},
		{"of the goal, planned", func(r rehearsed) float64 { return 10 * r.plan.Gain }}, {"played", func(r rehearsed) float64 { return 10 * r.brought }},
	} {
		var values []float64
		for _, r := range list {
			values = append(values, row.of(r))
		}
		mean, low, high := spreadOver(values)
		text += fmt.Sprintf("%s %.2f (%.2f to %.2f); ", row.name, mean, low, high)
	}
	return text
}

// Reports LEAVE.md's table of rehearsal students: how often the range of a plan held
// what the swap brought, for every swap that came into question and for those that
// were told. Run with -benchtime 1x.
func BenchmarkRehearsalStudents(b *testing.B) {
	const students = 36
	for b.Loop() {
		for _, goal := range []Goal{GoalPosition, GoalShot} {
			var all, advised []rehearsed
			tooEarly := 0
			for i := range students {
				r := rehearsePlan(b, i, goal)
				if r.plan.A != "" {
					all = append(all, r)
				}
				switch r.plan.Verdict {
				case VerdictSwap:
					advised = append(advised, r)
				case VerdictTooEarly:
					tooEarly++
				}
			}
			b.Logf("goal %s, %d students: the best swap's gain: %s", goal, students, heldWords(all))
			b.Logf("%d were told a swap, %d that it is too early: %s", len(advised), tooEarly, heldWords(advised))
			if len(advised) == 0 {
				continue
			}
			b.Log("those told, in ten breaks: " + meansWords(advised))
		}
	}
}
