package rackplan

import (
	"math"
	"slices"

	"breakwright/internal/drill"
	"breakwright/internal/leave"
	"breakwright/internal/rack"
	"breakwright/internal/table"
)

// gainEstimate is a gain with its standard deviation.
type gainEstimate struct{ mean, sd float64 }

// joinedWith weighs two estimates of the same by how well each is known. They rest on
// the same breaks, so that together they are known no better than the better one.
func (e gainEstimate) joinedWith(o gainEstimate) gainEstimate {
	a, b := 1/(e.sd*e.sd), 1/(o.sd*o.sd)
	return gainEstimate{(a*e.mean + b*o.mean) / (a + b), min(e.sd, o.sd)}
}

// Own leaves are looked at again with the balls changed: the latest, up to
// mostLeaves; fewer than FewestBreaks that are known both ways say nothing.
const mostLeaves = 60

// playOwnLeaves looks at a student's own leaves, as if broken from the left, as they
// would have been with one order and with another, where the balls that matter were
// placed. ok is false when that is too seldom, and in eight-ball.
func playOwnLeaves(sets []drill.Set, from, to rack.Order, goal Goal) (gain gainEstimate, ok bool) {
	n, sum, squares := 0, 0.0, 0.0
	for _, set := range slices.Backward(sets) {
		if set.Setup.Game == rack.EightBall {
			return gainEstimate{}, false
		}
		if set.Setup.Side == table.Right {
			set = set.Mirror()
		}
		for _, b := range slices.Backward(set.Breaks) {
			was, known := orderWorth(b, set, from, goal)
			if !known || n >= mostLeaves {
				continue
			}
			if is, known := orderWorth(b, set, to, goal); known {
				n, sum, squares = n+1, sum+is-was, squares+(is-was)*(is-was)
			}
		}
	}
	if n < FewestBreaks {
		return gainEstimate{}, false
	}
	mean := sum / float64(n)
	// One break more that went as far the other way keeps luck from looking certain.
	variance := (squares - sum*mean + mean*mean) / float64(n-1)
	return gainEstimate{mean, math.Hypot(math.Sqrt(variance/float64(n)), plainError)}, true
}

// orderWorth returns what a break was worth if the balls had stood in an order; known
// says that the balls it hangs on were placed.
func orderWorth(b drill.Break, set drill.Set, order rack.Order, goal Goal) (worth float64, known bool) {
	setup := set.Setup
	setup.Order = order
	v, known := leave.EstimateValue(leave.FromBreak(renumber(b, set.Setup.Order, order), setup, set.Kind), leave.PlayerAt(leave.Club))
	if goal == GoalShot {
		return v.Shot, known
	}
	return v.Total(), known && (v.Shot == 0 || v.NextKnown)
}

// renumber writes a break down as it would have been with the balls in another order.
func renumber(b drill.Break, from, to rack.Order) drill.Break {
	var number [16]rack.Ball
	for i, ball := range from.Balls() {
		number[ball] = to.Balls()[i]
	}
	n := drill.Break{Number: b.Number, Cue: b.Cue}
	for _, p := range b.Pocketed {
		n.Pocketed = append(n.Pocketed, drill.Pocketed{Ball: number[p.Ball], Pocket: p.Pocket})
	}
	for _, ball := range b.Off {
		n.Off = append(n.Off, number[ball])
	}
	for _, r := range b.Rest {
		n.Rest = append(n.Rest, drill.RestingBall{Ball: number[r.Ball], Place: r.Place})
	}
	return n
}
