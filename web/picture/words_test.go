package picture_test

import (
	"fmt"
	"strings"
	"testing"

	"breakwright/internal/rack"
	"breakwright/internal/say"
	"breakwright/internal/table"
	"breakwright/web/picture"
)

func ExampleDescribeTable() {
	k := table.NineFoot()
	w := k.StandardWindow()
	view := picture.TableView{ID: "set", Kind: k, Window: &w, Cue: &picture.CueBall{Place: table.Place{X: -18, Y: 25}}}
	for n := 1; n <= 6; n++ {
		view.Stops = append(view.Stops, picture.Stop{Break: n, Place: table.Place{X: table.Inches(n), Y: 40}})
	}
	for n := 7; n <= 10; n++ {
		view.Stops = append(view.Stops, picture.Stop{Break: n, Place: table.Place{X: table.Inches(n), Y: 70}})
	}
	fmt.Println(strings.ReplaceAll(picture.DescribeTable(view, say.InchesAndMiles), ". ", ".\n"))
	// Output:
	// Nine-foot table, the head end at the bottom.
	// Cue ball about 1½ diamonds (18 in) left of the middle, on the head string.
	// Cue ball stopped in the window 6 of 10; four stopped outside it in the foot half.
}

func ExampleDescribeRack() {
	view := picture.RackView{ID: "r", Game: rack.NineBall, Order: rack.NineBall.PracticeOrder(table.Left), Wing: "3L"}
	fmt.Println(strings.ReplaceAll(picture.DescribeRack(view), ". ", ".\n"))
	// Output:
	// Head ball at the bottom, each row from left to right.
	// Row 1: the 1.
	// Row 2: the 3, the 2.
	// Row 3: the 8, the 9, the 5.
	// Row 4: the 6, the 4.
	// Row 5: the 7.
	// The wing ball is the 8, in slot 3L.
}

func TestDescribeTable_Parts(t *testing.T) {
	k := table.NineFoot()
	w := k.StandardWindow()
	for _, c := range []struct {
		name string
		view picture.TableView
		want string
	}{
		{"scratches", picture.TableView{Kind: k, Window: &w,
			Scratches: []picture.Scratch{{Break: 1, Pocket: table.SideRight}, {Break: 2, Pocket: table.SideRight}, {Break: 3, Pocket: table.HeadLeft}},
			Off:       []int{4}, Stops: []picture.Stop{{Break: 5, Place: table.Place{Y: 10}}}},
			"Cue ball stopped in the window 0 of 5; one stopped outside it in the head half, three scratched, in the left head corner and the right side pocket 2 times and one left the table."},
		{"all in the window", picture.TableView{Kind: k, Window: &w, Stops: []picture.Stop{{Break: 1, Place: table.Place{Y: 40}}}},
			"Cue ball stopped in the window 1 of 1."},
		{"no window", picture.TableView{Kind: k, Stops: []picture.Stop{{Break: 1, Place: table.Place{Y: 40}}}},
			"Cue ball stopped on the table 1 of 1; one stopped in the head half."},
		{"behind the string", picture.TableView{Kind: k, Cue: &picture.CueBall{Place: table.Place{X: 1, Y: 21}}},
			"Cue ball 1 inch right of the middle, about ¼ diamond (4 in) behind the head string."},
		{"on the long string", picture.TableView{Kind: k, Cue: &picture.CueBall{Place: table.Place{Y: 26.5}}},
			"Cue ball in the middle, 1.5 inches past the head string."},
		{"aim", picture.SetupTable("s", cut(), k),
			"It meets the head ball 0.4 inches left of full; the line runs on to the 4 at the rear."},
		{"wing", picture.SetupTable("s", cut(), k),
			"Nine-ball rack, head ball on the foot spot, the 8 is the wing ball and goes to the right foot corner."},
		{"before", picture.TableView{Kind: k, Window: &w, Before: &picture.CueBall{Place: table.Place{X: -16, Y: 25}},
			Earlier: []table.Place{{Y: 40}, {Y: 80}}},
			"Before the change it stood about 1¼ diamonds (16 in) left of the middle, on the head string."},
		{"earlier", picture.TableView{Kind: k, Window: &w, Earlier: []table.Place{{Y: 40}, {Y: 80}}},
			"Before the change, shown as small rings, it stopped in the window 1 of 2 stops."},
		{"window", picture.TableView{Kind: k, Window: &table.Window{Left: -10, Right: 12, Head: 20, Foot: 45}},
			"The cue ball should stop in the light window: from 20 to 45 inches from the head rail, and from 10 in left to 12 in right."},
		{"balls", picture.TableView{Kind: k, Balls: []picture.RestBall{{Ball: 2, Place: table.Place{Y: 85}}}},
			"Balls stopped: the 2 foot end, middle."},
		{"seven feet", picture.TableView{Kind: table.SevenFoot()}, "Seven-foot table"},
	} {
		if got := picture.DescribeTable(c.view, say.InchesAndMiles); !strings.Contains(got, c.want) {
			t.Errorf("%s:\n got %s\nwant %s", c.name, got, c.want)
		}
	}
}

func TestDescribe_StrokeAndCharts(t *testing.T) {
	now := table.Inches(-15)
	for _, c := range []struct{ got, want string }{
		{picture.DescribeTip(picture.TipView{Tip: -0.1}), "Strike 0.1 of the radius below centre, no side."},
		{picture.DescribeTip(picture.TipView{Tip: 0.6, Spin: -0.25}), "Strike 0.6 of the radius above centre, 0.25 left side. That is outside the dashed circle: a miscue is likely."},
		{picture.DescribeTip(picture.TipView{Before: &picture.TipPlace{Tip: -0.3}}), "Strike centre, no side. Before the change: 0.3 of the radius below centre, no side."},
		{picture.DescribeContact(picture.ContactView{}, say.InchesAndMiles), "Cue ball and the 1 in line: a full hit."},
		{picture.DescribeContact(picture.ContactView{Contact: -0.5625}, say.InchesAndMiles), "The cue ball meets the 1 0.56 inches left of full; it covers 75 percent of its width, on the left."},
		{picture.DescribeRate(picture.RateView{Label: "Wing ball", Made: 7, Of: 30, Low: 0.11, High: 0.4, Target: 0.5}),
			"Wing ball: 7 of 30. The band runs from 11 to 40 percent. The target is 50 percent."},
		{picture.DescribeRate(picture.RateView{Label: "Wing ball"}), "Wing ball: not watched."},
		{picture.DescribeSpark(picture.SparkView{Label: "Wing ball", Sets: []picture.SetRate{{Made: 2, Of: 10}, {Made: 5, Of: 8, NewSetup: true}}}),
			"Wing ball, set by set: 2 of 10, then with a new setup 5 of 8."},
		{picture.DescribeSpark(picture.SparkView{Label: "Wing ball"}), "Wing ball: no sets yet."},
		{picture.DescribeCurve(picture.CurveView{Level: 0.95, Label: "Wing ball", Places: []table.Inches{-20, -10}, Mean: []float64{0.4, 0.2},
			Low: []float64{0.25, 0.1}, High: []float64{0.55, 0.3}, Tried: []picture.TriedPlace{{Place: -15, Made: 4, Of: 10}}, Now: &now}, say.InchesAndMiles),
			"15 inches left of the middle: 4 of 10. The curve is highest 20 inches left of the middle, between 25 and 55 percent; the band is where the true rate may lie, 95 %. Now: 15 inches left of the middle."},
	} {
		if !strings.HasSuffix(c.got, c.want) {
			t.Errorf("\n got %s\nwant %s", c.got, c.want)
		}
	}
}

func TestKeys_NameOnlyWhatIsDrawn(t *testing.T) {
	for _, view := range []picture.TableView{{ID: "a", Kind: table.NineFoot()}, {ID: "b", Kind: table.NineFoot(), Off: []int{1}, Tappable: true}} {
		if key := picture.TableLegend(view); len(key) != 0 {
			t.Errorf("%s has a key: %v", view.ID, key)
		}
	}
	var words []string
	for _, item := range picture.TableLegend(picture.SetupTable("s", cut(), table.NineFoot())) {
		words = append(words, item.Words)
	}
	want := "cue ball; aim, and on through the rack; shoot through to the 4; wing ball, the 8, to its corner"
	if got := strings.Join(words, "; "); got != want {
		t.Errorf("key %q, want %q", got, want)
	}
}
