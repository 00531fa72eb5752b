package report

import (
	"slices"

	"breakwright/internal/say"
	"breakwright/web/picture"
)

// timelineLine is one line of the way so far: a stint, or a change that came of one.
type timelineLine struct {
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

// buildTimeline puts the story's steps into lines, the oldest first. What is new in a
// stint is not said again below the change that asked for it; another table is
// among what is new, so that the first line alone names one.
func (v *studentReportView) buildTimeline() []timelineLine {
	var lines []timelineLine
	var asked []string
	for _, s := range slices.Backward(v.Story.Steps) {
		if c := s.Change; c != nil {
			asked = c.Asked
			lines = append(lines, timelineLine{
				Change: true, When: c.When, Words: c.Changes, State: say.Capitalize(c.State), Effect: c.Effect,
				Reason: c.Reason, Note: c.Note,
			})
			continue
		}
		x := s.Stint
		line := timelineLine{When: x.When, Words: x.New, Wing: x.Wing, Says: x.Says}
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
