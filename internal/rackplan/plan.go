package rackplan

import (
	"fmt"
	"math"
	"slices"

	"breakwright/internal/drill"
	"breakwright/internal/rack"
	"breakwright/internal/table"
)

// Verdict says what becomes of a plan.
type Verdict string

// The verdicts.
const (
	VerdictSwap     Verdict = "swap"      // two balls should change places
	VerdictKeep     Verdict = "none"      // no legal swap is worth a word
	VerdictTooEarly Verdict = "too early" // a swap may help, but that is not known yet
)

// Goal says what a plan is to bring.
type Goal string

// The goals. In eight-ball, where any group may be taken, both are the share of the
// better group's balls that are down or have a shot.
const (
	// GoalPosition is a shot on the lowest ball, and position on the next.
	GoalPosition Goal = "position"
	// GoalShot is a shot on the lowest ball, whatever comes after.
	GoalShot Goal = "shot"
)

// Plan is what is proposed for one student, table and rack.
type Plan struct {
	Student string
	Table   string
	Kind    table.Kind
	Game    rack.Game
	Spot    rack.Spot
	// Order is the rack order that is looked at, usually that of the latest set. Next is the order after
	// the swap, or the same.
	Order, Next rack.Order
	Verdict     Verdict
	Goal        Goal
	// A and B are the slots of the best legal swap, also when it is too early for
	// it; empty when there is none.
	A, B rack.Slot
	// Gain is what the swap is expected to bring, in shots with position per break
	// (for eight-ball in shares of a group); it lies between Low and High four times
	// in five.
	Gain, Low, High float64
	// OwnShare is how much of what is believed about the two slots rests on the
	// student's own breaks, 0 to 1.
	OwnShare float64
	// Breaks counts the own breaks looked at.
	Breaks int
}

// Lines of a plan (our choice).
const (
	// FewestBreaks are looked at before a swap is proposed.
	FewestBreaks = 20
	// LeastOwn is the share of own breaks it rests on at least.
	LeastOwn = 0.15
	// LeastGain is worth a word: one shot in a hundred breaks.
	LeastGain = 0.01
	// shareError and plainError are the standard deviations of a gain for what spreads
	// and cells leave out: a share of the gain, and so much in any case. shotScatter
	// and positionScatter are those, from layout to layout, of the chance of a shot
	// and of position between two cells. upward is how much further a gain may lie
	// above what is expected than below: cells level out how good and how bad the
	// slots are. All were fitted on computed students and hold for others (PLAN.md).
	shareError      = 0.3
	plainError      = 0.01
	shotScatter     = 0.3
	positionScatter = 0.3
	upward          = 2.25
	// eighty percent of a normal distribution lie within so many standard deviations.
	eighty = 1.2816
)

// Propose is ProposeFor a shot with position.
func Propose(sets []drill.Set) (Plan, error) { return ProposeFor(sets, GoalPosition) }

// ProposeFor makes the plan for a student's sets, oldest first, for the rack and table of
// the latest set with breaks. It refuses sets without any break, and a rack that no
// breaks were computed for.
func ProposeFor(sets []drill.Set, goal Goal) (Plan, error) {
	for _, now := range slices.Backward(sets) {
		if len(now.Breaks) > 0 {
			return ProposeFrom(now, sets, goal)
		}
	}
	return Plan{}, fmt.Errorf("a rack plan needs breaks")
}

// ProposeFrom makes the plan for the rack and table of one set, whose own breaks are not
// looked at, from all of a student's sets with that game, spot, table, side and kind. It
// refuses a rack that no breaks were computed for.
func ProposeFrom(now drill.Set, sets []drill.Set, goal Goal) (Plan, error) {
	var same []drill.Set
	for _, s := range sets {
		if s.Table == now.Table && s.Kind == now.Kind && s.Setup.Game == now.Setup.Game &&
			s.Setup.Spot == now.Setup.Spot && s.Setup.Side == now.Setup.Side {
			same = append(same, s)
		}
	}
	size, base, err := computed().find(now.Kind.Feet, now.Setup.Game, now.Setup.Spot)
	if err != nil {
		return Plan{}, fmt.Errorf("rack plan: %w", err)
	}
	p := Plan{Student: now.Student, Table: now.Table, Kind: now.Kind, Game: now.Setup.Game, Spot: now.Setup.Spot, Goal: goal}
	if goal == GoalShot {
		size = size.anyPosition()
	}
	p.chooseSwap(size, base, same, now.Setup.ForSide(table.Left).Order)
	if now.Setup.Side == table.Right {
		return p.mirror(), nil
	}
	return p, nil
}

// chooseSwap finds the best legal swap for a rack broken from the left.
func (p *Plan) chooseSwap(size ComputedSize, base ComputedRack, sets []drill.Set, order rack.Order) {
	own := tallySets(p.Game, sets)
	m := modelFor(p.Game, &size, base, own, p.Goal)
	p.Order, p.Next, p.Breaks, p.Verdict = order, order, own.breaks, VerdictKeep
	better, a, b := m.bestSwap(order)
	if a < 0 {
		return
	}
	gain := m.expectGain(order, better)
	if gain.mean >= LeastGain {
		if played, ok := playOwnLeaves(sets, order, better, p.Goal); ok {
			gain = gain.joinedWith(played)
		}
	}
	names := p.Game.Slots()
	p.A, p.B = names[a], names[b]
	p.Gain, p.Low, p.High = gain.mean, gain.mean-eighty*gain.sd, gain.mean+upward*eighty*gain.sd
	p.OwnShare = (m.slots[a].own + m.slots[b].own) / 2
	few := own.breaks < FewestBreaks || p.OwnShare < LeastOwn
	switch {
	case p.Gain >= LeastGain && p.Low > 0 && !few:
		p.Verdict, p.Next = VerdictSwap, better
	case p.Gain >= LeastGain || few && p.High >= LeastGain:
		p.Verdict = VerdictTooEarly
	}
}

// expectGain is the gain of one order over another with all that it may be off.
func (m *model) expectGain(from, to rack.Order) gainEstimate {
	gain, sd := m.estimateGain(from, to)
	sd = math.Hypot(sd, m.layoutError(from, to))
	return gainEstimate{gain, math.Hypot(math.Hypot(sd, shareError*gain), plainError)}
}

// bestSwap returns the legal order one swap away that is worth most more than this
// one, and the two slots' indices; -1 when none is worth more.
func (m *model) bestSwap(order rack.Order) (best rack.Order, a, b int) {
	best, a, b = order, -1, -1
	most := m.leaveValue(order)
	slots := m.game.Slots()
	for i := range slots {
		for j := range i {
			swapped, err := order.SwapSlots(m.game, slots[j], slots[i])
			if err != nil {
				continue
			}
			if w := m.leaveValue(swapped); w > most+1e-12 {
				best, a, b, most = swapped, j, i, w
			}
		}
	}
	return best, a, b
}

func (p Plan) mirror() Plan {
	p.Order, p.Next = p.Order.Mirror(p.Game), p.Next.Mirror(p.Game)
	p.A, p.B = p.A.Mirror(), p.B.Mirror()
	return p
}
