package main

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"

	"breakwright/internal/breaksim"
	"breakwright/internal/drill"
	"breakwright/internal/leave"
	"breakwright/internal/rack"
	"breakwright/internal/response"
	"breakwright/internal/table"
)

// sample is one computed break: what the stroke was, and what it showed.
type sample struct {
	inputs    response.Inputs // of a table whose constants nobody knows
	constants [constantCount]float32
	outcomes  response.OutcomeSet
}

// breaksPerTable is how many breaks are computed before cloth, cushions, balls
// and pockets change: the model is to hold for tables, not for one table.
const breaksPerTable = 40

// drawSamples computes breaks of strokes spread over all that hands do.
func drawSamples(r response.Rack, count int, seed uint64) ([]sample, error) {
	d := drawer{rack: r, rng: rand.New(rand.NewPCG(seed, 77))}
	samples := make([]sample, 0, count)
	for i := range count {
		if i%breaksPerTable == 0 {
			if err := d.changeTable(); err != nil {
				return nil, err
			}
		}
		s, err := d.draw()
		if err != nil {
			return nil, fmt.Errorf("compute a break: %w", err)
		}
		samples = append(samples, s)
	}
	return samples, nil
}

type drawer struct {
	rack      response.Rack
	table     *breaksim.Table
	constants [constantCount]float32
	instant   float32
	rng       *rand.Rand
}

func (d *drawer) between(low, high float64) float64 { return low + (high-low)*d.rng.Float64() }

// moved are the constants of the model that differ from table to table; the
// others bear on a break hardly or not at all (breaksim, MODEL.md).
var moved = [...]string{
	"restitution", "friction-floor", "friction-extra", "slide", "roll", "cushion-restitution",
	"cushion-tiring", "cushion-friction", "facing-share", "corner-shelf", "young",
}

const constantCount = len(moved)

// instantShare is how many of the tables have balls that meet pair by pair, which no balls
// do and many models have: what is learned is to hold for blows that are shared otherwise,
// too.
const instantShare = 0.15

// changeTable moves every constant over its plausible range, which is from -1 to 1 in the
// sample, and makes the contacts of some tables instant.
func (d *drawer) changeTable() error {
	p := breaksim.Defaults()
	for _, row := range breaksim.ListParams() {
		if i := slices.Index(moved[:], row.Key); i >= 0 {
			d.constants[i] = float32(d.between(-1, 1))
			row.SetValueIn(&p, row.Low+(row.High-row.Low)*(1+float64(d.constants[i]))/2)
		}
	}
	mouth := table.Inches(d.between(3.9, 5.1))
	k, err := table.NewKind([]int{9, 9, 8, 7}[d.rng.IntN(4)], mouth, mouth+0.5)
	if err != nil {
		return err
	}
	if d.table, err = breaksim.NewTable(p, k); err != nil {
		return err
	}
	d.instant = 0
	if d.rng.Float64() < instantShare {
		d.instant = 1
		d.table = d.table.WithInstantContacts()
	}
	return nil
}

// draw computes one break from the left.
func (d *drawer) draw() (sample, error) {
	return d.computeStroke(d.stroke(d.table.Kind()))
}

// computeStroke computes one break of a stroke.
func (d *drawer) computeStroke(stroke response.Stroke) (sample, error) {
	k := d.table.Kind()
	stroke.Table[response.Instant] = d.instant
	s := drill.StandardSetup(d.rack.Game, table.Left, k)
	s.Spot = d.rack.Spot
	s.Cue = table.Place{X: table.FlipSign(stroke.Out), Y: k.HeadString() - stroke.Behind}
	r, err := d.table.ComputeBreak(breaksim.BreakInput{
		Game: s.Game, Spot: s.Spot, Order: s.Order, Side: table.Left, Cue: s.Cue, Contact: stroke.Contact,
		Tip: breaksim.RadiusFraction(stroke.Tip), Spin: breaksim.RadiusFraction(stroke.Spin), Speed: stroke.Speed,
		Elevation: breaksim.Degrees(d.between(1.5, 5)),
		Scatter:   breaksim.ScatterOf(stroke.Unsteady, stroke.Gap),
	}, d.rng)
	if err != nil {
		return sample{}, err
	}
	b := writeDown(r, s, k)
	return sample{stroke.Normalise(k, s.Spot), d.constants, response.Outcomes(&b, s, k)}, nil
}

// stroke spreads over what hands do, told or not.
func (d *drawer) stroke(k table.Kind) response.Stroke {
	s := response.Stroke{
		Out: table.Inches(d.between(0, float64(k.Width()/2)-2.5)), Contact: table.Inches(d.between(-0.7, 0.7)),
		Tip: d.between(-0.48, 0.45), Speed: table.Mph(d.between(7, 27)),
		Unsteady: math.Exp(d.between(math.Log(0.5), math.Log(4))),
		Gap:      table.Inches(math.Exp(d.between(math.Log(0.0005), math.Log(0.03)))),
	}
	if d.rack.Spot == rack.CentreOnSpot {
		s.Contact = table.Inches(d.between(-1.15, 0.8)) // cut breaks too
	}
	if d.rng.IntN(2) == 0 {
		s.Behind = table.Inches(d.between(0, 10))
	}
	if d.rng.IntN(2) == 0 {
		s.Spin = d.between(-0.3, 0.3)
	}
	if math.Hypot(s.Tip, s.Spin) > 0.5 {
		s.Spin = 0
	}
	return s
}

// writeDown is the complete record of a computed break.
func writeDown(r breaksim.BreakResult, s drill.Setup, k table.Kind) drill.Break {
	var b drill.Break
	for _, p := range r.Pocketed {
		b.Pocketed = append(b.Pocketed, drill.Pocketed{Ball: p.Ball, Pocket: p.Pocket})
	}
	b.Off = r.Off
	switch cue := r.CueBallEnd(); cue.End {
	case breaksim.Dropped:
		b.Cue = drill.CueEnd{How: drill.Scratched, Scratch: cue.Pocket}
	case breaksim.OffTable:
		b.Cue = drill.CueEnd{How: drill.OffTable}
	default:
		b.Cue = drill.CueEnd{How: drill.Stopped, Place: cue.Place}
		b.CuePath = drill.CuePath(r.CuePath)
	}
	for _, ball := range r.Balls[1:] {
		if ball.End == breaksim.Stopped {
			b.Rest = append(b.Rest, drill.RestingBall{Ball: ball.Ball, Place: ball.Place})
		}
	}
	if wing, _ := r.BallInSlot(s.Wing); wing.End == breaksim.Stopped {
		b.WingMiss = wingMiss(wing.Met)
	}
	b.Rails, b.PastString = drill.ObservedCount(r.Rails), drill.ObservedCount(r.PastString)
	if left := leave.FromBreak(b, s, k); left.Hand == leave.InPlay {
		b.Shot = leave.FindShots(left, leave.PlayerAt(leave.Club)).Shot
	}
	return b
}

func wingMiss(met breaksim.FirstMet) drill.WingMiss {
	switch met {
	case breaksim.MetSideRail:
		return drill.MissSideRail
	case breaksim.MetFootRail:
		return drill.MissFootRail
	case breaksim.MetBall:
		return drill.MissKissed
	case breaksim.MetJaws:
		return drill.MissJaws
	}
	return drill.MissUnknown
}
