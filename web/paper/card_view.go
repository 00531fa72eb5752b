package paper

import (
	"fmt"
	"math"

	"breakwright/internal/drill"
	"breakwright/internal/leave"
	"breakwright/internal/rackplan"
	"breakwright/internal/say"
	"breakwright/internal/store"
	"breakwright/internal/table"
	"breakwright/web/component"
	"breakwright/web/picture"
)

// pocketCard is one card.
type pocketCard struct {
	ID, Name, Club, Table, Date string
	store.BreakCard
	// Window, Watch and House are those of the set that the card rests on.
	Window table.Window
	Watch  string
	House  drill.HouseRules
	// Plan is the rack plan for the card's order, in a line; "" where there is none.
	Plan string
	// Leave is the best leave under the setup; nil where none was placed.
	Leave *picture.LeaveView
}

func (c pocketCard) tablePicture() picture.TableView {
	view := picture.SetupTable(c.ID, c.Setup, c.BreakCard.Table.Kind)
	view.Title, view.Distances, view.Window, view.Box = "Break for "+c.Table, false, &c.Window, c.House.BreakBox
	return view
}

// setupLines are the parts a student needs at the table; the rest is in the picture.
func (c pocketCard) setupLines(u say.Units) []component.SetupPart {
	var lines []component.SetupPart
	for _, part := range component.ListSetupParts(c.Setup, c.BreakCard.Table.Kind, u) {
		switch part.Name {
		case "Cue ball", "Contact", "Tip", "Speed", "Order", "Wing ball":
			lines = append(lines, part)
		}
	}
	return append(lines, component.SetupPart{Name: "Window", Words: windowWords(c.Window, u)})
}

// windowWords places a cue-ball window: "25 to 50 in from the head rail, 12.5 in left
// to 12.5 in right".
func windowWords(w table.Window, u say.Units) string {
	across := func(x table.Inches) string {
		if x == 0 {
			return "the long string"
		}
		return u.WithShort(say.Place, math.Abs(float64(x))) + " " + string(table.SideOf(x))
	}
	return fmt.Sprintf("%s to %s from the head rail, %s to %s", u.Number(say.Place, float64(w.Head)), u.WithShort(say.Place, float64(w.Foot)), across(w.Left), across(w.Right))
}

// fill adds what the student's history says about the card's setup.
func (c *pocketCard) fill(set store.Set, history []drill.Set) {
	c.Window, c.Watch, c.House = set.Window, set.Drill.Watch, set.House
	now := drill.Set{Table: c.Table, Kind: c.BreakCard.Table.Kind, Setup: c.Setup}
	if plan, err := rackplan.ProposeFrom(now, history, rackplan.GoalPosition); err == nil {
		c.Plan = plan.Brief()
	}
	c.Leave = bestLeave(c.ID+"-leave", now, history)
}

// bestLeave is the leave with the likeliest shot among the breaks under a set's setup on
// its table.
func bestLeave(id string, now drill.Set, sets []drill.Set) *picture.LeaveView {
	var best *picture.LeaveView
	most := 0.0
	for _, s := range sets {
		if s.Table != now.Table || s.Kind != now.Kind || !s.Setup.SameAs(now.Setup) {
			continue
		}
		for _, b := range s.Breaks {
			l := leave.FromBreak(b, s.Setup, s.Kind)
			a := leave.FindShots(l, leave.PlayerAt(leave.Club))
			shot, direct := a.Direct()
			if l.Hand != leave.InPlay || !direct || shot.Chance <= most {
				continue
			}
			view := component.NewLeavePicture(id, l, a)
			view.Title, most, best = "A good leave", shot.Chance, &view
		}
	}
	return best
}
