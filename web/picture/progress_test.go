package picture_test

import (
	"math"
	"strings"
	"testing"

	"breakwright/internal/table"
	"breakwright/web/picture"
)

// Every place stands where it was, on every kind of table.
func TestCloud_DrawsEveryPlace(t *testing.T) {
	for _, k := range []table.Kind{table.SevenFoot(), table.NineFoot()} {
		places := []table.Place{{X: -3.5, Y: 41}, {X: 12.25, Y: 3.1}, {X: 0, Y: 77}, {X: -3.5, Y: 41}}
		window := k.StandardWindow()
		view := picture.CloudView{ID: "c", Title: "x", Kind: k, Places: places, Window: &window, InWindow: 2, Scratches: 3, Off: 1,
			Mean: &picture.Ellipse{Centre: table.Place{X: 1, Y: 40}, Major: 8, Minor: 4}, From: &table.Place{X: -18, Y: 25}}
		_, root := draw(t, picture.CloudSVG(view))
		dots := subpaths(t, root.one(t, "path", "pic-dots").attr["d"])
		if len(dots) != len(places) {
			t.Fatalf("%d dots for %d places", len(dots), len(places))
		}
		for i, p := range places {
			if !same(dots[i][0], p) {
				t.Errorf("place %v is drawn at %v", p, dots[i][0])
			}
		}
		if got := root.one(t, "circle", "pic-cue").centre(t); !same(got, *view.From) {
			t.Errorf("the cue ball stands at %v", got)
		}
		mean := root.one(t, "ellipse", "pic-mean")
		if math.Abs(float64(mean.inches(t, "rx")-8)) > 0.006 || math.Abs(float64(mean.inches(t, "ry")-4)) > 0.006 {
			t.Errorf("the scatter is drawn %v", mean.attr)
		}
		words := root.find("desc", "")[0].text
		for _, want := range []string{"in 8 breaks", "In the window: 2 of 8", "Scratches: 3 of 8", "Off the table: 1 of 8"} {
			if !strings.Contains(words, want) {
				t.Errorf("the picture's words %q say nothing of %q", words, want)
			}
		}
	}
}

// Rates, sums and limits of the chart are on their scales.
func TestControl_DrawsItsNumbers(t *testing.T) {
	set := func(made int, watched bool, low, high float64) picture.ControlSet {
		return picture.ControlSet{SetRate: picture.SetRate{Made: made, Of: 10}, Watched: watched, Low: low, High: high}
	}
	view := picture.ControlView{ID: "c", Label: "x", Usual: 0.5, Limit: 6,
		Sets: []picture.ControlSet{set(5, false, 0, 0), set(2, true, 2, 0), set(0, true, 6, 0), set(10, true, 0, 4)}}
	_, root := draw(t, picture.ControlSVG(view))
	usual := numbers(t, root.one(t, "line", "pic-goal-line").attr["y1"])[0]
	edges := root.find("line", "pic-edge")
	up, down := numbers(t, edges[0].attr["y1"])[0], numbers(t, edges[1].attr["y1"])[0]
	if middle := (up + down) / 2; middle != 128 || usual != 42 {
		t.Errorf("the usual rate is drawn at %v, the sums stand on %v", usual, middle)
	}
	dots, lows, highs := root.find("circle", "pic-rate-dot"), root.find("rect", "pic-sum-low"), root.find("rect", "pic-sum-high")
	if len(dots) != 3 || len(lows) != 3 || len(root.find("circle", "pic-usual-dot")) != 1 {
		t.Fatalf("%d dots, %d bars", len(dots), len(lows))
	}
	for i, want := range view.Sets[1:] {
		if y := numbers(t, dots[i].attr["cy"])[0]; math.Abs(y-(76-68*float64(want.Made)/10)) > 0.06 {
			t.Errorf("%d of 10 is drawn at %v", want.Made, y)
		}
		unit := (down - up) / 2 / 6 // pixels a make
		low, high := numbers(t, lows[i].attr["height"])[0], numbers(t, highs[i].attr["height"])[0]
		if math.Abs(low-unit*want.Low) > 0.11 || math.Abs(high-unit*want.High) > 0.11 {
			t.Errorf("sums %v and %v are drawn %v and %v long, %v px a make", want.Low, want.High, low, high, unit)
		}
	}
}

// What was tried is read from top to bottom on one scale: every row has its count,
// and its outcome as a shape and in words.
func TestTried_DrawsRowsOnOneScale(t *testing.T) {
	view := picture.TriedView{ID: "t", Label: "Wing ball", Rows: []picture.TriedRow{
		{When: "5 May", Words: "Speed 18 → 16 mph", Rate: picture.RateView{ID: "a", Label: "Wing ball", Made: 6, Of: 10}, Outcome: picture.TriedHelped, OutcomeWords: "it helped"},
		{When: "1 May", Words: "First setup", Rate: picture.RateView{ID: "b", Label: "Wing ball", Made: 2, Of: 20}},
	}}
	_, root := draw(t, picture.TriedFigure(view))
	seen := root.find("svg", "pic-seen")
	if len(seen) != 2 || seen[0].attr["x"] != "60%" || seen[1].attr["x"] != "10%" {
		t.Fatalf("the rates are drawn at %v", seen)
	}
	if n := len(root.find("span", "pic-helped")); n != 1 {
		t.Errorf("%d outcomes that helped", n)
	}
	marks := root.find("text", "pic-axis-no")
	for i, want := range []string{"0%", "20%", "40%", "60%", "80%", "100%"} {
		if marks[i].attr["x"] != want {
			t.Errorf("the scale's mark %d stands at %s, want %s", i, marks[i].attr["x"], want)
		}
	}
}
