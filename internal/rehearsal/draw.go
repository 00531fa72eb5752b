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

// DrawStudent makes a student with one fault. All ranges are common practice, no
// source, unless a line says otherwise; each student has numbers of their own.
func DrawStudent(f Fault, rng *rand.Rand) Student {
	d := studentDraft{draws: draws{rng}, kind: drawKind(rng)}
	d.start = drill.StandardSetup(rack.NineBall, table.Left, d.kind)
	d.start.Speed = table.Mph(17 + rng.IntN(3))
	d.setFaultless()
	switch f {
	case Place:
		d.setWrongPlace()
	case Contact:
		d.setWrongContact()
	case Tip:
		d.setWrongTip()
	case Speed:
		d.setWrongSpeed()
	case Steadiness:
		d.setUnsteady()
	}
	d.fitTolerance()
	return d.buildStudent(f)
}

// studentDraft is a student being made, as one who breaks from the left.
type studentDraft struct {
	draws
	kind        table.Kind
	curve       Curve
	start, best drill.Setup
	remedies    []Remedy
	variant     string
}

// drawInches draws a length on a 9-foot table and brings it to this one.
func (d *studentDraft) drawInches(low, high float64) table.Inches {
	return table.Inches(d.drawBetween(low, high)) * d.curve.tableScale()
}

// nameVariant names the sort of a fault by the sign of a number.
func (d *studentDraft) nameVariant(v float64, below, above string) {
	d.variant = above
	if v < 0 {
		d.variant = below
	}
}

func drawKind(rng *rand.Rand) table.Kind {
	k := []table.Kind{table.SevenFoot(), table.EightFoot(), table.NineFoot(), table.NineFoot()}[rng.IntN(4)]
	k.CornerMouth = []table.Inches{4.25, 4.5, 4.75}[rng.IntN(3)]
	return k
}

// setFaultless starts near the student's own best, with the usual luck and habits.
// That the cue ball stops within some two feet of its mean is coaching practice.
func (d *studentDraft) setFaultless() {
	c := &d.curve
	c.Kind = d.kind
	c.Place = -d.start.Cue.X + d.drawInches(-1, 1)
	c.Spread = d.drawInches(2.5, 5)
	c.Kiss = d.drawBetween(0.04, 0.12)
	c.Pull = table.Inches(d.drawBetween(-0.03, 0.03))
	c.ContactSpread = table.Inches(d.drawBetween(0.04, 0.08))
	c.Tip = d.start.Tip + drill.RadiusFraction(d.drawBetween(-0.04, 0.04))
	c.PerTip = d.drawInches(9, 13)
	c.CueX = d.drawInches(-3, 3)
	c.SpreadX, c.SpreadY = d.drawInches(5.5, 8.5), d.drawInches(7.5, 12)
	c.MovedByAnother = d.drawBetween(0.05, 0.2)
	c.OwnSpeed = d.start.Speed
	c.NeededSpeed, c.ControlSpeed, c.FlySpeed = c.OwnSpeed-3, c.OwnSpeed+1, c.OwnSpeed+4
	c.Habit = drawHabit(d.rng)
	d.best = d.start
}

func drawHabit(rng *rand.Rand) Habit {
	return Habit{
		Misses: drawChance(0.7, rng), Paths: drawChance(0.7, rng), Rails: drawChance(0.6, rng),
		Shots: drawChance(0.5, rng), Rests: drawChance(0.3, rng), Speeds: drawChance(0.3, rng),
		Unseen: 0.02 + 0.13*rng.Float64(), Mistaken: 0.08 * rng.Float64(),
	}
}

// fitTolerance sets the tolerance so that the student at their best makes the
// wing ball from 5 fewer to 20 more times in a hundred than the table's target.
func (d *studentDraft) fitTolerance() {
	c := &d.curve
	above := d.drawBetween(-0.05, 0.20)
	if len(d.remedies) == 0 {
		d.nameVariant(above, "best under target", "best over target")
	}
	rate := (drill.StandardTargets(d.kind).Wing + above) / (1 - c.Kiss)
	c.Tolerance = table.Inches(c.errorSpread() * math.Sqrt2 * math.Erfinv(rate))
	d.best.Cue.X = -min(max(c.Place, 0), drill.OutermostCue(d.kind))
	d.best.Contact = table.FlipSign(c.Pull)
	d.best.Tip = c.Tip
	d.best = d.best.Rounded()
}

// setWrongPlace starts five to nine inches too far in or too far out.
func (d *studentDraft) setWrongPlace() {
	outermost := float64(drill.OutermostCue(d.kind))
	by := float64(d.drawInches(5, 9)) * d.drawSign()
	best := float64(d.drawInches(8, 20))
	if at := best + by; at > outermost || at < 0 {
		by = -by
	}
	d.nameVariant(by, "too far in", "too far out")
	d.curve.Place = table.Inches(best)
	// Coaches say whole inches, and none beyond what is taught.
	d.start.Cue.X = table.FlipSign(table.Inches(min(math.Round(best+by), math.Floor(outermost))))
	d.remedies = []Remedy{{Variable: advice.VaryPlace, Up: by < 0}}
}

// setWrongContact meets the head ball a fifth to two fifths of an inch off.
func (d *studentDraft) setWrongContact() {
	pull := d.drawBetween(0.2, 0.4) * d.drawSign()
	d.nameVariant(pull, "towards the break side", "towards the far side")
	d.curve.Pull = table.Inches(pull)
	d.remedies = []Remedy{{Variable: advice.VaryContact, Up: pull < 0}}
}

// setWrongTip strikes an eighth to a quarter of a radius too low or too high.
func (d *studentDraft) setWrongTip() {
	off := d.drawBetween(0.12, 0.28) * d.drawSign()
	d.nameVariant(off, "too low", "too high")
	d.start.Tip = drill.RadiusFraction(math.Round(100*(float64(d.start.Tip)+off)) / 100)
	d.remedies = []Remedy{{Variable: advice.VaryTip, Up: off < 0}}
}

// setWrongSpeed is either power without control, so that balls fly, or a stroke so
// soft that the rack hardly opens.
func (d *studentDraft) setWrongSpeed() {
	c := &d.curve
	if d.rng.IntN(2) == 0 {
		over := table.Mph(d.drawBetween(3.5, 5))
		d.start.Speed = table.Mph(20 + d.rng.IntN(3))
		c.NeededSpeed, c.ControlSpeed, c.FlySpeed = d.start.Speed-over-2.5, d.start.Speed-over, d.start.Speed-0.5
		d.best.Speed = d.start.Speed - over
	} else {
		d.start.Speed = table.Mph(14 + d.rng.IntN(3))
		c.NeededSpeed = d.start.Speed + table.Mph(d.drawBetween(0.5, 2))
		c.ControlSpeed, c.FlySpeed = c.NeededSpeed+4, c.NeededSpeed+7
		d.best.Speed = c.NeededSpeed + 2.5
	}
	c.OwnSpeed = d.best.Speed
	d.nameVariant(float64(d.start.Speed-d.best.Speed), "too soft", "too fast")
	d.remedies = []Remedy{{Variable: advice.VarySpeed, Up: d.best.Speed > d.start.Speed}}
}

// setUnsteady can hold the stroke together only well below the speed told.
func (d *studentDraft) setUnsteady() {
	c := &d.curve
	d.start.Speed = table.Mph(19 + d.rng.IntN(3))
	c.ControlSpeed = d.start.Speed - table.Mph(d.drawBetween(4, 5))
	c.NeededSpeed, c.FlySpeed = c.ControlSpeed-3, d.start.Speed+3
	c.OwnSpeed = c.ControlSpeed
	d.best.Speed = c.ControlSpeed
	d.remedies = []Remedy{{Variable: advice.VarySpeed, Up: false}}
}

func (d *studentDraft) buildStudent(f Fault) Student {
	side := d.drawSide()
	return Student{
		Name: fmt.Sprintf("Student %04d", d.rng.IntN(10000)), Breaker: d.curve, Kind: d.kind,
		Start: d.start.ForSide(side), Best: d.best.ForSide(side), Window: d.kind.StandardWindow(),
		Targets: drill.StandardTargets(d.kind), Fault: f, Variant: d.variant, Remedies: d.remedies,
		NotesMisses: d.curve.Habit.Misses, CountsRails: d.curve.Habit.Rails,
	}
}
