package rehearsal

import (
	"math"
	"math/rand/v2"

	"breakwright/internal/advice"
	"breakwright/internal/breaksim"
	"breakwright/internal/drill"
	"breakwright/internal/rack"
	"breakwright/internal/table"
)

// bodyDraft is a physical student being made, as one who breaks from the left.
// All ranges are assumptions: steadiness as in package breaksim's own trials,
// the rest common practice, no source.
type bodyDraft struct {
	studentDraft
	room  *Room
	body  Physics
	parts []string
}

// usualWidening is how fast a stroke widens above the speed it is controlled at.
const usualWidening = 0.12

func drawPhysics(room *Room, f Fault, rng *rand.Rand) Student {
	d := bodyDraft{studentDraft: studentDraft{rng: rng, kind: drawPockets(rng)}, room: room}
	d.curve.Kind = d.kind // for lengths by the table's size
	d.start = drill.StandardSetup(rack.NineBall, table.Left, d.kind)
	d.start.Speed = table.Mph(17 + rng.IntN(3))
	d.setFaultlessBody()
	switch f {
	case Place:
		d.setWrongStance()
	case Contact:
		d.setOffCentreHit()
	case Tip:
		d.setWrongStrike()
	case Speed:
		d.setWrongPace()
	case Steadiness:
		d.setShakyStroke()
	}
	return d.finishStudent(f)
}

func drawPockets(rng *rand.Rand) table.Kind {
	feet := []int{7, 8, 9, 9}[rng.IntN(4)]
	mouth := []table.Inches{4, 4.5, 5}[rng.IntN(3)]
	k, err := table.NewKind(feet, mouth, mouth+table.StandardSideMouth-table.StandardCornerMouth)
	if err != nil {
		panic("rehearsal: " + err.Error())
	}
	return k
}

// setFaultlessBody starts from the best place, give or take an inch, with the tip
// height that lessons begin with, which is about as good as the best, and with
// hands that do nearly what they are told. The cue slopes as it must to clear the
// rail.
func (d *bodyDraft) setFaultlessBody() {
	p := &d.body
	p.Table = d.room.tableOf(d.kind)
	p.Pull = table.Inches(d.drawBetween(-0.03, 0.03))
	p.Raise = drill.RadiusFraction(d.drawBetween(-0.03, 0.03))
	p.Rush = table.Mph(d.drawBetween(-0.5, 0.5))
	p.Scatter = breaksim.StrokeScatter{
		Aim: breaksim.Degrees(d.drawBetween(0.1, 0.2)), Speed: 0.4, Tip: breaksim.RadiusFraction(d.drawBetween(0.03, 0.06)),
		Place: table.Inches(d.drawBetween(0.1, 0.3)), Gap: table.Inches(d.drawBetween(0.001, 0.003)),
	}
	p.OwnSpeed = d.start.Speed
	p.ControlSpeed, p.Widening = p.OwnSpeed+1, usualWidening
	p.Slope, p.LiftSpeed, p.SlopePerMph = breaksim.Degrees(d.drawBetween(2, 4)), p.OwnSpeed+4, 3
	p.Habit = drawHabit(d.rng)
	found := d.room.bestSetup(d.kind)
	d.best = d.start
	d.best.Cue.X, d.best.Tip = found.Cue.X, found.Tip
	out := math.Round(float64(table.FlipSign(found.Cue.X) + d.drawInches(-1, 1)))
	d.start.Cue.X = table.FlipSign(min(table.Inches(out), drill.OutermostCue(d.kind)))
}

// setWrongStance starts five to nine inches too far in. Too far out there is no
// room to stand: the model's best place is near the outermost one.
func (d *bodyDraft) setWrongStance() {
	by := d.drawInches(5, 9)
	d.variant = "too far in"
	d.start.Cue.X = table.FlipSign(table.Inches(math.Max(0, math.Round(float64(-d.best.Cue.X-by)))))
	d.remedies = []Remedy{{Variable: advice.VaryPlace, Up: true}, {Variable: advice.VaryContact, Instead: true}}
}

// setOffCentreHit meets the head ball a fifth to two fifths of an inch off.
func (d *bodyDraft) setOffCentreHit() {
	pull := d.drawBetween(0.2, 0.4) * d.drawSign()
	d.nameVariant(pull, "towards the break side", "towards the far side")
	d.body.Pull = table.Inches(pull)
	d.remedies = []Remedy{
		{Variable: advice.VaryContact, Up: pull < 0},
		{Variable: advice.VaryPlace, Up: pull > 0, Instead: true},
	}
}

// setWrongStrike strikes so low that the cue ball flies back to the head rail and
// scratches, or so high that it goes forward: because it was told so, or without
// knowing it. In between, from a sixth of a radius below centre to a twentieth
// above, the model finds hardly a difference.
func (d *bodyDraft) setWrongStrike() {
	strikes, up := d.drawBetween(-0.35, -0.2), d.rng.IntN(2) == 0
	d.variant = "too low"
	if up {
		strikes, d.variant = d.drawBetween(0.1, 0.25), "too high"
	}
	if d.rng.IntN(2) == 0 {
		d.start.Tip = roundToHundredth(drill.RadiusFraction(strikes))
		d.parts = append(d.parts, "as told")
	} else {
		d.body.Raise = drill.RadiusFraction(strikes) - d.start.Tip
		d.parts = append(d.parts, "without knowing")
	}
	d.remedies = []Remedy{{Variable: advice.VaryTip, Up: !up}}
}

// setWrongPace is either power that lifts the cue, so that balls fly, or a stroke
// so much softer than told that the cue ball hardly comes back and little drops.
// Down to ten miles an hour the model finds nothing wrong with a soft break: it
// holds the cue ball better. More draw helps a soft break's cue ball, too.
func (d *bodyDraft) setWrongPace() {
	p := &d.body
	if d.rng.IntN(2) == 0 {
		over := table.Mph(d.drawBetween(3.5, 5))
		d.start.Speed = table.Mph(20 + d.rng.IntN(3))
		p.ControlSpeed, p.LiftSpeed, p.SlopePerMph = d.start.Speed-over, d.start.Speed-over+2, 3
		d.best.Speed = p.ControlSpeed
		d.variant = "too fast"
		d.remedies = []Remedy{{Variable: advice.VarySpeed}}
	} else {
		d.start.Speed = table.Mph(14 + d.rng.IntN(3))
		reached := table.Mph(d.drawBetween(7, 8.5))
		p.Rush = reached - d.start.Speed
		d.best.Speed = min(table.Mph(14)-p.Rush, drill.FastestBreak)
		p.ControlSpeed, p.LiftSpeed = 16, 19
		d.variant = "too soft"
		d.remedies = []Remedy{{Variable: advice.VarySpeed, Up: true}, {Variable: advice.VaryTip, Instead: true}}
	}
	p.OwnSpeed = d.best.Speed
}

// setShakyStroke is told a speed at which the stroke is two to four times as wide as
// where it is controlled.
func (d *bodyDraft) setShakyStroke() {
	p := &d.body
	d.start.Speed = table.Mph(19 + d.rng.IntN(3))
	p.ControlSpeed = d.start.Speed - table.Mph(d.drawBetween(4, 5))
	p.Widening = d.drawBetween(0.2, 0.3)
	p.LiftSpeed, p.OwnSpeed = d.start.Speed+3, p.ControlSpeed
	d.best.Speed = p.ControlSpeed
	d.remedies = []Remedy{{Variable: advice.VarySpeed}}
}

func roundToHundredth[T ~float64](v T) T { return T(math.Round(float64(v)*100)/100) + 0 }
