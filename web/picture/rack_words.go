package picture

import (
	"fmt"
	"strings"

	"breakwright/internal/say"
)

func (r RackView) titleWords() string {
	if r.Title != "" {
		return r.Title
	}
	return say.Capitalize(r.Game.Words()) + " rack"
}

// DescribeRack says which balls stand where, row by row from the head.
func DescribeRack(r RackView) string {
	var rows []string
	row := ""
	var balls []string
	flush := func() {
		if len(balls) > 0 {
			rows = append(rows, "Row "+row+": "+strings.Join(balls, ", ")+".")
		}
		balls = nil
	}
	var marked []string
	for _, s := range r.listSeats() {
		if first := string(s.slot)[:1]; first != row {
			flush()
			row = first
		}
		balls = append(balls, "the "+s.ball.String())
		switch {
		case s.wing:
			marked = append(marked, fmt.Sprintf("The wing ball is the %s, in slot %s.", s.ball, s.slot))
		case s.target:
			marked = append(marked, fmt.Sprintf("The aim points at the %s, in slot %s.", s.ball, s.slot))
		}
	}
	flush()
	return strings.Join(append(append([]string{"Head ball at the bottom, each row from left to right."}, rows...), marked...), " ")
}

// RackLegend lists the marks of the rack.
func RackLegend(r RackView) []LegendItem {
	var key []LegendItem
	for _, s := range r.listSeats() {
		name := "the " + s.ball.String()
		switch {
		case s.slot == "1":
			key = append(key, LegendItem{MarkHead, "head ball, " + name})
		case s.money:
			key = append(key, LegendItem{MarkMoney, "money ball, " + name})
		case s.wing:
			mark := MarkWingRight
			if s.left {
				mark = MarkWingLeft
			}
			key = append(key, LegendItem{mark, "wing ball, " + name})
		}
		if s.target {
			key = append(key, LegendItem{MarkTarget, "shoot through to " + name})
		}
	}
	if r.SlotNames {
		key = append(key, LegendItem{MarkSlot, "the slot's name"})
	}
	return key
}
