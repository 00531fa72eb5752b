package picture_test

import (
	"fmt"
	"math"
	"slices"
	"testing"

	"breakwright/internal/drill"
	"breakwright/internal/rack"
	"breakwright/internal/table"
	"breakwright/web/picture"
	"breakwright/web/picture/plate"
)

func kinds() []table.Kind {
	return []table.Kind{table.NineFoot(), table.EightFoot(), table.SevenFoot(),
		{Feet: 9, CornerMouth: 4, SideMouth: 4.75}, {Feet: 7, CornerMouth: 5, SideMouth: 5.5}}
}

func TestTable_CushionsLeaveThePocketMouths(t *testing.T) {
	for _, k := range kinds() {
		_, svg := draw(t, picture.TableSVG(picture.TableView{ID: "a", Kind: k}))
		cushions := subpaths(t, svg.one(t, "path", "pic-cushion").attr["d"])
		if len(cushions) != 6 {
			t.Fatalf("%v: %d cushions, want 6", k, len(cushions))
		}
		var tips []table.Place
		for _, c := range cushions {
			tips = append(tips, c[0], c[1])
		}
		for _, p := range table.Pockets() {
			first, second := k.JawTips(p)
			for _, jaw := range []table.Place{first, second} {
				if !slices.ContainsFunc(tips, func(tip table.Place) bool { return same(tip, jaw) }) {
					t.Errorf("%v: no cushion ends at %v, a jaw of %s", k, jaw, p)
				}
			}
		}
	}
}

// The angles between nose and facing are 142 degrees at the corners and 104 at
// the sides (WPA table and equipment specification, s.9).
func TestTable_FacingsHaveTheirAngles(t *testing.T) {
	_, svg := draw(t, picture.TableSVG(picture.TableView{ID: "a", Kind: table.NineFoot()}))
	var corners, sides int
	for _, c := range subpaths(t, svg.one(t, "path", "pic-cushion").attr["d"]) {
		for _, angle := range []float64{angleAt(c[1], c[0], c[3]), angleAt(c[0], c[1], c[2])} {
			switch {
			case math.Abs(angle-142) < 0.2:
				corners++
			case math.Abs(angle-104) < 0.2:
				sides++
			default:
				t.Errorf("a facing at %.2f degrees", angle)
			}
		}
	}
	if corners != 8 || sides != 4 {
		t.Errorf("%d corner facings and %d side facings, want 8 and 4", corners, sides)
	}
}

func angleAt(a, tip, b table.Place) float64 {
	one := math.Atan2(float64(a.Y-tip.Y), float64(a.X-tip.X))
	two := math.Atan2(float64(b.Y-tip.Y), float64(b.X-tip.X))
	degrees := math.Abs(one-two) * 180 / math.Pi
	return min(degrees, 360-degrees)
}

// Eighteen sights, 12.5 in apart on a 9-foot and 11.5 in on an 8-foot table,
// 3 11/16 in from the nose (WPA table and equipment specification, s.6).
func TestTable_SightsStandWhereTheSpecificationPutsThem(t *testing.T) {
	for _, c := range []struct {
		kind  table.Kind
		apart table.Inches
	}{{table.NineFoot(), 12.5}, {table.EightFoot(), 11.5}} {
		_, svg := draw(t, picture.TableSVG(picture.TableView{ID: "a", Kind: c.kind}))
		var ys, xs []table.Inches
		for _, sight := range subpaths(t, svg.one(t, "path", "pic-sight").attr["d"]) {
			p := sight[0]
			onSide := absInches(absInches(p.X)-c.kind.Width()/2-3.6875) <= drawn
			beyondHead, beyondFoot := absInches(-p.Y-3.6875) <= drawn, absInches(p.Y-c.kind.Length()-3.6875) <= drawn
			switch {
			case onSide && p.X < 0:
				ys = append(ys, p.Y)
			case beyondFoot:
				xs = append(xs, p.X)
			case !onSide && !beyondHead:
				t.Errorf("%v: a sight at %v", c.kind, p)
			}
		}
		slices.Sort(ys)
		slices.Sort(xs)
		d := c.apart
		wantY := []table.Inches{d, 2 * d, 3 * d, 5 * d, 6 * d, 7 * d}
		if !near(ys, wantY) || !near(xs, []table.Inches{-d, 0, d}) {
			t.Errorf("%v: left rail %v, foot rail %v", c.kind, ys, xs)
		}
		if n := len(subpaths(t, svg.one(t, "path", "pic-sight").attr["d"])); n != 18 {
			t.Errorf("%v: %d sights, want 18", c.kind, n)
		}
	}
}

func near(got, want []table.Inches) bool {
	return slices.EqualFunc(got, want, func(a, b table.Inches) bool { return absInches(a-b) <= drawn })
}

func absInches(x table.Inches) table.Inches { return max(x, -x) }

func TestTable_BallsStandInTheirSlots(t *testing.T) {
	for _, g := range rack.Games() {
		for _, spot := range g.Spots() {
			for _, k := range kinds() {
				order := g.PracticeOrder(table.Left)
				_, svg := draw(t, picture.TableSVG(picture.TableView{ID: "a", Kind: k,
					Rack: &picture.RackedBalls{Game: g, Spot: spot, Order: order}}))
				drawnAt := map[string]table.Place{}
				for _, b := range svg.find("g", "pic-ball") {
					drawnAt[b.attr["data-ball"]] = b.centre(t)
				}
				if len(drawnAt) != g.BallCount() {
					t.Errorf("%s: %d balls", g, len(drawnAt))
				}
				for _, slot := range g.Slots() {
					ball, _ := order.BallAt(g, slot)
					want, _ := g.SlotPlace(slot, spot, k)
					if got := drawnAt[ball.String()]; !same(got, want) {
						t.Errorf("%s on %v: the %s is drawn at %v, slot %s is at %v", g, k, ball, got, slot, want)
					}
				}
			}
		}
	}
}

// A ball of 2 1/4 in (WPA table and equipment specification, s.16), its ring
// included.
func TestTable_BallsAreToScale(t *testing.T) {
	_, svg := draw(t, picture.TableSVG(setupView()))
	for _, c := range append(svg.find("circle", "pic-cue"), svg.find("circle", "pic-ring")...) {
		if d := 2*c.inches(t, "r") + c.inches(t, "stroke-width"); absInches(d-2.25) > drawn*2 {
			t.Errorf("a ball %v in across", d)
		}
	}
}

func setupView() picture.TableView {
	k := table.NineFoot()
	return picture.SetupTable("s", drill.StandardSetup(rack.NineBall, table.Left, k), k)
}

func TestTable_MarksStandAtTheirPlaces(t *testing.T) {
	k := table.EightFoot()
	w := table.Window{Left: -11, Right: 9.25, Head: 21, Foot: 44.5}
	view := picture.TableView{ID: "m", Kind: k, Window: &w,
		Cue:     &picture.CueBall{Place: table.Place{X: -16.25, Y: 19.5}},
		Before:  &picture.CueBall{Place: table.Place{X: -12, Y: 23}},
		Earlier: []table.Place{{X: 7.77, Y: 61.5}},
		Stops:   []picture.Stop{{Break: 1, Place: table.Place{X: 3.21, Y: 40.04}}, {Break: 2, Place: table.Place{X: -8, Y: 77}}},
		Balls:   []picture.RestBall{{Ball: 2, Place: table.Place{X: 20.5, Y: 12.34}}},
		Mean:    &picture.Ellipse{Centre: table.Place{X: 1, Y: 50}, Major: 12.5, Minor: 6},
	}
	_, svg := draw(t, picture.TableSVG(view))
	stops := svg.one(t, "g", "pic-stop").find("circle", "")
	for _, c := range []struct {
		what string
		got  *node
		want table.Place
	}{
		{"cue ball", svg.one(t, "circle", "pic-cue"), view.Cue.Place},
		{"cue ball before", svg.one(t, "g", "pic-before").one(t, "circle", ""), view.Before.Place},
		{"earlier stop", svg.one(t, "circle", "pic-earlier"), view.Earlier[0]},
		{"first stop", stops[0], view.Stops[0].Place},
		{"second stop", stops[1], view.Stops[1].Place},
		{"rest ball", svg.one(t, "g", "pic-rest"), view.Balls[0].Place},
	} {
		if got := c.got.centre(t); !same(got, c.want) {
			t.Errorf("%s drawn at %v, is at %v", c.what, got, c.want)
		}
	}
	r := svg.one(t, "rect", "pic-window")
	left, foot := r.inches(t, "x"), -r.inches(t, "y")
	got := table.Window{Left: left, Right: left + r.inches(t, "width"), Head: foot - r.inches(t, "height"), Foot: foot}
	if absInches(got.Left-w.Left)+absInches(got.Right-w.Right)+absInches(got.Head-w.Head)+absInches(got.Foot-w.Foot) > 4*drawn {
		t.Errorf("window drawn at %v, is %v", got, w)
	}
	e := svg.one(t, "ellipse", "pic-mean")
	if absInches(e.inches(t, "rx")-12.5) > drawn || absInches(e.inches(t, "ry")-6) > drawn {
		t.Errorf("ellipse of %s by %s", e.attr["rx"], e.attr["ry"])
	}
}

func TestTable_ScratchesAreMarkedAtTheirPocket(t *testing.T) {
	k := table.NineFoot()
	for _, p := range table.Pockets() {
		_, svg := draw(t, picture.TableSVG(picture.TableView{ID: "a", Kind: k,
			Scratches: []picture.Scratch{{Break: 7, Pocket: p}}}))
		mark := svg.one(t, "g", "pic-lost")
		at := subpaths(t, mark.one(t, "path", "").attr["d"])[0][0]
		if far := at.Distance(k.CornerPoint(p)); far > 2.5 {
			t.Errorf("%s: marked %v in from the pocket", p, far)
		}
		if mark.one(t, "text", "").text != "7" {
			t.Errorf("%s: number %q", p, mark.one(t, "text", "").text)
		}
	}
}

func TestTable_ManyScratchesInOnePocketStayApart(t *testing.T) {
	view := picture.TableView{ID: "a", Kind: table.SevenFoot()}
	for n := range 10 {
		view.Scratches = append(view.Scratches, picture.Scratch{Break: n + 1, Pocket: table.SideLeft})
	}
	_, svg := draw(t, picture.TableSVG(view))
	var seen []table.Place
	for _, p := range svg.one(t, "g", "pic-lost").find("path", "") {
		at := subpaths(t, p.attr["d"])[0][0]
		for _, other := range seen {
			if at.Distance(other) < 2.7 {
				t.Errorf("marks at %v and %v hide each other", at, other)
			}
		}
		if at.Y < 0 || at.Y > 78 {
			t.Errorf("a mark at %v, beside the table", at)
		}
		seen = append(seen, at)
	}
}

func TestTable_MirroredViewIsTheMirrorImage(t *testing.T) {
	for _, view := range plate.ListTableViews() {
		_, original := draw(t, picture.TableSVG(view))
		_, image := draw(t, picture.TableSVG(mirrorView(view)))
		want, got := shapes(t, original, -1), shapes(t, image, 1)
		if len(got) < 30 {
			t.Fatalf("%s: only %d shapes compared", view.ID, len(got))
		}
		for i := range max(len(got), len(want)) {
			if i >= len(got) || i >= len(want) || got[i] != want[i] {
				t.Errorf("%s: shapes differ, first at %d of %d and %d:\n got %v\nwant %v", view.ID, i, len(got), len(want),
					got[min(i, len(got)-1)], want[min(i, len(want)-1)])
				break
			}
		}
	}
}

// shapes lists what is drawn where, x times sign, sorted.
func shapes(t *testing.T, svg *node, sign table.Inches) []string {
	var all []string
	add := func(n *node, p table.Place) {
		all = append(all, fmt.Sprintf("%s %s %s %.2f,%.2f", n.name, n.attr["class"], n.attr["data-ball"], sign*p.X+0, p.Y+0))
	}
	svg.all(func(n *node) {
		switch {
		case n.name == "circle" && n.attr["cx"] != "" || n.attr["data-ball"] != "":
			add(n, n.centre(t))
		case n.name == "ellipse":
			turned := numbers(t, n.attr["transform"]) // angle, and around what
			add(n, table.Place{X: n.inches(t, "cx"), Y: -n.inches(t, "cy")})
			add(n, table.Place{X: table.Inches(turned[0])})
		case n.name == "rect":
			add(n, table.Place{X: n.inches(t, "x") + n.inches(t, "width")/2, Y: -n.inches(t, "y")})
		case n.name == "path" && n.parent.attr["data-ball"] == "":
			for _, sub := range subpaths(t, n.attr["d"]) {
				for _, p := range sub {
					add(n, p)
				}
			}
		}
	})
	slices.Sort(all)
	return all
}

func TestTable_MirrorTwiceIsTheSame(t *testing.T) {
	for _, view := range plate.ListTableViews() {
		once, _ := draw(t, picture.TableSVG(view))
		twice, _ := draw(t, picture.TableSVG(mirrorView(mirrorView(view))))
		if once != twice {
			t.Errorf("%s: mirrored twice it is another picture", view.ID)
		}
	}
}
