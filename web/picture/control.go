package picture

import (
	"fmt"
	"strings"

	"breakwright/internal/say"
)

// ControlView is a student's sets against their own usual: a dot for each set's
// rate, and below it how far the sets have fallen short of the usual, or passed
// it, added up.
type ControlView struct {
	ID    string
	Label string
	// Usual is the rate that the sets are held against.
	Usual float64
	// Limit is the sum beyond which a change is believed.
	Limit float64
	Sets  []ControlSet // oldest first
}

// ControlSet is a set of a control chart.
type ControlSet struct {
	SetRate
	// Watched sets have sums; the usual was made of the others.
	Watched   bool
	Low, High float64
	// Day is when it was broken: "3 May".
	Day string
}

// Sizes of the chart, in pixels.
const (
	controlTop, controlBottom = 8, 76   // of the rates
	controlMiddle             = 128     // the line the sums stand on
	controlReach              = 36      // of the sums, up and down
	controlHeight             = 190     // the days stand at its foot
	controlRoom               = 4.0 / 3 // the limit lies inside
)

// controlDot is a set as it is drawn; x is a share of the width.
type controlDot struct {
	x, y         float64
	watched      bool
	newSetup     bool
	change       float64
	left, width  float64 // of the bars, shares
	low, highTop float64 // pixels
	lowHeight    float64
	highHeight   float64
}

func (c ControlView) rateY(rate float64) float64 {
	return controlBottom - clampShare(rate)*(controlBottom-controlTop)
}

// sumHeight is how many pixels a sum is long.
func (c ControlView) sumHeight(sum float64) float64 {
	most := c.Limit * controlRoom
	for _, s := range c.Sets {
		most = max(most, s.Low, s.High)
	}
	if !(most > 0) {
		return 0
	}
	return controlReach * clampShare(sum/most)
}

func (c ControlView) placeDots() []controlDot {
	n := float64(max(len(c.Sets), 1))
	all := make([]controlDot, len(c.Sets))
	for i, set := range c.Sets {
		d := controlDot{
			x: (float64(i) + 0.5) / n, y: c.rateY(RateView{Made: set.Made, Of: set.Of}.shareMade()), watched: set.Watched,
			newSetup: set.NewSetup && i > 0, change: float64(i) / n, left: (float64(i) + 0.2) / n, width: 0.6 / n,
		}
		d.lowHeight, d.highHeight = c.sumHeight(set.Low), c.sumHeight(set.High)
		d.low, d.highTop = controlMiddle, controlMiddle-d.highHeight
		all[i] = d
	}
	return all
}

// controlRates are the lines of the scale: none, half and all.
var controlRates = []float64{0, 0.5, 1}

// tenWords says a rate as so many of ten: "4.5".
func tenWords(rate float64) string { return formatUnits(10 * clampShare(rate)) }

// axisDay is a day below the chart; x is a share of the width.
type axisDay struct {
	x     float64
	words string
}

// axisDays are the days of some sets, the first and the last among them: so few that
// they have room side by side on a phone.
func (c ControlView) axisDays() []axisDay {
	const most = 3
	n := len(c.Sets)
	if n == 0 {
		return nil
	}
	marks := min(n, most)
	var days []axisDay
	for k := range marks {
		i := 0
		if marks > 1 {
			i = k * (n - 1) / (marks - 1)
		}
		if c.Sets[i].Day != "" {
			days = append(days, axisDay{(float64(i) + 0.5) / float64(n), c.Sets[i].Day})
		}
	}
	return days
}

// dayAnchor keeps a day inside the picture.
func dayAnchor(x float64) string {
	switch {
	case x < 0.1:
		return "start"
	case x > 0.9:
		return "end"
	}
	return "middle"
}

// limitLines are the y of the two lines.
func (c ControlView) limitLines() []float64 {
	h := c.sumHeight(c.Limit)
	return []float64{controlMiddle - h, controlMiddle + h}
}

// DescribeControl lists the sets watched with what was usual before.
func DescribeControl(c ControlView) string {
	var watched []string
	for _, set := range c.Sets {
		if set.Watched {
			watched = append(watched, say.OfTotal(set.Made, set.Of))
		}
	}
	if len(watched) == 0 {
		return c.Label + ": too few sets to chart."
	}
	return fmt.Sprintf("%s. Usual before: %s. The sets since: %s.", c.Label, percentWords(c.Usual), strings.Join(watched, ", "))
}

// ControlLegend lists the marks of the chart.
func ControlLegend(c ControlView) []LegendItem {
	return []LegendItem{
		{MarkSet, "a set’s rate"},
		{MarkGoalLine, "usual before, " + tenWords(c.Usual) + " of 10"},
		{MarkSum, "how far sets passed it (up) or fell short (down), added up"},
		{MarkEdge, "beyond this it is hardly luck"},
	}
}
