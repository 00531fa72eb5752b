package drill

import (
	"time"

	"breakwright/internal/table"
)

// SetPlan is what a set was broken for, and what a coach decided on it. The zero SetPlan
// says that nothing of it is known.
type SetPlan struct {
	// Window is where the cue ball should have stopped, the right way round for the
	// student.
	Window  table.Window
	Targets Targets
	House   HouseRules
	// Closed is when the set was closed; zero when it is open, or not known.
	Closed time.Time
	// Decisions are the coaches', the newest first.
	Decisions []PlanDecision
	// Rules are those of the club that it was judged by, TablesPlay how its tables play, as
	// others' breaks had shown it then.
	Rules      ClubRules
	TablesPlay TablesPlay
}

// PlanDecision is what a coach decided on a change of a set's setup.
type PlanDecision struct {
	// Answer is what was decided: approved, changed, declined or own; or earlier, for a
	// decision that was made on a set before and comes before what this one asks for.
	Answer string
	// Rule is what had asked for a change, "" for the coach's own and an earlier one.
	Rule string
	// Setup is what the student was to do then, that of the set when the change was
	// declined.
	Setup Setup
}

// EarlierDecision is the answer of a decision that was made on a set before.
const EarlierDecision = "earlier"

// Mirror returns the plan as for the other side.
func (p SetPlan) Mirror() SetPlan {
	m := p
	m.Window = p.Window.Mirror()
	m.Decisions = nil
	for _, d := range p.Decisions {
		d.Setup = d.Setup.Mirror()
		m.Decisions = append(m.Decisions, d)
	}
	return m
}
