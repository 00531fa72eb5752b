package picture_test

import (
	"math"
	"strings"
	"testing"

	"breakwright/internal/drill"
	"breakwright/internal/rack"
	"breakwright/internal/table"
	"breakwright/web/picture"
)

// cut is a break from the right with a cut to the left.
func cut() drill.Setup {
	s := drill.StandardSetup(rack.NineBall, table.Right, table.NineFoot())
	s.Contact = -0.4
	return s
}

func TestRate_DrawsItsNumbers(t *testing.T) {
	_, root := draw(t, picture.RateFigure(picture.RateView{ID: "r", Label: "Wing ball", Made: 6, Of: 30, Low: 0.1, High: 0.375, Target: 0.5}))
	band := root.one(t, "rect", "pic-band")
	if band.attr["x"] != "10%" || band.attr["width"] != "27.5%" {
		t.Errorf("the band from 10 to 37.5 percent is drawn from %s, %s wide", band.attr["x"], band.attr["width"])
	}
	if x := root.one(t, "svg", "pic-seen").attr["x"]; x != "20%" {
		t.Errorf("6 of 30 is drawn at %s", x)
	}
	if x := root.one(t, "svg", "pic-goal").attr["x"]; x != "50%" {
		t.Errorf("the target is drawn at %s", x)
	}
	if got := root.one(t, "span", "pic-count").text; got != "6 of 30" {
		t.Errorf("the count says %q", got)
	}
}

func TestRate_OddNumbersStayOnTheBar(t *testing.T) {
	nan := math.NaN()
	source, root := draw(t, picture.RateFigure(picture.RateView{ID: "r", Label: "x", Made: 9, Of: 3, Low: -2, High: 7, Target: nan}))
	if strings.Contains(source, "NaN") {
		t.Error("NaN is drawn")
	}
	band := root.one(t, "rect", "pic-band")
	if band.attr["x"] != "0%" || band.attr["width"] != "100%" || root.one(t, "svg", "pic-seen").attr["x"] != "100%" {
		t.Errorf("drawn outside the bar: %v", band.attr)
	}
	_, empty := draw(t, picture.RateFigure(picture.RateView{ID: "r", Label: "x", Low: 0, High: 1})) // what was not watched may be anything
	if len(empty.find("", "pic-seen"))+len(empty.find("", "pic-band"))+len(empty.find("", "pic-goal")) != 0 {
		t.Error("an empty bar has marks")
	}
}

func TestSpark_JoinsOnlySetsUnderOneSetup(t *testing.T) {
	_, root := draw(t, picture.SparkSVG(picture.SparkView{ID: "s", Label: "x", Sets: []picture.SetRate{
		{Made: 0, Of: 10}, {Made: 10, Of: 10}, {Made: 5, Of: 10, NewSetup: true}, {Made: 5, Of: 10}}}))
	if d := root.one(t, "path", "pic-join").attr["d"]; d != "M125 52L375 8M625 30L875 30" {
		t.Errorf("the sets are joined by %s", d)
	}
	if d := root.one(t, "path", "pic-set").attr["d"]; d != "M125 52h0M375 8h0M625 30h0M875 30h0" {
		t.Errorf("the sets are drawn at %s", d)
	}
	if change := root.one(t, "line", "pic-change").attr["x1"]; change != "50%" {
		t.Errorf("the change is drawn at %s", change)
	}
}

// A line alone would have nowhere to go.
func TestSpark_OneSetASetupHasNoLine(t *testing.T) {
	_, root := draw(t, picture.SparkSVG(picture.SparkView{ID: "s", Label: "x", Sets: []picture.SetRate{
		{Made: 1, Of: 10}, {Made: 2, Of: 10, NewSetup: true}, {Made: 3, Of: 10, NewSetup: true}}}))
	if n := len(root.find("path", "pic-join")); n != 0 {
		t.Errorf("%d lines, want none between three setups", n)
	}
}

func TestSpark_CountsStandBesideUnevenSets(t *testing.T) {
	source, _ := draw(t, picture.SparkSVG(picture.SparkView{ID: "s", Label: "x", Sets: []picture.SetRate{{Made: 3, Of: 10}, {Made: 2, Of: 7}, {Made: 4, Of: 10}}}))
	for _, words := range []string{">3<", ">2/7<", ">4<"} {
		if !strings.Contains(source, words) {
			t.Errorf("not the set that is otherwise says its breaks, and it alone: no %s in\n%s", words, source)
		}
	}
}

// The dots, the curve and its band share one scale: a tried place on the curve
// lies on it.
func TestCurve_DotsLieOnTheCurve(t *testing.T) {
	c := picture.CurveView{ID: "c", Label: "x", Kind: table.NineFoot(),
		Places: []table.Inches{-20, -15, -10}, Mean: []float64{0.2, 0.5, 0.4}, Low: []float64{0.1, 0.4, 0.3}, High: []float64{0.3, 0.6, 0.5},
		Tried: []picture.TriedPlace{{Place: -20, Made: 1, Of: 5}, {Place: -15, Made: 10, Of: 20}, {Place: -10, Made: 2, Of: 5}}}
	_, root := draw(t, picture.CurveSVG(c))
	mean := numbers(t, root.one(t, "path", "pic-mean-line").attr["d"])
	band := numbers(t, root.one(t, "path", "pic-band").attr["d"])
	dots := root.one(t, "g", "pic-tried").find("circle", "")
	for i, dot := range dots {
		x, y := numbers(t, dot.attr["cx"])[0]*10, numbers(t, dot.attr["cy"])[0]
		if math.Abs(x-mean[2*i]) > 0.51 || math.Abs(y-mean[2*i+1]) > 0.06 {
			t.Errorf("dot %d at %v,%v, the curve at %v,%v", i, x, y, mean[2*i], mean[2*i+1])
		}
		if high := band[2*i+1]; high >= y {
			t.Errorf("the band's upper edge %v is not above the curve %v", high, y)
		}
	}
	// Twenty breaks against five: four times the area, less the dot's own edge.
	small, large := numbers(t, dots[0].attr["r"])[0], numbers(t, dots[1].attr["r"])[0]
	if large <= small*1.4 {
		t.Errorf("20 breaks are drawn %v large, 5 are %v", large, small)
	}
}

// The name of the present place stands above it, where a rate of the grid would run
// into it at the left.
func TestCurve_RatesMakeRoomForThePresentPlace(t *testing.T) {
	for now, anchor := range map[table.Inches]string{-20: "end", -10: ""} {
		c := picture.CurveView{ID: "c", Label: "x", Kind: table.NineFoot(), Now: &now,
			Places: []table.Inches{-20, -15, -10}, Mean: []float64{0.2, 0.5, 0.4}, Low: []float64{0.1, 0.4, 0.3}, High: []float64{0.3, 0.6, 0.5}}
		_, root := draw(t, picture.CurveSVG(c))
		for _, rate := range root.one(t, "g", "pic-grid-no").find("text", "") {
			if got := rate.attr["text-anchor"]; got != anchor {
				t.Errorf("now at %v in: a rate of the grid is anchored %q, want %q", now, got, anchor)
			}
		}
	}
}

func TestCurve_UnevenListsDrawNothing(t *testing.T) {
	_, root := draw(t, picture.CurveSVG(picture.CurveView{ID: "c", Label: "x", Kind: table.NineFoot(),
		Places: []table.Inches{-20, -10}, Mean: []float64{0.5}, Low: []float64{0.1}, High: []float64{0.9, 0.9}}))
	if d := root.one(t, "path", "pic-mean-line").attr["d"] + root.one(t, "path", "pic-band").attr["d"]; d != "" {
		t.Errorf("drawn from lists of different length: %s", d)
	}
}
