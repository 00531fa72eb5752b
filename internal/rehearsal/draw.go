package rehearsal

import (
	"fmt"
	"math"
	"math/rand/v2"

	"breakwright/internal/advice"
	"breakwright/internal/drill"
	"breakwright/internal/rack"
	"breakwright/internal/table"
)

// Draw makes a student with one fault. All ranges are common practice, no
// source, unless a line says otherwise; each student has numbers of their own.
func Draw(f Fault, rng *rand.Rand) Student {
	d := drawing{rng: rng, kind: drawKind(rng)}
	d.start = drill.Standard(rack.NineBall, table.Left, d.kind)
	d.start.Speed = table.Mph(17 + rng.IntN(3))
	d.faultless()
	switch f {
	case Place:
		d.wrongPlace()
	case Contact:
		d.wrongContact()
	case Tip:
		d.wrongTip()
	case Speed:
		d.wrongSpeed()
	case Steadiness:
		d.unsteady()
	}
	d.settleWing()
	return d.student(f)
}

// drawing is a student being made, as one who breaks from the left.
type drawing struct {
	rng         *rand.Rand
	kind        table.Kind
	curve       Curve
	start, best drill.Setup
	remedies    []Remedy
	sort        string
}

func (d *drawing) between(low, high float64) float64 { return low + (high-low)*d.rng.Float64() }

// inches draws a length on a 9-foot table and brings it to this one.
func (d *drawing) inches(low, high float64) table.Inches {
	return table.Inches(d.between(low, high)) * d.curve.scale()
}

// either is one of two ways, each as likely.
func (d *drawing) either() float64 {
	if d.rng.IntN(2) == 0 {
		return -1
	}
	return 1
}

// sorted names the sort of a fault by the sign of a number.
func (d *drawing) sorted(v float64, below, above string) {
	d.sort = above
	if v < 0 {
		d.sort = below
	}
}

func drawKind(rng *rand.Rand) table.Kind {
	k := []table.Kind{table.SevenFoot(), table.EightFoot(), table.NineFoot(), table.NineFoot()}[rng.IntN(4)]
	k.CornerMouth = []table.Inches{4.25, 4.5, 4.75}[rng.IntN(3)]
	return k
}

// faultless starts near the student's own best, with the usual luck and habits.
// That the cue ball stops within some two feet of its mean is coaching practice.
func (d *drawing) faultless() {
	c := &d.curve
	c.Kind = d.kind
	c.Place = -d.start.Cue.X + d.inches(-1, 1)
	c.Spread = d.inches(2.5, 5)
	c.Kiss = d.between(0.04, 0.12)
	c.Pull = table.Inches(d.between(-0.03, 0.03))
	c.ContactSpread = table.Inches(d.between(0.04, 0.08))
	c.Tip = d.start.Tip + drill.Fraction(d.between(-0.04, 0.04))
	c.PerTip = d.inches(9, 13)
	c.CueX = d.inches(-3, 3)
	c.SpreadX, c.SpreadY = d.inches(5.5, 8.5), d.inches(7.5, 12)
	c.MovedByAnother = d.between(0.05, 0.2)
	c.Own = d.start.Speed
	c.Needs, c.Control, c.Flies = c.Own-3, c.Own+1, c.Own+4
	c.Habit = drawHabit(d.rng)
	d.best = d.start
}

func drawHabit(rng *rand.Rand) Habit {
	return Habit{
		Misses: chance(0.7, rng), Paths: chance(0.7, rng), Rails: chance(0.6, rng),
		Shots: chance(0.5, rng), Rests: chance(0.3, rng), Speeds: chance(0.3, rng),
		Unseen: 0.02 + 0.13*rng.Float64(), Mistaken: 0.08 * rng.Float64(),
	}
}

// settleWing sets the tolerance so that the student at their best makes the
// wing ball from 5 fewer to 20 more times in a hundred than the table's target.
func (d *drawing) settleWing() {
	c := &d.curve
	above := d.between(-0.05, 0.20)
	if len(d.remedies) == 0 {
		d.sorted(above, "best under target", "best over target")
	}
	rate := (drill.StandardTargets(d.kind).Wing + above) / (1 - c.Kiss)
	c.Tolerance = table.Inches(c.spreadOfError() * math.Sqrt2 * math.Erfinv(rate))
	d.best.Cue.X = -min(max(c.Place, 0), drill.OutermostCue(d.kind))
	d.best.Contact = table.Flip(c.Pull)
	d.best.Tip = c.Tip
	d.best = d.best.Rounded()
}

// wrongPlace starts five to nine inches too far in or too far out.
func (d *drawing) wrongPlace() {
	outermost := float64(drill.OutermostCue(d.kind))
	by := float64(d.inches(5, 9)) * d.either()
	best := float64(d.inches(8, 20))
	if at := best + by; at > outermost || at < 0 {
		by = -by
	}
	d.sorted(by, "too far in", "too far out")
	d.curve.Place = table.Inches(best)
	// Coaches say whole inches, and none beyond what is taught.
	d.start.Cue.X = table.Flip(table.Inches(min(math.Round(best+by), math.Floor(outermost))))
	d.remedies = []Remedy{
		{Variable: advice.VaryPlace, Up: by < 0},
		{Variable: advice.VaryContact, Up: by > 0, Instead: true},
	}
}

// wrongContact meets the head ball a fifth to two fifths of an inch off.
func (d *drawing) wrongContact() {
	pull := d.between(0.2, 0.4) * d.either()
	d.sorted(pull, "towards the break side", "towards the far side")
	d.curve.Pull = table.Inches(pull)
	d.remedies = []Remedy{
		{Variable: advice.VaryContact, Up: pull < 0},
		{Variable: advice.VaryPlace, Up: pull > 0, Instead: true},
	}
}

// wrongTip strikes an eighth to a quarter of a radius too low or too high.
func (d *drawing) wrongTip() {
	off := d.between(0.12, 0.28) * d.either()
	d.sorted(off, "too low", "too high")
	d.start.Tip = drill.Fraction(math.Round(100*(float64(d.start.Tip)+off)) / 100)
	d.remedies = []Remedy{{Variable: advice.VaryTip, Up: off < 0}}
}

// wrongSpeed is either power without control, so that balls fly, or a stroke so
// soft that the rack hardly opens.
func (d *drawing) wrongSpeed() {
	c := &d.curve
	if d.rng.IntN(2) == 0 {
		over := table.Mph(d.between(3.5, 5))
		d.start.Speed = table.Mph(20 + d.rng.IntN(3))
		c.Needs, c.Control, c.Flies = d.start.Speed-over-2.5, d.start.Speed-over, d.start.Speed-0.5
		d.best.Speed = d.start.Speed - over
	} else {
		d.start.Speed = table.Mph(14 + d.rng.IntN(3))
		c.Needs = d.start.Speed + table.Mph(d.between(0.5, 2))
		c.Control, c.Flies = c.Needs+4, c.Needs+7
		d.best.Speed = c.Needs + 2.5
	}
	c.Own = d.best.Speed
	d.sorted(float64(d.start.Speed-d.best.Speed), "too soft", "too fast")
	d.remedies = []Remedy{{Variable: advice.VarySpeed, Up: d.best.Speed > d.start.Speed}}
}

// unsteady can hold the stroke together only well below the speed told.
func (d *drawing) unsteady() {
	c := &d.curve
	d.start.Speed = table.Mph(19 + d.rng.IntN(3))
	c.Control = d.start.Speed - table.Mph(d.between(4, 5))
	c.Needs, c.Flies = c.Control-3, d.start.Speed+3
	c.Own = c.Control
	d.best.Speed = c.Control
	d.remedies = []Remedy{{Variable: advice.VarySpeed, Up: false}}
}

func (d *drawing) student(f Fault) Student {
	side := table.Left
	if d.rng.IntN(2) == 0 {
		side = table.Right
	}
	return Student{
		Name: fmt.Sprintf("Student %04d", d.rng.IntN(10000)), Breaker: d.curve, Kind: d.kind,
		Start: d.start.For(side), Best: d.best.For(side), Window: d.kind.StandardWindow(),
		Targets: drill.StandardTargets(d.kind), Fault: f, Sort: d.sort, Remedies: d.remedies,
		NotesMisses: d.curve.Habit.Misses, CountsRails: d.curve.Habit.Rails,
	}
}
