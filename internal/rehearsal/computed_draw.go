package rehearsal

import (
	"fmt"
	"math"
	"math/rand/v2"

	"breakwright/internal/advice"
	"breakwright/internal/breaksim"
	"breakwright/internal/drill"
	"breakwright/internal/response"
	"breakwright/internal/table"
)

// computedDraft is a student of computed breaks being made, as one who breaks from
// the left. All ranges are assumptions: common practice, no source.
type computedDraft struct {
	draws
	world    *world
	body     Physics
	start    drill.Setup
	remedies []Remedy
	trait    string // "" for none
}

// DrawComputedStudent makes a student of one fault who breaks racks of a kind, on any of
// the tables.
func DrawComputedStudent(r response.Rack, f Fault, rng *rand.Rand) Student {
	return drawStudentAt(r, f, rng, rng.IntN(Tables))
}

// drawStudentAt makes one at a table.
func drawStudentAt(r response.Rack, f Fault, rng *rand.Rand, index int) Student {
	d := computedDraft{draws: draws{rng}, world: sharedWorlds.find(r, index)}
	d.start = d.world.best
	d.setFaultlessHands()
	switch f {
	case Place:
		d.standWrong()
	case Contact:
		d.hitOffLine()
	case Tip:
		d.strikeWrong()
	case Speed:
		d.strokeTooSoftOrFast()
	case SideSpin:
		d.putSideOn()
	case Steadiness:
		d.loseControl()
	case LooseRack:
		d.rackLoosely()
	}
	return d.buildStudent(f)
}

// setFaultlessHands starts from the best setup with hands that do nearly what they
// are told. The cue slopes as it must to clear the rail.
func (d *computedDraft) setFaultlessHands() {
	p := &d.body
	p.Table = d.world.table
	p.Pull = table.Inches(d.drawBetween(-0.03, 0.03))
	p.Raise = drill.RadiusFraction(d.drawBetween(-0.03, 0.03))
	p.Rush = table.Mph(d.drawBetween(-0.5, 0.5))
	p.Scatter = breaksim.StrokeScatter{
		Aim: breaksim.Degrees(d.drawBetween(0.12, 0.25)), Speed: 0.5, Tip: breaksim.RadiusFraction(d.drawBetween(0.03, 0.06)),
		Place: 0.2, Gap: table.Inches(d.drawBetween(0.001, 0.004)),
	}
	p.OwnSpeed = d.start.Speed
	p.ControlSpeed, p.Widening = p.OwnSpeed+1, usualWidening
	p.Slope, p.LiftSpeed, p.SlopePerMph = breaksim.Degrees(d.drawBetween(2, 4)), p.OwnSpeed+4, 3
	d.drawTraits()
}

// The traits that a student may have beside the fault.
const (
	makesOnly   = "makes only"
	speedUntold = "speed not told"
	followsHalf = "follows half"
	badDays     = "good and bad days"
)

// drawTraits gives half of the students one thing that makes advising harder.
func (d *computedDraft) drawTraits() {
	d.body.Habit = drawHabit(d.rng)
	switch d.rng.IntN(8) {
	case 0:
		d.body.Habit = Habit{}
		d.trait = makesOnly
	case 1:
		d.start.Speed = 0
		d.trait = speedUntold
	case 2:
		d.trait = followsHalf
	case 3:
		d.trait = badDays
	}
}

// standWrong starts six to twelve inches too far in or too far out.
func (d *computedDraft) standWrong() {
	out := float64(table.FlipSign(d.start.Cue.X))
	by, outermost := d.drawBetween(6, 12), float64(drill.OutermostCue(d.world.kind))
	if d.rng.IntN(2) == 0 && out+by <= outermost {
		out += by
		d.remedies = []Remedy{{Variable: advice.VaryPlace}}
	} else {
		out = max(0, out-by)
		d.remedies = []Remedy{{Variable: advice.VaryPlace, Up: true}}
	}
	d.start.Cue.X = table.Inches(-math.Round(out))
}

// hitOffLine meets the head ball a fifth of an inch to nearly half of one off.
func (d *computedDraft) hitOffLine() {
	pull := d.drawBetween(0.2, 0.45) * d.drawSign()
	d.body.Pull = table.Inches(pull)
	d.remedies = []Remedy{{Variable: advice.VaryContact, Up: pull < 0}}
}

// strikeWrong strikes too low or too high, because it was told so or without
// knowing it.
func (d *computedDraft) strikeWrong() {
	by := d.drawBetween(0.15, 0.35) * d.drawSign()
	if d.rng.IntN(2) == 0 {
		d.start.Tip = max(drill.RadiusFraction(math.Round(10*(float64(d.start.Tip)+by))/10), -drill.MaxTip)
	} else {
		d.body.Raise = drill.RadiusFraction(by)
	}
	d.remedies = []Remedy{{Variable: advice.VaryTip, Up: by < 0}}
}

// strokeTooSoftOrFast is power that lifts the cue and loosens the stroke, or a
// stroke much softer than told.
func (d *computedDraft) strokeTooSoftOrFast() {
	p := &d.body
	if d.rng.IntN(2) == 0 {
		instructed := table.Mph(20 + d.rng.IntN(3))
		if d.start.Speed != 0 {
			d.start.Speed = instructed
		}
		p.OwnSpeed, p.LiftSpeed, p.ControlSpeed = instructed, instructed-2, instructed-4
		d.remedies = []Remedy{{Variable: advice.VarySpeed}}
		return
	}
	if d.start.Speed != 0 {
		d.start.Speed = 15
	}
	p.Rush, p.OwnSpeed, p.LiftSpeed = table.Mph(-d.drawBetween(6, 8)), 15, 20
	d.remedies = []Remedy{{Variable: advice.VarySpeed, Up: true}}
}

// putSideOn strikes beside the middle without knowing it.
func (d *computedDraft) putSideOn() {
	d.body.Twist = drill.RadiusFraction(d.drawBetween(0.15, 0.3) * d.drawSign())
	d.remedies = []Remedy{{Variable: advice.VarySpin, Up: d.body.Twist < 0}}
}

// loseControl is told a speed at which the stroke is two to four times as wide as
// where it is controlled.
func (d *computedDraft) loseControl() {
	p := &d.body
	instructed := table.Mph(19 + d.rng.IntN(3))
	if d.start.Speed != 0 {
		d.start.Speed = instructed
	}
	p.OwnSpeed, p.ControlSpeed = instructed, instructed-table.Mph(d.drawBetween(4, 5))
	p.Widening, p.LiftSpeed = d.drawBetween(0.2, 0.3), instructed+3
	d.remedies = []Remedy{{Variable: advice.VarySpeed}}
}

// rackLoosely leaves gaps between the balls, until the rack is checked.
func (d *computedDraft) rackLoosely() {
	d.body.Scatter.Gap = table.Inches(d.drawBetween(0.009, 0.025))
	d.remedies = []Remedy{{Variable: checkOfRack}}
}

// checkOfRack stands for the advice to look at the rack before anything is changed.
const checkOfRack advice.Variable = "check the rack"

func (d *computedDraft) buildStudent(f Fault) Student {
	side, k := d.drawSide(), d.world.kind
	s := Student{
		Name: fmt.Sprintf("Student %04d", d.rng.IntN(10000)), Breaker: d.body, Kind: k,
		Start: d.start.ForSide(side), Window: k.StandardWindow(), Targets: drill.StandardTargets(k),
		Fault: f, Remedies: d.remedies, byWorth: true,
		followsHalf: d.trait == followsHalf, hasMoods: d.trait == badDays,
	}
	if d.trait != "" {
		s.reportParts = []string{d.trait}
	}
	switch f {
	case LooseRack:
		checked := d.body
		checked.Scatter.Gap = 0.002
		s.rackChecked = checked
	case NoEffect:
		s.Breaker = unmoved{d.body, s.Start}
	}
	return s
}

// unmoved is a student whose breaks no change affects: whatever is told, they break
// as at first.
type unmoved struct {
	Breaker
	start drill.Setup
}

// Break breaks one rack under the first setup, whatever is told.
func (u unmoved) Break(s drill.Setup, rng *rand.Rand) drill.Break {
	return u.Breaker.Break(u.start.ForSide(s.Side), rng)
}
