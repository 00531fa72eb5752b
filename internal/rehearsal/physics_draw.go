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

// embodied is a physical student being made, as one who breaks from the left.
// All ranges are assumptions: steadiness as in package breaksim's own trials,
// the rest common practice, no source.
type embodied struct {
	drawing
	room  *Room
	body  Physics
	parts []string
}

// usualWidening is how fast a stroke widens above the speed it is controlled at.
const usualWidening = 0.12

func drawPhysics(room *Room, f Fault, rng *rand.Rand) Student {
	d := embodied{drawing: drawing{rng: rng, kind: drawPockets(rng)}, room: room}
	d.curve.Kind = d.kind // for lengths by the table's size
	d.start = drill.Standard(rack.NineBall, table.Left, d.kind)
	d.start.Speed = table.Mph(17 + rng.IntN(3))
	d.faultlessBody()
	switch f {
	case Place:
		d.standsWrong()
	case Contact:
		d.hitsOff()
	case Tip:
		d.strikesOff()
	case Speed:
		d.wrongPace()
	case Steadiness:
		d.shaky()
	}
	return d.finish(f)
}

func drawPockets(rng *rand.Rand) table.Kind {
	feet := []int{7, 8, 9, 9}[rng.IntN(4)]
	mouth := []table.Inches{4, 4.5, 5}[rng.IntN(3)]
	k, err := table.Make(feet, mouth, mouth+table.StandardSideMouth-table.StandardCornerMouth)
	if err != nil {
		panic("rehearsal: " + err.Error())
	}
	return k
}

// faultlessBody starts from the standard setup with hands that do nearly what
// they are told. The cue slopes as it must to clear the rail.
func (d *embodied) faultlessBody() {
	p := &d.body
	p.On = d.room.on(d.kind)
	p.Pull = table.Inches(d.between(-0.03, 0.03))
	p.Raise = drill.Fraction(d.between(-0.03, 0.03))
	p.Rush = table.Mph(d.between(-0.5, 0.5))
	p.Steady = breaksim.Scatter{
		Aim: breaksim.Degrees(d.between(0.1, 0.2)), Speed: 0.4, Tip: breaksim.Fraction(d.between(0.03, 0.06)),
		Place: table.Inches(d.between(0.1, 0.3)), Gap: table.Inches(d.between(0.001, 0.003)),
	}
	p.Own = d.start.Speed
	p.Control, p.Widens = p.Own+1, usualWidening
	p.Slope, p.Lifts, p.Jacks = breaksim.Degrees(d.between(2, 4)), p.Own+4, 3
	p.Habit = drawHabit(d.rng)
	d.best = d.room.best(d.kind)
	d.best.Cue.X = table.Flip(min(table.Flip(d.best.Cue.X), drill.OutermostCue(d.kind)))
	d.best.Speed = d.start.Speed
}

// standsWrong starts five to nine inches too far in. Too far out there is no
// room to stand: the model's best place is near the outermost one.
func (d *embodied) standsWrong() {
	by := d.inches(5, 9)
	d.sort = "too far in"
	d.start.Cue.X = table.Flip(table.Inches(math.Max(0, math.Round(float64(-d.best.Cue.X-by)))))
	d.remedies = []Remedy{{Variable: advice.VaryPlace, Up: true}, {Variable: advice.VaryContact, Instead: true}}
}

// hitsOff meets the head ball a fifth to two fifths of an inch off.
func (d *embodied) hitsOff() {
	pull := d.between(0.2, 0.4) * d.either()
	d.sorted(pull, "towards the break side", "towards the far side")
	d.body.Pull = table.Inches(pull)
	d.remedies = []Remedy{
		{Variable: advice.VaryContact, Up: pull < 0},
		{Variable: advice.VaryPlace, Up: pull > 0, Instead: true},
	}
}

// strikesOff strikes an eighth to a quarter of a radius too low or too high:
// because it was told so, or without knowing it.
func (d *embodied) strikesOff() {
	off := drill.Fraction(d.between(0.12, 0.28) * d.either())
	d.sorted(float64(off), "too low", "too high")
	if d.rng.IntN(2) == 0 {
		d.start.Tip = hundredth(d.best.Tip + off)
		d.parts = append(d.parts, "as told")
	} else {
		d.start.Tip = d.best.Tip
		d.body.Raise = off
		d.parts = append(d.parts, "without knowing")
	}
	d.remedies = []Remedy{{Variable: advice.VaryTip, Up: off < 0}}
}

// wrongPace is either power that lifts the cue, so that balls fly, or a stroke
// so much softer than told that the rack hardly opens. A soft break sends the
// cue ball forward, too, for which more draw is as good.
func (d *embodied) wrongPace() {
	p := &d.body
	if d.rng.IntN(2) == 0 {
		over := table.Mph(d.between(3.5, 5))
		d.start.Speed = table.Mph(20 + d.rng.IntN(3))
		p.Control, p.Lifts, p.Jacks = d.start.Speed-over, d.start.Speed-over+1, 3
		d.best.Speed = p.Control
		d.sort = "too fast"
		d.remedies = []Remedy{{Variable: advice.VarySpeed}}
	} else {
		d.start.Speed = table.Mph(14 + d.rng.IntN(3))
		p.Rush = -table.Mph(d.between(4, 6))
		d.best.Speed = d.start.Speed + table.Mph(d.between(6, 8))
		p.Control, p.Lifts = d.best.Speed+p.Rush+2, d.best.Speed+p.Rush+5
		d.sort = "too soft"
		d.remedies = []Remedy{{Variable: advice.VarySpeed, Up: true}, {Variable: advice.VaryTip, Instead: true}}
	}
	p.Own = d.best.Speed
}

// shaky is told a speed at which the stroke is two to four times as wide as
// where it is controlled.
func (d *embodied) shaky() {
	p := &d.body
	d.start.Speed = table.Mph(19 + d.rng.IntN(3))
	p.Control = d.start.Speed - table.Mph(d.between(4, 5))
	p.Widens = d.between(0.2, 0.3)
	p.Lifts, p.Own = d.start.Speed+3, p.Control
	d.best.Speed = p.Control
	d.remedies = []Remedy{{Variable: advice.VarySpeed}}
}

func hundredth[T ~float64](v T) T { return T(math.Round(float64(v)*100)/100) + 0 }
