package picture

// KeyMark names a mark in a key: the same shapes as in the pictures.
type KeyMark string

// The marks.
const (
	MarkCue       KeyMark = "cue"
	MarkBefore    KeyMark = "before"
	MarkAim       KeyMark = "aim"
	MarkTarget    KeyMark = "target"
	MarkWay       KeyMark = "way"
	MarkWindow    KeyMark = "window"
	MarkStop      KeyMark = "stop"
	MarkScratch   KeyMark = "scratch"
	MarkOff       KeyMark = "off"
	MarkEarlier   KeyMark = "earlier"
	MarkMean      KeyMark = "mean"
	MarkPath      KeyMark = "path"
	MarkRest      KeyMark = "rest"
	MarkHead      KeyMark = "head"
	MarkWingLeft  KeyMark = "wing-left"
	MarkWingRight KeyMark = "wing-right"
	MarkMoney     KeyMark = "money"
	MarkTip       KeyMark = "tip"
	MarkTipBefore KeyMark = "tip-before"
	MarkLimit     KeyMark = "limit"
	MarkSlot      KeyMark = "slot"
	MarkFront     KeyMark = "front"
	MarkCentre    KeyMark = "centre"
	MarkRate      KeyMark = "rate"
	MarkBand      KeyMark = "band"
	MarkGoal      KeyMark = "goal"
	MarkGoalLine  KeyMark = "goal-line"
	MarkCurve     KeyMark = "curve"
	MarkTried     KeyMark = "tried"
	MarkDot       KeyMark = "dot"
	MarkSet       KeyMark = "set"
	MarkSum       KeyMark = "sum"
	MarkEdge      KeyMark = "edge"
)

// KeyItem is one line of a key.
type KeyItem struct {
	Mark  KeyMark
	Words string
}

// TableKey lists the marks that the picture has, in the order they are read.
func TableKey(t TableView) []KeyItem {
	var key []KeyItem
	add := func(shown bool, m KeyMark, words string) {
		if shown {
			key = append(key, KeyItem{m, words})
		}
	}
	aim, aimed := t.aim()
	add(t.Cue != nil, MarkCue, "cue ball")
	add(t.Before != nil, MarkBefore, "where it stood before")
	add(aimed, MarkAim, "aim, and on through the rack")
	if aimed {
		words := "ball to shoot through to"
		if b, found := t.Rack.Order.At(t.Rack.Game, aim.Target); found {
			words = "shoot through to the " + b.String()
		}
		add(true, MarkTarget, words)
	}
	if t.Rack != nil && t.Rack.WingLine {
		b, found := t.Rack.Order.At(t.Rack.Game, t.Rack.Wing)
		add(found, MarkWay, "wing ball, the "+b.String()+", to its corner")
	}
	add(t.Window != nil, MarkWindow, "cue-ball window")
	add(len(t.Stops) > 0, MarkStop, "where the cue ball stopped, by break")
	add(len(t.Scratches) > 0, MarkScratch, "scratch")
	add(len(t.off()) > 0, MarkOff, "cue ball off the table")
	add(len(t.Earlier) > 0, MarkEarlier, "stops before the change")
	add(t.Mean != nil, MarkMean, "mean and scatter")
	add(len(t.Balls) > 0, MarkRest, "where balls stopped")
	add(len(t.Paths) > 0, MarkPath, "way of the cue ball")
	return key
}

// ground is what the mark is drawn on: the cloth, the cue ball's face, or the
// page itself for the marks of charts.
func (m KeyMark) ground() string {
	switch m {
	case MarkTip, MarkTipBefore, MarkLimit:
		return "face"
	case MarkRate, MarkBand, MarkGoal, MarkGoalLine, MarkCurve, MarkTried, MarkSet, MarkSum, MarkEdge:
		return "page"
	}
	return "cloth"
}
