package advice

import (
	"encoding/json"

	"breakwright/internal/drill"
	"breakwright/internal/say"
)

// Verdict says what to do next.
type Verdict string

// The verdicts.
const (
	Change Verdict = "change" // change one thing, as the prescription says
	More   Verdict = "more"   // the same again: too early to tell
	Keep   Verdict = "keep"   // the setup is good, or the coach's own: leave it alone
)

// Advice is what a student's history says today. It always holds a complete
// Next setup, within the limits of the table, and never more than one change.
type Advice struct {
	Student string  `json:"student"`
	Table   string  `json:"table"`
	Stint   Summary `json:"stint"`
	// Findings are the patterns looked at, the most pressing first. A pattern
	// below its line is there too when it is more likely than not.
	Findings []Finding `json:"findings"`
	Verdict  Verdict   `json:"verdict"`
	// BreaksNeeded says how many more breaks would likely settle the question
	// when the verdict is More; nil otherwise.
	BreaksNeeded *int `json:"breaks_needed"`
	// Prescription is nil when nothing is asked for, and of variable None when
	// the setup stays and the aim is raised or the gear is checked.
	Prescription *Prescription `json:"prescription"`
	// Next is the setup of the next ten breaks, the right way round for the
	// student, with every part given.
	Next drill.Setup `json:"-"`
	// CueBallSummary sums up where the cue ball stopped; nil before three stops.
	CueBall *CueBallSummary `json:"cue_ball,omitempty"`
	// FollowUp says how the latest change turned out; nil before the first.
	FollowUp *FollowUp `json:"follow_up,omitempty"`
	// Places says what the places tried so far tell; nil when there is nothing
	// to learn from.
	Places *Places `json:"places,omitempty"`
	// Card is the student's own break for this table, once it is known.
	Card *BreakCard `json:"card,omitempty"`
	// Says is the answer in one or two sentences, for the top of a page.
	Says string `json:"says"`
	// Statement is Says as data.
	Statement say.Statement `json:"-"`
	// Checks list what to record or check in the next set.
	Checks []string `json:"ask,omitempty"`
	// CheckStatements are Checks as data.
	CheckStatements []say.Statement `json:"-"`
	// Cautions are shown with the next drill.
	Cautions []string `json:"cautions,omitempty"`
	// NeedsCoach says that a person should look before the next set.
	NeedsCoach bool `json:"tell_coach,omitempty"`
	// Causes are what may be amiss, the likeliest first; empty before there are
	// breaks enough. "nothing" is one of them.
	Causes []Cause `json:"causes,omitempty"`
	// OthersBreaks is how many breaks of other students they were weighed beside.
	OthersBreaks int `json:"others_breaks,omitempty"`
	// CheckRack says that the rack is to be checked before anything is changed.
	CheckRack bool `json:"check_rack,omitempty"`
	// Rules is the version of the rules that spoke.
	Rules string `json:"rules"`
}

// Cause is something that may be amiss, and how likely it is that it is the
// largest thing.
type Cause struct {
	Name  string  `json:"cause"`
	Share float64 `json:"share"`
}

// MarshalJSON writes the advice with its setup as next_setup, in the columns of
// the break log.
func (a Advice) MarshalJSON() ([]byte, error) {
	type plain Advice
	return json.Marshal(struct {
		plain
		Next setupColumns `json:"next_setup"`
	}{plain(a), setupColumnsOf(a.Next)})
}

// setupColumns is the shape of a setup in JSON.
type setupColumns struct {
	Side    string  `json:"side"`
	CueX    float64 `json:"cue_x"`
	CueY    float64 `json:"cue_y"`
	Contact float64 `json:"contact"`
	Tip     float64 `json:"tip"`
	Spin    float64 `json:"spin"`
	Speed   float64 `json:"speed"`
	Rack    string  `json:"rack"`
}

func setupColumnsOf(s drill.Setup) setupColumns {
	return setupColumns{
		Side: string(s.Side), CueX: float64(s.Cue.X), CueY: float64(s.Cue.Y),
		Contact: float64(s.Contact), Tip: float64(s.Tip), Spin: float64(s.Spin),
		Speed: float64(s.Speed), Rack: s.Order.String(),
	}
}

// Summary says which breaks the advice rests on.
type Summary struct {
	// Sets and Breaks are counted in the stint that is judged.
	Sets   int `json:"sets"`
	Breaks int `json:"breaks"`
	// Used names the stint's sets; Earlier the sets under other setups on the
	// same table that the follow-up and the place search learn from.
	Used    []string `json:"used,omitempty"`
	Earlier []string `json:"earlier,omitempty"`
	// LeftOut names the other sets, with the reason.
	LeftOut []LeftOut `json:"left_out,omitempty"`
}

// LeftOut is a set that was not used.
type LeftOut struct {
	Set    string `json:"set"`
	Breaks int    `json:"breaks"`
	Why    string `json:"why"`
}

// leftOutReason says why a set under other conditions is not pooled with this one.
func leftOutReason(there, here poolKey) string {
	switch {
	case there.table != here.table:
		return "played on another table"
	case there.kind != here.kind:
		return "the table's size or pockets are written down differently"
	case there.game != here.game:
		return "another game's rack"
	case there.side != here.side:
		return "broken from the other side"
	case there.spot != here.spot:
		return "another ball on the foot spot"
	}
	return "another wing ball was played"
}

// BreakCard is a student's own best-known break for one table.
type BreakCard struct {
	Table  string      `json:"table"`
	Setup  drill.Setup `json:"-"`
	Wing   Rate        `json:"wing"`
	Window Rate        `json:"window"`
	Says   string      `json:"says"`
	// Statement is Says as data.
	Statement say.Statement `json:"-"`
}

// Rate is a count with its share and 95 % Jeffreys interval.
type Rate struct {
	Count int     `json:"count"`
	Of    int     `json:"of"`
	Rate  float64 `json:"rate"`
	Low   float64 `json:"low"`
	High  float64 `json:"high"`
}

// MarshalJSON writes the card with its setup in the columns of the break log.
func (c BreakCard) MarshalJSON() ([]byte, error) {
	type plain BreakCard
	return json.Marshal(struct {
		plain
		Setup setupColumns `json:"setup"`
	}{plain(c), setupColumnsOf(c.Setup)})
}
