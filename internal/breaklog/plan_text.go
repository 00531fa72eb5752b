package breaklog

import (
	"fmt"
	"strings"

	"breakwright/internal/drill"
	"breakwright/internal/rack"
	"breakwright/internal/table"
)

// What a set was broken for, and what was decided on it, has columns of its own, the
// same on all rows of the set; a file without them is read as before.

// planCells are those cells as they stand in a row.
type planCells struct {
	askedSpeed, window, goals, house, closed, decision, rules, tablesPlay string
}

// columns lists the cells with their columns, in the order in which they are
// written.
func (p *planCells) columns() []planCell {
	return []planCell{
		{colSpeedAsked, &p.askedSpeed}, {colWindow, &p.window}, {colGoals, &p.goals},
		{colHouse, &p.house}, {colClosed, &p.closed}, {colDecision, &p.decision}, {colRules, &p.rules},
		{colTablesPlay, &p.tablesPlay},
	}
}

type planCell struct {
	column logColumn
	text   *string
}

// Words of these cells.
const (
	ownSpeed    = "own"          // the speed is left to the student
	threePoints = "three-points" // a house rule
	breakBox    = "box"          // another, with its reach
)

// decidedPart is a part of a setup that a decision may name: by its column.
type decidedPart struct {
	column logColumn
	write  func(drill.Setup) string
	read   func(*drill.Setup, string) bool
}

// decidedParts are in an order in which they can be read: the game says what a rack is.
var decidedParts = []decidedPart{
	wordPart(colGame, gameWords, func(s *drill.Setup) *rack.Game { return &s.Game }),
	wordPart(colSide, sideWords, func(s *drill.Setup) *table.Side { return &s.Side }),
	{colRack, func(s drill.Setup) string { return s.Order.String() }, func(s *drill.Setup, text string) (ok bool) {
		order, err := rack.ParseOrder(s.Game, text)
		s.Order = order
		return err == nil
	}},
	wordPart(colSpot, newAcceptedWords(rack.HeadOnSpot, rack.CentreOnSpot), func(s *drill.Setup) *rack.Spot { return &s.Spot }),
	{colWing, func(s drill.Setup) string { return string(s.Wing) }, func(s *drill.Setup, text string) bool {
		s.Wing = rack.Slot(text)
		return s.Wing == s.Game.WingSlot(table.Left) || s.Wing == s.Game.WingSlot(table.Right)
	}},
	numberPart(colCueX, func(s *drill.Setup) *table.Inches { return &s.Cue.X }),
	numberPart(colCueY, func(s *drill.Setup) *table.Inches { return &s.Cue.Y }),
	numberPart(colContact, func(s *drill.Setup) *table.Inches { return &s.Contact }),
	numberPart(colTip, func(s *drill.Setup) *drill.RadiusFraction { return &s.Tip }),
	numberPart(colSpin, func(s *drill.Setup) *drill.RadiusFraction { return &s.Spin }),
	numberPart(colSpeed, func(s *drill.Setup) *table.Mph { return &s.Speed }),
}

func wordPart[T ~string](c logColumn, words acceptedWords[T], of func(*drill.Setup) *T) decidedPart {
	return decidedPart{c, func(s drill.Setup) string { return string(*of(&s)) }, func(s *drill.Setup, text string) bool {
		word, ok := words.known[text]
		*of(s) = word
		return ok
	}}
}

func numberPart[T ~float64](c logColumn, of func(*drill.Setup) *T) decidedPart {
	return decidedPart{c, func(s drill.Setup) string { return formatDecimal(float64(*of(&s))) }, func(s *drill.Setup, text string) bool {
		v, why := parseDecimal(text)
		*of(s) = T(v)
		return why == ""
	}}
}

// writePlan writes the cells of a set.
func writePlan(set drill.Set) planCells {
	p := planCells{askedSpeed: ownSpeed}
	if set.Setup.Speed != 0 {
		p.askedSpeed = formatDecimal(float64(set.Setup.Speed))
	}
	if w := set.Plan.Window; w != (table.Window{}) {
		p.window = fmt.Sprintf("%s,%s;%s,%s", formatDecimal(float64(w.Left)), formatDecimal(float64(w.Head)), formatDecimal(float64(w.Right)), formatDecimal(float64(w.Foot)))
	}
	var goals, house, decisions []string
	for _, goal := range drill.TargetKinds() {
		if share := *goal.Of(&set.Plan.Targets); share != 0 {
			goals = append(goals, goal.Name+"@"+formatDecimal(share))
		}
	}
	if box := set.Plan.House.BreakBox; box != 0 {
		house = append(house, breakBox+"@"+formatDecimal(float64(box)))
	}
	if set.Plan.House.ThreePoints {
		house = append(house, threePoints)
	}
	for _, d := range set.Plan.Decisions {
		decisions = append(decisions, writeDecision(d, set.Setup))
	}
	p.goals, p.house, p.decision = strings.Join(goals, ";"), strings.Join(house, ";"), strings.Join(decisions, ";")
	p.rules, p.tablesPlay = writeRules(set.Plan.Rules), writeTablesPlay(set.Plan.TablesPlay)
	if at := set.Plan.Closed; !at.IsZero() {
		p.closed = formatTime(at)
	}
	return p
}

// writeDecision writes what was decided, and of the setup what it made another.
func writeDecision(d drill.PlanDecision, of drill.Setup) string {
	words := []string{d.Answer}
	if d.Rule != "" {
		words = append(words, d.Rule)
	}
	for _, part := range decidedParts {
		if is := part.write(d.Setup); is != part.write(of) {
			words = append(words, part.column.String()+"="+is)
		}
	}
	return strings.Join(words, " ")
}
