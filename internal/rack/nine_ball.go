package rack

// nineBallRules is a diamond of nine, the 1 at the apex and the 9 in the middle, the
// others with no purposeful pattern (WPA rules of play 2016, 2.2). Since mid-2025
// the 9 stands on the foot spot by default and the 1 by the event's choice
// (summaries of the 2025 revision).
var nineBallRules = gameRules{
	seats: []rackSeat{
		{"1", 0, 0},
		{"2L", 1, -1}, {"2R", 1, 1},
		{"3L", 2, -2}, {"3C", 2, 0}, {"3R", 2, 2},
		{"4L", 3, -1}, {"4R", 3, 1},
		{"5", 4, 0},
	},
	fixed:    map[Slot]Ball{"1": 1, "3C": 9},
	practice: "1-3-2-8-9-5-6-4-7",
	wing:     "3L",
	spots:    []Spot{HeadOnSpot, CentreOnSpot},
}
