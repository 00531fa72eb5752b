package advice

import (
	"slices"

	"breakwright/internal/belief"
	"breakwright/internal/drill"
)

// The parts of what a break is worth. A club sets how many points each gives or costs.
const (
	WorthDown    RuleName = "worth-ball-down"
	WorthShot    RuleName = "worth-open-shot"
	WorthScratch RuleName = "worth-scratch"
	WorthOff     RuleName = "worth-off-table"
	WorthWeak    RuleName = "worth-weak-break"
	WorthWing    RuleName = "worth-wing-ball"
	WorthCue     RuleName = "worth-cue-ball"
)

// WorthUnit is what their Step counts.
const WorthUnit = "points"

// WorthParts lists what a break's worth is made of. Their Step is the points.
func WorthParts() []Rule { return slices.Clone(worthParts) }

var worthParts = makeWorthParts()

func makeWorthParts() []Rule {
	standard := belief.StandardWeights()
	part := func(name RuleName, title, pattern, answer string, points float64) Rule {
		return Rule{
			Name: name, Title: title, Pattern: pattern, Answer: answer, StepUnit: WorthUnit,
			Source: "a choice of this program, no source", Numbers: Numbers{On: true, Step: points},
		}
	}
	return []Rule{
		part(WorthDown, "A ball down", "A ball is pocketed, the cue ball stays on the table, and nothing leaves it.", "gives", standard.Down),
		part(WorthShot, "An open shot", "The lowest ball can be pocketed. Half as much again where the drill asks for a shot or a run-out.", "gives", standard.OpenShot),
		part(WorthScratch, "A scratch", "The cue ball is pocketed.", "costs", -standard.Scratch),
		part(WorthOff, "The cue ball off the table", "It is a danger first: hard rules speak of it whatever this is.", "costs", -standard.CueOff),
		part(WorthWeak, "A weak break", "No ball down, and fewer than four to a rail; where the room plays three points, a break short of them as well.", "costs", -standard.Weak),
		part(WorthWing, "The wing ball in its corner", "A way to a ball down, and what a drill may ask to watch.", "gives", standard.Wing),
		part(WorthCue, "The cue ball in the middle", "It comes to rest between the head string and the centre: a way to a shot.", "gives", standard.Middle),
	}
}

// goalShare is how much more an open shot is worth where the drill asks for one.
const goalShare = 1.5

// weights are what the parts of a break are worth under a drill's goals and the room's
// rules.
func (r Rules) weights(t drill.Targets, h drill.HouseRules) belief.Weights {
	points := map[RuleName]float64{}
	for _, part := range worthParts {
		points[part.Name] = r.numbersOf(part).Step
	}
	w := belief.Weights{
		Down: points[WorthDown], OpenShot: points[WorthShot], Scratch: -points[WorthScratch], CueOff: -points[WorthOff],
		Weak: -points[WorthWeak], Wing: points[WorthWing], Middle: points[WorthCue],
	}
	if h.ThreePoints {
		w.Short = w.Weak
	}
	if t.WatchLeave() {
		w.OpenShot *= goalShare
	}
	return w
}
