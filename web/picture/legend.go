package picture

// LegendMark names a mark in a key: the same shapes as in the pictures.
type LegendMark string

// The marks.
const (
	MarkCue       LegendMark = "cue"
	MarkBefore    LegendMark = "before"
	MarkAim       LegendMark = "aim"
	MarkTarget    LegendMark = "target"
	MarkWay       LegendMark = "way"
	MarkWindow    LegendMark = "window"
	MarkStop      LegendMark = "stop"
	MarkScratch   LegendMark = "scratch"
	MarkOff       LegendMark = "off"
	MarkEarlier   LegendMark = "earlier"
	MarkMean      LegendMark = "mean"
	MarkAreas     LegendMark = "areas"
	MarkPath      LegendMark = "path"
	MarkRest      LegendMark = "rest"
	MarkHead      LegendMark = "head"
	MarkWingLeft  LegendMark = "wing-left"
	MarkWingRight LegendMark = "wing-right"
	MarkMoney     LegendMark = "money"
	MarkTip       LegendMark = "tip"
	MarkTipBefore LegendMark = "tip-before"
	MarkLimit     LegendMark = "limit"
	MarkSlot      LegendMark = "slot"
	MarkFront     LegendMark = "front"
	MarkCentre    LegendMark = "centre"
	MarkRate      LegendMark = "rate"
	MarkBand      LegendMark = "band"
	MarkGoal      LegendMark = "goal"
	MarkGoalLine  LegendMark = "goal-line"
	MarkCurve     LegendMark = "curve"
	MarkTried     LegendMark = "tried"
	MarkDot       LegendMark = "dot"
	MarkSet       LegendMark = "set"
	MarkSum       LegendMark = "sum"
	MarkEdge      LegendMark = "edge"
	MarkShotCell  LegendMark = "shot-cell"
	MarkBetter    LegendMark = "better"
	MarkBox       LegendMark = "box"
)

// LegendItem is one line of a key.
type LegendItem struct {
	Mark  LegendMark
	Words string
}

// TableLegend lists the marks that the picture has, in the order they are read.
func TableLegend(t TableView) []LegendItem {
	var key []LegendItem
	add := func(shown bool, m LegendMark, words string) {
		if shown {
			key = append(key, LegendItem{m, words})
		}
	}
	aim, aimed := t.aimLine()
	add(t.Cue != nil, MarkCue, "cue ball")
	add(t.Before != nil, MarkBefore, "where it stood before")
	add(aimed, MarkAim, "aim, and on through the rack")
	if aimed {
		words := "ball to shoot through to"
		if b, found := t.Rack.Order.BallAt(t.Rack.Game, aim.Target); found {
			words = "shoot through to the " + b.String()
		}
		add(true, MarkTarget, words)
	}
	if t.Rack != nil && t.Rack.WingLine {
		b, found := t.Rack.Order.BallAt(t.Rack.Game, t.Rack.Wing)
		add(found, MarkWay, "wing ball, the "+b.String()+", to its corner")
	}
	add(t.Window != nil, MarkWindow, "cue-ball window")
	add(t.Box > 0, MarkBox, "break box")
	add(len(t.Stops) > 0, MarkStop, "where the cue ball stopped, by break")
	add(len(t.Scratches) > 0, MarkScratch, "scratch")
	add(len(t.drawnOffTable()) > 0, MarkOff, "cue ball off the table")
	add(len(t.Earlier) > 0, MarkEarlier, "stops before the change")
	add(t.Mean != nil, MarkMean, "where most stop")
	add(len(t.Balls) > 0, MarkRest, "where balls stopped")
	add(len(t.Paths) > 0, MarkPath, "way of the cue ball")
	return key
}

// backgroundName is what the mark is drawn on: the cloth, the cue ball's face, or the
// page itself for the marks of charts.
func (m LegendMark) backgroundName() string {
	switch m {
	case MarkTip, MarkTipBefore, MarkLimit:
		return "face"
	case MarkRate, MarkBand, MarkGoal, MarkGoalLine, MarkCurve, MarkTried, MarkSet, MarkSum, MarkEdge:
		return "page"
	}
	return "cloth"
}
