package demo

import (
	"math"

	"breakwright/internal/drill"
	"breakwright/internal/rack"
	"breakwright/internal/table"
)

// drillHomework is a drill with the coach's word to those who get it.
type drillHomework struct {
	drill drill.Drill
	note  string
}

// Names of the drills.
const (
	sideBreakDrill = "Side break, wing ball"
	quietDrill     = "Quiet cue ball"
	barBoxDrill    = "Bar-box break"
)

func cutBreak() drillHomework {
	d := standardDrill(sideBreakDrill, table.NineFoot())
	d.Targets.Wing = 0.45
	d.Watch = "The wing ball first: does it go straight to its corner, or which rail does it meet? Then the cue ball: it should stop in the window."
	return drillHomework{d, "Ten breaks, all of them counted. Rack it tight, and take your time between breaks."}
}

func quietCueBall() drillHomework {
	d := standardDrill(quietDrill, table.NineFoot())
	d.Window = table.Window{Left: -14, Right: 14, Head: 22, Foot: 58}
	d.Targets = drill.Targets{Wing: 0.45, Window: 0.25, Shot: 0.5}
	d.Watch = "The cue ball: it should stop near the middle of the table, whatever drops. Then look for the lowest ball. Is there a shot on it?"
	d.WatchList = drill.WatchList{CueOnly: true}
	return drillHomework{d, "A smaller window than usual. Never mind the wing ball this time; look what the cue ball leaves you."}
}

func barBoxBreak() drillHomework {
	d := standardDrill(barBoxDrill, table.SevenFoot())
	d.Setup.Speed = drill.UsualSpeed - 1
	d.Watch = "The small table forgives less than it seems: look where the 1 goes."
	return drillHomework{d, "For the away match. Any evening that the bar box is free."}
}

// standardDrill is a drill of this coach's: a window clear of the rails and of the
// rack, which a steady breaker without a fault meets in two breaks of five
// (computed, 600 breaks on each table), and a target to match.
func standardDrill(name string, k table.Kind) drill.Drill {
	d := drill.Drill{
		Name: name, Kind: k, Setup: drill.StandardSetup(rack.NineBall, table.Left, k), Breaks: drill.UsualBreaks,
		Window: table.Window{
			Left: shareOfLength(k.Width(), -0.36), Right: shareOfLength(k.Width(), 0.36),
			Head: shareOfLength(k.Length(), 0.12), Foot: shareOfLength(k.Length(), 0.62),
		},
		Targets: drill.StandardTargets(k), WatchList: drill.UsualWatchList(),
	}
	d.Setup.Speed, d.Targets.Window = drill.UsualSpeed, 0.35
	return d
}

// shareOfLength is a part of a length, in whole inches.
func shareOfLength(of table.Inches, part float64) table.Inches {
	return table.Inches(math.Round(float64(of) * part))
}
