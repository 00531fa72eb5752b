package breaksim

import (
	"testing"

	"breakwright/internal/rack"
	"breakwright/internal/table"
)

// Whole breaks, from the stroke to the last ball's rest, with scatter.
func BenchmarkBreak(b *testing.B) {
	for _, g := range rack.Games() {
		b.Run(string(g), func(b *testing.B) {
			tb := nineFoot(b, nil)
			in := leftBreak()
			in.Game, in.Order, in.Scatter = g, g.PracticeOrder(table.Left), human()
			breaksOf(b, tb, in)
		})
	}
	b.Run("nine-ball with paths", func(b *testing.B) {
		in := leftBreak()
		in.Scatter, in.Paths = human(), true
		breaksOf(b, nineFoot(b, nil), in)
	})
}

func breaksOf(b *testing.B, tb *Table, in BreakInput) {
	b.ReportAllocs()
	events := 0
	for i := 0; b.Loop(); i++ {
		r, err := tb.ComputeBreak(in, seeded(i))
		if err != nil {
			b.Fatal(err)
		}
		events += r.Events
	}
	b.ReportMetric(float64(b.N)/b.Elapsed().Seconds(), "breaks/s")
	b.ReportMetric(float64(events)/float64(b.N), "events/break")
}

// The same breaks the plain way, to the same second, with 80 steps a contact:
// about the accuracy of the stiff phase's default.
func BenchmarkPlainWay(b *testing.B) {
	tb := nineFoot(b, nil)
	in := leftBreak()
	in.Scatter = human()
	for i := 0; b.Loop(); i++ {
		b.StopTimer()
		r, err := tb.ComputeBreak(in, seeded(i%8))
		if err != nil {
			b.Fatal(err)
		}
		p := newPlain(tb, tb.setUpBreak(in, seeded(i%8)), 80)
		b.StartTimer()
		p.runTo(r.Seconds)
	}
	b.ReportMetric(float64(b.N)/b.Elapsed().Seconds(), "breaks/s")
}
