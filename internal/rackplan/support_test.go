package rackplan

import (
	"math/rand/v2"
	"testing"

	"breakwright/internal/breaksim"
	"breakwright/internal/drill"
	"breakwright/internal/rack"
	"breakwright/internal/table"
)

// computedBreaks breaks a setup so often on the computed table and writes
// everything down; every break in a set of its own number.
func computedBreaks(t testing.TB, s drill.Setup, k table.Kind, breaks int, seed uint64) drill.Set {
	t.Helper()
	tb, err := breaksim.NewTable(breaksim.Defaults(), k)
	if err != nil {
		t.Fatal(err)
	}
	set := drill.Set{Student: "Odile", Name: "a", Table: "North 2", Kind: k, Setup: s}
	in := breaksim.BreakInput{
		Game: s.Game, Spot: s.Spot, Order: s.Order, Side: s.Side, Cue: s.Cue, Contact: s.Contact,
		Tip: breaksim.RadiusFraction(s.Tip), Speed: s.Speed,
		Scatter: breaksim.StrokeScatter{Aim: 0.3, Speed: 0.7, Tip: 0.06, Place: 0.3, Gap: 0.004},
	}
	rng := rand.New(rand.NewPCG(seed, 9))
	for i := range breaks {
		r, err := tb.ComputeBreak(in, rng)
		if err != nil {
			t.Fatal(err)
		}
		set.Breaks = append(set.Breaks, written(r, k, i+1))
	}
	return set
}

func written(r breaksim.BreakResult, k table.Kind, number int) drill.Break {
	b := drill.Break{Number: number, Off: r.Off}
	for _, p := range r.Pocketed {
		b.Pocketed = append(b.Pocketed, drill.Pocketed{Ball: p.Ball, Pocket: p.Pocket})
	}
	for _, e := range r.Balls {
		switch {
		case e.Ball != 0 && e.End == breaksim.Stopped:
			b.Rest = append(b.Rest, drill.RestingBall{Ball: e.Ball, Place: k.NearestOnCloth(e.Place)})
		case e.Ball != 0:
		case e.End == breaksim.Stopped:
			b.Cue = drill.CueEnd{How: drill.Stopped, Place: k.NearestOnCloth(e.Place)}
		case e.End == breaksim.Dropped:
			b.Cue = drill.CueEnd{How: drill.Scratched, Scratch: e.Pocket}
		default:
			b.Cue = drill.CueEnd{How: drill.OffTable}
		}
	}
	return b
}

// relabel writes the same breaks down as they would have been with another order.
func relabel(set drill.Set, to rack.Order) drill.Set {
	number := map[rack.Ball]rack.Ball{}
	for i, b := range set.Setup.Order.Balls() {
		number[b] = to.Balls()[i]
	}
	m := set
	m.Setup.Order = to
	m.Breaks = nil
	for _, b := range set.Breaks {
		n := b
		n.Pocketed, n.Off, n.Rest = nil, nil, nil
		for _, p := range b.Pocketed {
			n.Pocketed = append(n.Pocketed, drill.Pocketed{Ball: number[p.Ball], Pocket: p.Pocket})
		}
		for _, ball := range b.Off {
			n.Off = append(n.Off, number[ball])
		}
		for _, r := range b.Rest {
			n.Rest = append(n.Rest, drill.RestingBall{Ball: number[r.Ball], Place: r.Place})
		}
		m.Breaks = append(m.Breaks, n)
	}
	return m
}
