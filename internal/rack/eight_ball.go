package rack

import "errors"

// eightBallRules is a triangle of fifteen with its apex on the foot spot, the 8 in
// the centre and one ball of each group in the two rear corners (WPA rules of
// play, 3.2, from a league's text; the primary text was not read).
var eightBallRules = gameRules{
	seats: []rackSeat{
		{"1", 0, 0},
		{"2L", 1, -1}, {"2R", 1, 1},
		{"3L", 2, -2}, {"3C", 2, 0}, {"3R", 2, 2},
		{"4L", 3, -3}, {"4LC", 3, -1}, {"4RC", 3, 1}, {"4R", 3, 3},
		{"5L", 4, -4}, {"5LC", 4, -2}, {"5C", 4, 0}, {"5RC", 4, 2}, {"5R", 4, 4},
	},
	fixed:      map[Slot]Ball{"3C": 8},
	extraCheck: cornersOfBothGroups,
	practice:   "1-9-2-10-8-3-4-11-5-12-6-13-7-14-15",
	wing:       "5L",
	spots:      []Spot{HeadOnSpot},
}

func cornersOfBothGroups(inSlotOrder []Ball) error {
	left, right := inSlotOrder[10], inSlotOrder[14] // 5L and 5R
	if left.IsStriped() == right.IsStriped() {
		return errors.New("the two rear corners need one solid and one stripe")
	}
	return nil
}
