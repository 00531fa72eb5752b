package leave

import (
	"errors"
	"net/url"

	"breakwright/internal/drill"
	"breakwright/internal/rack"
	"breakwright/internal/rackplan"
	"breakwright/internal/say"
	"breakwright/internal/store"
	"breakwright/web/component"
	"breakwright/web/picture"
	"breakwright/web/route"
)

// planView is the rack plan.
type planView struct {
	rackplan.Plan
	// Problem says why there is none; "" when there is one.
	Problem string
	// SmallSays says by which table the plan was computed; "" for a usual one.
	SmallSays string
	// Own says that the student reads it.
	Own bool
	// Prescribe is where a coach decides on the swap, or first on the change that Waits;
	// "" without one, and where no set of a drill could carry it.
	Prescribe string
	Waits     bool
}

// says is the plan in words, to its reader.
func (p planView) says() string {
	if p.Own {
		return p.Describe(rackplan.YourOwn)
	}
	return p.Describe(rackplan.StudentOwn)
}

// plan makes the rack plan for the goal that was chosen; last is the latest of the sets.
func (v *leaveView) plan(sets []drill.Set, last store.Set, units say.Units) error {
	goal := rackplan.GoalPosition
	if v.Form.Text(fieldGoal) == string(rackplan.GoalShot) {
		goal = rackplan.GoalShot
	}
	p, err := rackplan.ProposeFor(sets, goal)
	if errors.Is(err, rackplan.ErrNotComputed) {
		v.Plan.Problem = "No breaks were computed for this rack, so there is no plan for it."
		return nil
	}
	v.Plan.Plan, v.Plan.Own = p, v.Own
	v.Plan.SmallSays = component.SmallTableWords(last.Table.Kind, units)
	if !v.Own && p.Verdict == rackplan.VerdictSwap && !store.IsZero(last.Drill.ID) {
		v.Plan.Waits = last.Prescription != nil && last.Prescription.State == store.Proposed
		v.Plan.Prescribe = route.SetChangePath(last.ID) + "?" + url.Values{component.FieldOrder: {p.Next.String()}}.Encode()
	}
	return err
}

// rackPicture draws the order, with the two balls that the plan names raised.
func (p planView) rackPicture(id, title string, order rack.Order) picture.RackView {
	view := picture.RackView{ID: id, Title: title, Game: p.Game, Order: order, SlotNames: true}
	if p.NamesSwap() {
		view.Selected = []rack.Slot{p.A, p.B}
	}
	return view
}
