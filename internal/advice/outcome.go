package advice

import (
	"breakwright/internal/say"
	"breakwright/internal/table"
)

// Outcome is how a change turned out.
type Outcome string

// The outcomes.
const (
	InTrial      Outcome = "in trial" // too early to tell
	Helped       Outcome = "helped"
	NoDifference Outcome = "no difference"
	Hurt         Outcome = "hurt"
)

// FollowUp compares the stint before the latest change with the one after it.
type FollowUp struct {
	Variable Variable `json:"variable"`
	From     Value    `json:"from"`
	To       Value    `json:"to"`
	// Measure says what was compared, what the change was about: "wing ball",
	// "cue ball in the window", "scratches", "balls off the table", "breaks with
	// nothing down" or "good breaks". Of scratches and the like fewer are better.
	Measure       string  `json:"measure"`
	CountBefore   int     `json:"count_before"`
	OfBefore      int     `json:"of_before"`
	CountAfter    int     `json:"count_after"`
	OfAfter       int     `json:"of_after"`
	HelpedP       float64 `json:"helped_p"`
	NoDifferenceP float64 `json:"no_difference_p"`
	HurtP         float64 `json:"hurt_p"`
	Outcome       Outcome `json:"outcome"`
	Says          string  `json:"says"`
	// Said is Says as data.
	Said say.Statement `json:"-"`
}

// Places is what the places tried under these conditions say about the wing ball.
type Places struct {
	Tried []TriedPlace `json:"tried"`
	// Curve is the believed rate of the wing ball along the head string, the
	// most central place first.
	Curve []CurvePoint `json:"curve,omitempty"`
	// Best is the place believed best, as an x of the break log; Known says
	// that it is known well enough to leave alone.
	Best  table.Inches `json:"best"`
	Known bool         `json:"known"`
	Says  string       `json:"says"`
	// Said is Says as data.
	Said say.Statement `json:"-"`
}

// TriedPlace is one place with what happened there.
type TriedPlace struct {
	X      table.Inches `json:"x"`
	Made   int          `json:"made"`
	Breaks int          `json:"breaks"`
}

// CurvePoint is the believed rate at one place.
type CurvePoint struct {
	X    table.Inches `json:"x"`
	Mean float64      `json:"mean"`
	Low  float64      `json:"low"`
	High float64      `json:"high"`
}
