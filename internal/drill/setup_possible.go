package drill

import (
	"fmt"

	"breakwright/internal/table"
)

// CheckPossible says what in the setup cannot have been broken with at all on this
// kind of table. It is what a record of the past is held to, where Check holds
// what is asked of a student to the narrower limits that are taught.
func (s Setup) CheckPossible(k table.Kind) error {
	var p Problems
	s.checkRack(&p)
	if !k.OnCloth(s.Cue) || s.Cue.Y > k.HeadString() {
		p.Add("cue_y", fmt.Sprintf("the cue ball is placed on or behind the head string, between the rails: x within %s, y from 0 to %s",
			k.Width()/2, k.HeadString()))
	}
	if !withinLimit(s.Contact, table.BallDiameter) {
		p.Add("contact", "a cue ball sent more than a ball's width from full misses the head ball")
	}
	if !withinLimit(s.Tip, 1) {
		p.Add("tip", "the tip height is a fraction of the ball's radius, from -1 to 1")
	}
	if !withinLimit(s.Spin, 1) {
		p.Add("spin", "the side spin is a fraction of the ball's radius, from -1 to 1")
	}
	if s.Speed != 0 && !(s.Speed > 0 && s.Speed <= FastestMeasured) {
		p.Add("speed", fmt.Sprintf("a speed of %s mph is not believed", s.Speed))
	}
	return p.Err()
}
