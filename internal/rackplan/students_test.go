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

// spreadOver gives the mean and its range four times in five.
func spreadOver(values []float64) (mean, low, high float64) {
	sum, squares, n := 0.0, 0.0, float64(len(values))
	for _, v := range values {
		sum, squares = sum+v, squares+v*v
	}
	mean = sum / n
	off := eighty * math.Sqrt(max(squares/n-mean*mean, 0)/max(n-1, 1))
	return mean, mean - off, mean + off
}

// Reports LEAVE.md's table: rehearsal students with hidden hands, a rack dealt
// without a purpose, forty breaks with the three lowest balls placed, and two
// thousand fresh breaks of those who were told a swap, with the balls as they were
// and as they are then. Run with -benchtime 1x.
func BenchmarkRehearsalStudents(b *testing.B) {
	for b.Loop() {
		for _, goal := range []Goal{GoalPosition, GoalShot} {
			var before, after, gained, planned, worth []float64
			told, tooEarly, below, above := 0, 0, 0, 0
			const students = 24
			for i := range students {
				rng := rand.New(rand.NewPCG(20, uint64(i)))
				s := rehearsal.DrawComputedStudent(response.Racks()[0], rehearsal.Faults()[i%len(rehearsal.Faults())], rng)
				setup := s.Start.ForSide(table.Left)
				setup.Order = rack.ShuffleOrder(setup.Game, rng)
				p, err := ProposeFor([]drill.Set{lowThree(handsOf(b, s, setup, 40, rng))}, goal)
				if err != nil {
					b.Fatal(err)
				}
				if p.Verdict == VerdictTooEarly {
					tooEarly++
				}
				if p.Verdict != VerdictSwap {
					continue
				}
				told++
				fresh := handsOf(b, s, setup, 2000, rng)
				swapped := relabel(fresh, p.Next)
				was, is := shotsInTen(fresh), shotsInTen(swapped)
				brought := played(swapped) - played(fresh)
				if goal == GoalShot {
					brought = (is - was) / 10
				}
				switch {
				case brought < p.Low:
					below++
				case brought > p.High:
					above++
				}
				before, after, gained, worth = append(before, was), append(after, is), append(gained, is-was), append(worth, 10*brought)
				planned = append(planned, 10*p.Gain)
			}
			b.Logf("goal %s: %d of %d told a swap, %d too early; the gain was below its range for %d of %d, above for %d", goal, told, students, tooEarly, below, told, above)
			text := ""
			for _, row := range []struct {
				name   string
				values []float64
			}{{"before", before}, {"after", after}, {"gained", gained}, {"of the goal, planned", planned}, {"played", worth}} {
				mean, low, high := spreadOver(row.values)
				text += fmt.Sprintf("; %s %.2f (%.2f to %.2f)", row.name, mean, low, high)
			}
			b.Log("shots in ten breaks" + text)
		}
	}
}
