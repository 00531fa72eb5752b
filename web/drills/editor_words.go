package drills

import (
	"fmt"

	"breakwright/internal/drill"
	"breakwright/internal/rack"
	"breakwright/internal/say"
	"breakwright/web/component"
)

// drillWords says a drill in a sentence: what is done, and what counts as good.
func drillWords(d drill.Drill, u say.Units) string {
	says := fmt.Sprintf("%s of %s from the %s. %s", breakCountWords(d.Breaks), d.Setup.Game.Words(), d.Setup.Side, component.GoalWords(d))
	if house := component.HouseRuleWords(d.House, u); house != "" {
		says += " " + house
	}
	return says
}

// drillSummary is a drill in a line of a list.
func drillSummary(d drill.Drill) string {
	wing := "not watched"
	if !d.WatchList.CueOnly {
		wing = component.TargetCountWords(d.Targets.Wing, d.Breaks)
	}
	return fmt.Sprintf("%s from the %s, %s, %s-foot table. Wing ball, the %s: %s. Cue ball in the window: %s.",
		say.Capitalize(d.Setup.Game.Words()), d.Setup.Side, breakCountWords(d.Breaks), d.Kind.Size(),
		d.Setup.WingBall(), wing, component.TargetCountWords(d.Targets.Window, d.Breaks))
}

func breakCountWords(n int) string { return say.Count(n, "break", "breaks") }

// listRackNotes are what a coach should know of such a rack.
func listRackNotes(s drill.Setup) []string {
	all := []string{"Rule books ask for the other balls in no purposeful order. A set order is for practice, or for an event that allows it."}
	if s.Game == rack.EightBall {
		all = append(all, "In eight-ball the 8 stays in the middle, and the two rear corners hold one solid and one stripe; the rest is free here so that a break can be learnt.")
	}
	if s.Spot == rack.CentreOnSpot {
		all = append(all, "With the centre ball on the foot spot the rack stands one and three-quarter balls nearer, and the wing ball is no longer natural from near the side rail. A cut break is the usual answer: begin with about three quarters of the head ball, and adjust.")
	}
	return all
}

// saveButtonWords names what the button does.
func saveButtonWords(v *editorView) string {
	switch {
	case v.isNewDrill():
		return "Save the drill"
	case v.Drill.Assigned:
		return "Save as a new version"
	}
	return "Save the change"
}
