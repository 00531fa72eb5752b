package picture

import (
	"fmt"
	"math"
	"strings"

	"github.com/a-h/templ"

	"breakwright/internal/say"
	"breakwright/internal/table"
)

// Sizes of the place curve, in pixels; across it is as wide as its place.
const (
	curveTop, curveBottom = 14, 174
	curveHeight           = 214
	// curveInset is the share of the width left free on either side.
	curveInset = 0.05
	// curveGrain is the number of units across the band's own viewBox.
	curveGrain = 1000
)

// topRate is the rate at the upper edge: the next quarter above everything drawn.
func (c CurveView) topRate() float64 {
	highest := c.Target
	for _, h := range c.High {
		highest = max(highest, h)
	}
	for _, t := range c.Tried {
		highest = max(highest, t.successRate())
	}
	return min(max(math.Ceil(clampShare(highest)*4)/4, 0.25), 1)
}

func (t TriedPlace) successRate() float64 { return RateView{Made: t.Made, Of: t.Of}.shareMade() }

// xShare is where a place lies, as a share of the width.
func (c CurveView) xShare(p table.Inches) float64 {
	if len(c.Places) < 2 {
		return 0.5
	}
	first, last := c.Places[0], c.Places[len(c.Places)-1]
	return curveInset + (1-2*curveInset)*clampShare(float64((p-first)/(last-first)))
}

// yPixels is where a rate lies, in pixels.
func (c CurveView) yPixels(rate float64) float64 {
	return curveBottom - min(clampShare(rate)/c.topRate(), 1)*(curveBottom-curveTop)
}

// bandPath runs along High and back along Low; meanPath along Mean.
func (c CurveView) bandPath() string {
	n := len(c.Places)
	if n < 2 || len(c.High) != n || len(c.Low) != n {
		return ""
	}
	points := make([]string, 0, 2*n)
	for i, p := range c.Places {
		points = append(points, c.curvePoint(p, c.High[i]))
	}
	for i := n - 1; i >= 0; i-- {
		points = append(points, c.curvePoint(c.Places[i], c.Low[i]))
	}
	return "M" + strings.Join(points, "L") + "z"
}

func (c CurveView) meanPath() string {
	if len(c.Places) < 2 || len(c.Mean) != len(c.Places) {
		return ""
	}
	points := make([]string, len(c.Places))
	for i, p := range c.Places {
		points[i] = c.curvePoint(p, c.Mean[i])
	}
	return "M" + strings.Join(points, "L")
}

func (c CurveView) curvePoint(p table.Inches, rate float64) string {
	return formatUnits(c.xShare(p)*curveGrain) + " " + formatUnits(c.yPixels(rate))
}

// viewBox of the band, which is stretched across.
func (c CurveView) viewBox() string {
	return fmt.Sprintf("0 0 %d %d", curveGrain, curveHeight)
}

// gridRates are the rates with a line: quarters up to the top.
func (c CurveView) gridRates() []float64 {
	var all []float64
	for r := 0.25; r <= c.topRate(); r += 0.25 {
		all = append(all, r)
	}
	return all
}

// axisPlaces are the places named below the curve: about five, the long string
// among them if it is in reach.
func (c CurveView) axisPlaces(u say.Units) []table.Inches {
	if len(c.Places) < 2 {
		return c.Places
	}
	first, last := c.Places[0], c.Places[len(c.Places)-1]
	grain := table.Inches(2)
	if u == say.Metric {
		grain = table.Inches(u.ReadTyped(say.Place, 5)) // every five centimetres
	}
	step := grain
	for (last-first)/step > 5 {
		step += grain
	}
	var all []table.Inches
	for p := table.Inches(math.Ceil(float64(first/step))) * step; p <= last; p += step {
		all = append(all, p)
	}
	return all
}

// axisWords names a place below the curve: "18 left", "0".
func axisWords(p table.Inches, u say.Units) string {
	if p == 0 {
		return "0"
	}
	return u.Number(say.Place, float64(absInches(p))) + " " + string(table.SideOf(p))
}

// dotSize grows with the root of the breaks, so that the area shows them.
func (t TriedPlace) dotSize() float64 { return 2.5 + 1.4*math.Sqrt(float64(max(t.Of, 0))) }

func (t TriedPlace) countWords() string { return say.OfTotal(t.Made, t.Of) }

// countRoom is the share of the width that a count takes on a phone.
const countRoom = 0.16

// rateAttributes places the rates of the grid at the left, or at the right where the
// name of a place now or next would run into them.
func (c CurveView) rateAttributes() templ.Attributes {
	for _, place := range []*table.Inches{c.Now, c.Next} {
		if place != nil && c.xShare(*place) < countRoom {
			return templ.Attributes{"x": "100%", "text-anchor": "end"}
		}
	}
	return nil
}

// countAttributes places the count next to its dot: on the right, or on the left where
// the picture ends or a line would cross it.
func (c CurveView) countAttributes(t TriedPlace) templ.Attributes {
	here := c.xShare(t.Place)
	left := here > 1-countRoom
	for _, line := range []*table.Inches{c.Now, c.Next} {
		if line != nil && c.xShare(*line) > here && c.xShare(*line) < here+countRoom && here > countRoom {
			left = true
		}
	}
	if left {
		return templ.Attributes{"x": formatUnits(-t.dotSize() - 5), "y": "4", "text-anchor": "end"}
	}
	return templ.Attributes{"x": formatUnits(t.dotSize() + 5), "y": "4"}
}

// DescribeCurve says what was tried, where the curve is highest and what is next.
func DescribeCurve(c CurveView, u say.Units) string {
	sentences := []string{c.Label + ", by the cue ball's place along the head string."}
	for _, t := range c.Tried {
		sentences = append(sentences, say.Sentence(acrossWords(t.Place, u)+": "+t.countWords()))
	}
	if best := c.highestIndex(); best >= 0 {
		words := "the curve is highest " + acrossWords(c.Places[best], u)
		if len(c.Low) == len(c.Places) && len(c.High) == len(c.Places) {
			words += fmt.Sprintf(", between %.0f and %s; the band is %s", 100*clampShare(c.Low[best]), percentWords(c.High[best]), c.bandWords())
		}
		sentences = append(sentences, say.Sentence(words))
	}
	if c.Now != nil {
		sentences = append(sentences, say.Sentence("now: "+acrossWords(*c.Now, u)))
	}
	if c.Next != nil {
		sentences = append(sentences, say.Sentence("proposed: "+acrossWords(*c.Next, u)))
	}
	return strings.Join(sentences, " ")
}

func (c CurveView) highestIndex() int {
	best := -1
	for i, m := range c.Mean {
		if i < len(c.Places) && (best < 0 || m > c.Mean[best]) {
			best = i
		}
	}
	return best
}

// bandWords say what the band around the curve is.
func (c CurveView) bandWords() string {
	if c.Level == 0 {
		return "one standard deviation to either side"
	}
	return fmt.Sprintf("where the true rate may lie, %.0f %%", 100*c.Level)
}

// CurveLegend lists the marks of the curve.
func CurveLegend(c CurveView) []LegendItem {
	key := []LegendItem{{MarkCurve, "likely rate; the band is " + c.bandWords()}}
	if len(c.Tried) > 0 {
		key = append(key, LegendItem{MarkTried, "places tried; larger means more breaks"})
	}
	if c.Target > 0 {
		key = append(key, LegendItem{MarkGoalLine, "target, " + tenWords(c.Target) + " of 10"})
	}
	return key
}
