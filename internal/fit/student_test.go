package fit

import (
	"math"
	"math/rand/v2"
	"testing"

	"breakwright/internal/breaksim"
	"breakwright/internal/drill"
	"breakwright/internal/rack"
	"breakwright/internal/table"
)

// hands are those of a virtual student: what Fit has to find.
type hands struct {
	contact, contactScatter float64
	tip, tipScatter         float64
	place                   float64
}

// drawHands draws a student from the priors that Fit believes in.
func drawHands(rng *rand.Rand) hands {
	within := func(sd, most float64) float64 {
		for {
			if x := sd * rng.NormFloat64(); math.Abs(x) <= most {
				return x
			}
		}
	}
	even := func(low, high float64) float64 { return low * math.Pow(high/low, rng.Float64()) }
	return hands{
		contact: within(usualContact, 0.5), contactScatter: even(steadiestHands, shakiestHands),
		tip: within(usualTip, 0.26), tipScatter: even(steadiestTip, shakiestTip),
	}
}

// breaks has the student break n times under a setup, in a room of their own,
// and write down what a careful student does.
func (h hands) breaks(t testing.TB, s drill.Setup, k table.Kind, n int, rng *rand.Rand) []drill.Break {
	t.Helper()
	params, usual := drawConditions(s, rng)
	on, err := breaksim.NewTable(params, k)
	if err != nil {
		t.Fatal(err)
	}
	list := make([]drill.Break, 0, n)
	for len(list) < n {
		in := usual
		in.Contact += table.Inches(h.contact + h.contactScatter*rng.NormFloat64())
		in.Tip += breaksim.RadiusFraction(h.tip + h.tipScatter*rng.NormFloat64())
		in.Cue.X += table.Inches(h.place)
		if math.Abs(float64(in.Contact)) >= furthestContact || math.Hypot(float64(in.Tip), float64(in.Spin)) > furthestTip {
			continue
		}
		r, err := on.ComputeBreak(in, rng)
		if err != nil {
			t.Fatal(err)
		}
		list = append(list, written(r, s, len(list)+1))
	}
	return list
}

// written is what is written down of a computed break.
func written(r breaksim.BreakResult, s drill.Setup, number int) drill.Break {
	b := drill.Break{Number: number, Off: r.Off}
	for _, p := range r.Pocketed {
		b.Pocketed = append(b.Pocketed, drill.Pocketed{Ball: p.Ball, Pocket: p.Pocket})
	}
	switch c := r.CueBallEnd(); c.End {
	case breaksim.Stopped:
		b.Cue = drill.CueEnd{How: drill.Stopped, Place: c.Place}
		b.CuePath = drill.CuePath(r.CuePath)
	case breaksim.Dropped:
		b.Cue = drill.CueEnd{How: drill.Scratched, Scratch: c.Pocket}
	default:
		b.Cue = drill.CueEnd{How: drill.OffTable}
	}
	w, _ := r.BallInSlot(s.Wing)
	if w.End == breaksim.Stopped {
		b.WingMiss = map[breaksim.FirstMet]drill.WingMiss{
			breaksim.MetSideRail: drill.MissSideRail, breaksim.MetFootRail: drill.MissFootRail,
			breaksim.MetBall: drill.MissKissed, breaksim.MetJaws: drill.MissJaws,
		}[w.Met]
	}
	return b
}

func standard(k table.Kind) drill.Setup { return drill.StandardSetup(rack.NineBall, table.Left, k) }

func pair(t testing.TB, s drill.Setup, k table.Kind, breaks int) BankPair {
	t.Helper()
	p, err := NewBankPair(t.Context(), s, k, breaks, nil)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

func fitted(t testing.TB, all ...RecordedBreaks) Estimate {
	t.Helper()
	e, err := EstimateHands(all)
	if err != nil {
		t.Fatal(err)
	}
	return e
}
