package advice

import (
	"fmt"
	"math"
	"math/rand/v2"

	"breakwright/internal/drill"
	"breakwright/internal/rack"
	"breakwright/internal/table"
)

// virtualStudent is a virtual student whose breaks follow one of two simple laws that
// have nothing in common but the trade's directions. They are here to see that
// the rules hold for students in general, not to be fitted.
type virtualStudent struct {
	// start is the setup the student begins with; bias is what the body adds
	// to what it is told.
	start         drill.Setup
	contactBias   float64
	tipBias       float64
	best          float64 // place out, in
	peak          float64 // wing rate at best
	steady        float64 // 1 is ordinary, 2 is twice the scatter
	lean          float64 // share of balanced misses that look long
	curved        bool    // which law
	seen          float64 // share of misses written down
	want          Variable
	sign          float64
	measuredSpeed bool
	harsh         bool // more that looks like a pattern and is none
}

func (y virtualStudent) wingOffset(s drill.Setup) float64 {
	return float64(distanceOut(s)) - y.best - placePerContact*(float64(s.Contact)+y.contactBias)
}

func (y virtualStudent) wingScatter(s drill.Setup) float64 {
	fast := math.Max(0, float64(s.Speed)-19)
	return y.steady * (1 + 0.15*fast)
}

// reachSum returns the true chances of wing ball and window under a setup, added, by
// playing many breaks.
func (y virtualStudent) reachSum(s drill.Setup) float64 {
	rng := rand.New(rand.NewPCG(1, 2))
	const n = 1000
	good := 0.0
	for range n {
		b := y.playBreak(rng, s)
		if b.WingMade(s) {
			good++
		}
		if b.InWindow(table.NineFoot().StandardWindow()) {
			good++
		}
	}
	return good / n
}

func (y virtualStudent) playBreak(rng *rand.Rand, s drill.Setup) drill.Break {
	var b drill.Break
	d, sc := y.wingOffset(s), y.wingScatter(s)
	made, long := y.playWingBall(rng, d, sc)
	if made {
		b.Pocketed = append(b.Pocketed, drill.Pocketed{Ball: s.WingBall(), Pocket: table.FootLeft})
	} else if rng.Float64() < y.seen {
		b.WingMiss = drill.MissSideRail
		switch {
		case long && rng.Float64() < 0.7:
			b.WingMiss = drill.MissFootRail
		case long:
			b.WingMiss = drill.MissKissed
		case rng.Float64() < 0.2 || y.harsh && rng.Float64() < 0.3:
			b.WingMiss = drill.MissJaws
		}
		if rng.Float64() < 0.08 || y.harsh && rng.Float64() < 0.15 {
			b.WingMiss = drill.MissKissed
		}
	} else {
		b.WingMiss = drill.MissUnknown
	}
	y.playCueBall(rng, s, &b, sc)
	if y.measuredSpeed {
		b.Speed = table.Mph(math.Round((float64(s.Speed)+rng.NormFloat64()*0.7)*10) / 10)
	}
	if rng.Float64() < 0.6 {
		b.Pocketed = append(b.Pocketed, drill.Pocketed{Ball: s.HeadBall(), Pocket: table.SideRight})
	}
	b.Rails = drill.ObservedCount(3 + rng.IntN(5))
	if fast := float64(s.Speed) - 20; rng.Float64() < 0.004+0.05*math.Max(0, fast) {
		b.Off = []rack.Ball{5}
	}
	return b
}

func (y virtualStudent) playWingBall(rng *rand.Rand, d, sc float64) (made, long bool) {
	if y.curved {
		w := 4 * math.Sqrt(sc)
		p := y.peak / sc * math.Exp(-d*d/2/w/w)
		pLong := 1 / (1 + math.Exp(-d/(2*sc))*(1-y.lean)/y.lean)
		return rng.Float64() < p, rng.Float64() < pLong
	}
	e := d + rng.NormFloat64()*4*sc + 6*(y.lean-0.5)
	// tolerance such that the best rate is about peak
	tol := 4 * math.Sqrt2 * math.Erfinv(y.peak)
	return math.Abs(e-6*(y.lean-0.5)) < tol, e > 0
}

func (y virtualStudent) playCueBall(rng *rand.Rand, s drill.Setup, b *drill.Break, sc float64) {
	contact := float64(s.Contact) + y.contactBias
	draw := (float64(s.Tip)+y.tipBias+0.1)/0.1 + rng.NormFloat64()*1.1*sc // tenths above ordinary
	push := float64(s.Speed) / 18
	if y.harsh {
		draw += rng.NormFloat64() * 1.1
	}
	x := -3 + 38*contact + rng.NormFloat64()*9*sc
	b.Cue.How = drill.Stopped
	var at float64
	switch {
	case draw > 1.5:
		at = 62 + 8*(draw-1.5) + rng.NormFloat64()*8
		b.CuePath = drill.PathForward
		if rng.Float64() < 0.12 {
			b.Cue = drill.CueEnd{How: drill.Scratched, Scratch: table.FootCorner(table.SideOf(table.Inches(x)))}
		}
	case draw < -1.5:
		b.CuePath = drill.PathHeadRail
		at = (30 - 14*(-draw-1.5)) * (2 - push)
		if at < 0 { // came off the head rail again
			at = -at
		}
		if rng.Float64() < 0.12 {
			b.Cue = drill.CueEnd{How: drill.Scratched, Scratch: table.HeadCorner(table.SideOf(table.Inches(x)))}
		}
	default:
		at = 40 + 7*draw + rng.NormFloat64()*5
		b.CuePath = drill.PathBack
	}
	if math.Abs(contact) > 0.12 && rng.Float64() < 0.02+0.6*(math.Abs(contact)-0.12) || rng.Float64() < 0.02 || y.harsh && rng.Float64() < 0.03 {
		b.Cue = drill.CueEnd{How: drill.Scratched, Scratch: table.SidePocket(table.SideOf(table.Inches(contact)))}
	}
	if b.Cue.How == drill.Stopped {
		b.Cue.Place = table.NineFoot().SettleBall(table.Place{X: table.Inches(x), Y: table.Inches(at)})
	}
}

func virtualSet(y virtualStudent, rng *rand.Rand, i int, s drill.Setup) drill.Set {
	set := drill.Set{Student: "Toy", Name: fmt.Sprint("s", i), Table: "North", Kind: table.NineFoot(), Setup: s}
	for j := range 10 {
		b := y.playBreak(rng, s)
		b.Number = j + 1
		set.Breaks = append(set.Breaks, b)
	}
	if y.measuredSpeed {
		sum := table.Mph(0)
		for _, b := range set.Breaks {
			sum += b.Speed
		}
		set.Setup.Speed = table.Mph(math.Round(float64(sum)) / 10)
	}
	return set
}

func standardStudent() virtualStudent {
	return virtualStudent{start: drill.StandardSetup(rack.NineBall, table.Left, table.NineFoot()), best: 18, peak: 0.5, steady: 1, lean: 0.5, seen: 0.95}
}

// drawStudent draws a toy with numbers of its own and no fault.
func drawStudent(rng *rand.Rand) virtualStudent {
	y := standardStudent()
	y.peak = 0.4 + 0.2*rng.Float64()
	y.lean = 0.42 + 0.16*rng.Float64()
	y.curved = rng.IntN(2) == 0
	y.measuredSpeed = rng.IntN(2) == 0
	y.seen = pickRandom(rng, 0.95, 0.7)
	return y
}

// drawChanged makes a class of toys of a change to the faultless one.
func drawChanged(change func(*virtualStudent, *rand.Rand)) func(*rand.Rand) virtualStudent {
	return func(rng *rand.Rand) virtualStudent {
		y := drawStudent(rng)
		change(&y, rng)
		return y
	}
}

func faultlessStudents() map[string]func(*rand.Rand) virtualStudent {
	return map[string]func(*rand.Rand) virtualStudent{
		"ordinary":      drawStudent,
		"weak wing":     drawChanged(func(y *virtualStudent, _ *rand.Rand) { y.peak = 0.35 }),
		"misses unseen": drawChanged(func(y *virtualStudent, _ *rand.Rand) { y.peak, y.seen = 0.4, 0 }),
		"much luck":     drawChanged(func(y *virtualStudent, _ *rand.Rand) { y.harsh = true }),
	}
}

// faultClass is a class of toys and what is asked of the adviser.
type faultClass struct {
	draw func(*rand.Rand) virtualStudent
	// right is the least share of right first changes in six sets.
	right float64
	// mends says that the toy can get well.
	mends bool
}

// wantChange notes the right first change.
func (y *virtualStudent) wantChange(v Variable, sign float64) { y.want, y.sign = v, sign }

func faultyStudents() map[string]faultClass {
	return map[string]faultClass{
		"too far in": {drawChanged(func(y *virtualStudent, rng *rand.Rand) {
			y.start.Cue.X += pickRandom[table.Inches](rng, 5, 8)
			y.wantChange(VaryPlace, 1)
		}), 0.9, true},
		"best further out": {drawChanged(func(y *virtualStudent, _ *rand.Rand) {
			y.start.Cue.X, y.best = -14, 20
			y.wantChange(VaryPlace, 1)
		}), 0.9, true},
		"too far out": {drawChanged(func(y *virtualStudent, _ *rand.Rand) {
			y.start.Cue.X, y.best = -20, 13
			y.wantChange(VaryPlace, -1)
		}), 0.9, true},
		"too far out, unseen": {drawChanged(func(y *virtualStudent, _ *rand.Rand) {
			y.start.Cue.X, y.best, y.seen = -20, 13, 0
			y.wantChange(VaryPlace, -1)
		}), 0.8, true},
		"too far in, much luck": {drawChanged(func(y *virtualStudent, _ *rand.Rand) {
			y.start.Cue.X, y.harsh = -12, true
			y.wantChange(VaryPlace, 1)
		}), 0.7, true},
		"contact told right": {drawChanged(func(y *virtualStudent, _ *rand.Rand) { y.start.Contact = 0.3; y.wantChange(VaryContact, -1) }), 0.9, true},
		"contact told left":  {drawChanged(func(y *virtualStudent, _ *rand.Rand) { y.start.Contact = -0.3; y.wantChange(VaryContact, 1) }), 0.9, true},
		// Hidden in the body a contact fault looks much like a place fault, and
		// the place mends the wing ball as well.
		"contact in the body, right": {drawChanged(func(y *virtualStudent, _ *rand.Rand) { y.contactBias = 0.3; y.wantChange(VaryContact, -1) }), 0.6, true},
		"contact in the body, left":  {drawChanged(func(y *virtualStudent, _ *rand.Rand) { y.contactBias = -0.3; y.wantChange(VaryContact, 1) }), 0.6, true},
		"tip too high":               {drawChanged(func(y *virtualStudent, _ *rand.Rand) { y.start.Tip = 0.2; y.wantChange(VaryTip, -1) }), 0.95, true},
		"tip high in the body":       {drawChanged(func(y *virtualStudent, _ *rand.Rand) { y.tipBias = 0.25; y.wantChange(VaryTip, -1) }), 0.95, true},
		"tip too low":                {drawChanged(func(y *virtualStudent, _ *rand.Rand) { y.start.Tip = -0.4; y.wantChange(VaryTip, 1) }), 0.95, true},
		"too fast":                   {drawChanged(func(y *virtualStudent, _ *rand.Rand) { y.start.Speed = 23; y.wantChange(VarySpeed, -1) }), 0.9, true},
		"unsteady":                   {drawChanged(func(y *virtualStudent, _ *rand.Rand) { y.steady = 2; y.wantChange(VarySpeed, -1) }), 0.55, false}, // at an ordinary speed it takes more to suspect it
	}
}
