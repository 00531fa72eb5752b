package report

import (
	"slices"

	"breakwright/web/component"
	"breakwright/web/picture"
)

// wayLine is one line of the way so far: a stint, or a change that came of one.
type wayLine struct {
	When, Where string
	// Words are what was new in a stint, or what a change asked for.
	Words []string
	// Wing is the count of a stint, Says the rest of its counts.
	Wing picture.RateView
	Says string
	// Change says that the line is a change, with its reason, what became of it
	// and its counts before and after.
	Change                      bool
	Reason, State, Effect, Note string
}

// way puts the story's steps into lines, the oldest first. What is new in a
// stint is not said again below the change that asked for it; another table is
// among what is new, so that the first line alone names one.
func (v *studentView) way() []wayLine {
	var lines []wayLine
	var asked []string
	for _, s := range slices.Backward(v.Story.Steps) {
		if c := s.Change; c != nil {
			asked = v.To.sentences(c.Changes...)
			lines = append(lines, wayLine{
				Change: true, When: c.When, Words: asked, State: component.Capitalize(c.State), Effect: c.Effect,
				Reason: v.To.said(c.Reason), Note: c.Note,
			})
			continue
		}
		x := s.Stint
		line := wayLine{When: x.When, Words: v.To.sentences(x.New...), Wing: x.Wing, Says: x.Says}
		line.Wing.Label = "Wing ball"
		if len(lines) == 0 {
			line.Where = x.Table
		}
		if slices.Equal(line.Words, asked) {
			line.Words = nil
		}
		lines, asked = append(lines, line), nil
	}
	return lines
}
