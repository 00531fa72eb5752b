package drill

import (
	"fmt"

	"breakwright/internal/table"
)

// HouseRules are what a room or an event asks of a break beyond the rule book.
// The zero HouseRules ask nothing.
type HouseRules struct {
	// ThreePoints asks for the three-point break, see Break.ThreePoints.
	ThreePoints bool
	// BreakBox is how far from the long string the cue ball may be placed: 8 in at
	// most events that have a box, 9 at some (hand tallies of events, 2021-2026). 0
	// means no box.
	BreakBox table.Inches
}

// PointsAsked is how many object balls must be pocketed or reach the head string
// on a three-point break, any mix of both, beside what makes a break legal
// (European Pocket Billiard Federation, Euro Tour regulations 1.17).
const PointsAsked = 3

// Points judges a break by the three-point rule.
type Points struct {
	// Least and Most bound the points: a ball that crossed the head string and then
	// dropped counts once, and whether one did was not written down.
	Least, Most int
	// Met and Known: whether there were points enough, and whether that is known. It
	// is not when the balls past the string were not counted and those pocketed do
	// not suffice.
	Met, Known bool
}

// ThreePoints judges the break by the rule. Balls past the head string are those
// that crossed or touched it; some events ask that they pass it, and some waive
// the rule when two balls drop (hand tallies of events, 2016 and 2021): the coach
// counts as the event does. Money balls count like others.
func (b Break) ThreePoints() Points {
	pocketed := len(b.Pocketed)
	if b.PastString == nil {
		return Points{Least: pocketed, Most: pocketed, Met: pocketed >= PointsAsked, Known: pocketed >= PointsAsked}
	}
	past := *b.PastString
	p := Points{Least: max(pocketed, past), Most: pocketed + past}
	p.Met = p.Least >= PointsAsked
	p.Known = p.Met || p.Most < PointsAsked && b.IsWatched()
	return p
}

// InBox reports whether the cue ball's place keeps to a break box of that many
// inches to each side of the long string, edges included; 0 is no box. The box
// lies behind the head string, as every place of a setup does.
func (s Setup) InBox(box table.Inches) bool {
	return box == 0 || s.Cue.X >= -box && s.Cue.X <= box
}

// KeepInBox moves the cue ball's place into the box by the shortest way.
func (s Setup) KeepInBox(box table.Inches) Setup {
	if box > 0 {
		s.Cue.X = min(max(s.Cue.X, -box), box)
	}
	return s
}

// CheckBox says what is wrong with a box.
func (r HouseRules) CheckBox(k table.Kind) error {
	var p Problems
	if edge := OutermostCue(k); r.BreakBox != 0 && !(r.BreakBox >= table.BallDiameter && r.BreakBox <= edge) {
		p.Add("break_box", fmt.Sprintf("a break box reaches from %s to %s inches to each side of the long string; 8 is usual", table.BallDiameter, edge))
	}
	return p.Err()
}

// Broken lists, in words, which house rules a break under a setup did not keep;
// what is not known is not listed.
func (r HouseRules) Broken(s Setup, b Break) []string {
	var broken []string
	if !s.InBox(r.BreakBox) {
		broken = append(broken, fmt.Sprintf("broken from %s inches off the long string, outside the box of %s", max(s.Cue.X, table.FlipSign(s.Cue.X)), r.BreakBox))
	}
	if p := b.ThreePoints(); r.ThreePoints && p.Known && !p.Met {
		broken = append(broken, fmt.Sprintf("%d of the three points: balls pocketed or past the head string", p.Most))
	}
	return broken
}
