package belief

import (
	"breakwright/internal/drill"
	"breakwright/internal/response"
	"breakwright/internal/table"
)

// NewObserver believes as somebody would who knows that the model is right and that every
// cause is as common as any other: no fact is tempered, every break counts in full, and no
// table departs. It is a yardstick: what it cannot tell apart nobody can, by these facts.
func NewObserver(r response.Rack) (s *Student, known bool) {
	s, known = NewStudent(r, drill.TablesPlay{})
	if known {
		s.isObserver, s.tables = true, []tableEvidence{newTableEvidence(anyTable, 1)}
	}
	return s, known
}

// HandsOf returns the hands that stand for a cause.
func HandsOf(c Cause) []Hand {
	var hands []Hand
	for i := range cloud {
		if cloud[i].Cause == c {
			hands = append(hands, cloud[i].Hand)
		}
	}
	return hands
}

// Stroke returns what a hand makes of a setup, in the frame of a break from the left.
func (h Hand) Stroke(s drill.Setup, k table.Kind) response.Stroke {
	return instructedSteps(s, k).with(h.steps(), k).stroke()
}
