package library

import (
	"breakwright/internal/drill"
	"breakwright/internal/rack"
)

var (
	everyGame  = []rack.Game{rack.NineBall, rack.TenBall, rack.EightBall}
	wingGames  = []rack.Game{rack.NineBall, rack.TenBall} // whose wing ball is played for
	smallRacks = []rack.Game{rack.NineBall, rack.TenBall} // that are run from the lowest ball
)

// lessons, each asking for one thing more than those before it.
var lessons = []Lesson{
	{
		Key: "control-before-power", Name: "Control before power", Games: everyGame,
		Purpose: "The first lesson, and the one to come back to when breaks fly apart: a slow, square break that ends in the same place.",
		Watch:   "Only the cue ball. It meets the head ball full and stops in the window. Does it end in the same place ten times? Break a little harder only after six of ten.",
		List:    drill.WatchList{CueOnly: true},
		aim:     lessonAim{out: 0.2, tip: 0, speed: 15, wing: -0.15, window: 0.6},
	},
	{
		Key: "hold-the-cue-ball", Name: "Hold the cue ball", Games: everyGame,
		Purpose: "For breaks that scratch or leave nothing: the cue ball comes off the rack and stops near the middle.",
		Watch:   "Where the cue ball stops, and how it got there: back off the rack, off the head rail, or on forward. Let the other balls do what they like.",
		List:    drill.WatchList{CuePath: true, CueOnly: true},
		aim:     lessonAim{out: 0.28, tip: -0.1, speed: 17, wing: -0.1, window: 0.6},
	},
	{
		Key: "find-the-wing-ball", Name: "Find the wing ball", Games: wingGames,
		Purpose: "The heart of a break from the side: the place from which the wing ball goes to its corner most often.",
		Watch:   "The wing ball, from the rack to what it meets first. Side rail first: the cue ball starts too near the middle. Foot rail first: it starts too far out. Change nothing before the tenth break.",
		List:    drill.WatchList{WingPath: true},
		aim:     lessonAim{out: drill.UsualWidthShare, tip: -0.1, speed: drill.UsualSpeed, window: 0.5},
	},
	{
		Key: "head-ball-in-the-side", Name: "Head ball in the side", Games: wingGames,
		Purpose: "A second ball to count on, once the wing ball drops about as often as it should.",
		Watch:   "The head ball, across to the far side pocket: short of it, in it, or past it on the foot side. The wing ball must not suffer for it.",
		aim:     lessonAim{out: drill.UsualWidthShare, contact: 0.1, tip: -0.1, speed: drill.UsualSpeed, window: 0.5},
	},
	{
		Key: "low-balls-up-the-table", Name: "Low balls up the table", Games: smallRacks,
		Purpose: "For students who make a ball and then have no shot: the balls of the second row come up to the head end, where the cue ball waits.",
		Watch:   "The 2 and the 3, which stand in the second row. Do they stop on the head half? After each break: is there a shot at the lowest ball, and is it an easy one?",
		aim:     lessonAim{out: drill.UsualWidthShare, tip: -0.1, speed: drill.UsualSpeed, window: 0.6, shot: 0.5},
	},
	{
		Key: "both-sides", Name: "Both sides", Games: everyGame,
		Purpose: "Ten from the usual side and ten from the other. Assign it for both sides: students find it twice, and the records stay apart.",
		Watch:   "The same counts from both sides. The better side is the one for matches; the other is for tables where a wall or a rail is in the way.",
		List:    drill.WatchList{WingPath: true},
		aim:     lessonAim{out: 0.25, tip: -0.1, speed: 17, wing: -0.1, window: 0.5},
	},
	{
		Key: "another-table", Name: "Another table", Games: everyGame,
		Purpose: "The first ten on a table nobody knows yet. No speed is set and little is asked: it is for finding out.",
		Watch:   "Where the cue ball ends and what the wing ball meets first on this cloth and these cushions. Write down what differs; judge nothing before the tenth break.",
		List:    drill.WatchList{WingPath: true, CuePath: true},
		aim:     lessonAim{out: 0.3, tip: -0.1, speed: 0, wing: -0.15, window: 0.4},
	},
	{
		Key: "shuffled-rack", Name: "Shuffled rack", Games: everyGame,
		Purpose: "The same break at a rack in no order, as in a match. Shuffle it again in the drill’s editor for another; the ten breaks of a set use one, so that they can be compared.",
		Watch:   "Whether the break holds up when the rack is not the one practised: wing ball, cue ball, and whether the lowest ball can be played.",
		List:    drill.WatchList{WingPath: true},
		aim:     lessonAim{out: drill.UsualWidthShare, tip: -0.1, speed: drill.UsualSpeed, wing: -0.1, window: 0.5},
		racks: map[rack.Game]string{
			rack.NineBall:  "1-7-4-3-9-6-2-8-5",
			rack.TenBall:   "1-7-4-9-10-3-6-2-8-5",
			rack.EightBall: "12-3-7-14-8-1-5-10-6-9-2-13-4-15-11",
		},
	},
}
