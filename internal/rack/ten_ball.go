package rack

// tenBallRules is a triangle of ten, the 1 at the apex on the foot spot and the 10
// in the middle, no other pattern (WPA rules of play 2008, 9.2). That the 2 and
// the 3 stand in the rear corners is an option of some events, not in that rule.
var tenBallRules = gameRules{
	seats: []rackSeat{
		{"1", 0, 0},
		{"2L", 1, -1}, {"2R", 1, 1},
		{"3L", 2, -2}, {"3C", 2, 0}, {"3R", 2, 2},
		{"4L", 3, -3}, {"4LC", 3, -1}, {"4RC", 3, 1}, {"4R", 3, 3},
	},
	fixed:    map[Slot]Ball{"1": 1, "3C": 10},
	practice: "1-3-2-8-10-5-6-4-9-7",
	wing:     "4L",
	spots:    []Spot{HeadOnSpot},
}
