// Package plate holds invented pictures, one or more of each kind, for the
// gallery and for the tests of package picture. Nobody's breaks are in it.
package plate

import (
	"math"

	"github.com/a-h/templ"

	"breakwright/internal/drill"
	"breakwright/internal/rack"
	"breakwright/internal/table"
	"breakwright/web/picture"
)

// Plate is a picture with its name, which is its ID too where it has one.
type Plate struct {
	Name    string
	Picture templ.Component
}

// ListPlates lists every plate.
func ListPlates() []Plate {
	var all []Plate
	for _, t := range ListTableViews() {
		all = append(all, Plate{t.ID, picture.TableFigure(t)})
	}
	return append(append(append(all, rackPlates()...), chartPlates()...), playPlates()...)
}

// ListTableViews are the whole tables.
func ListTableViews() []picture.TableView {
	nine := table.NineFoot()
	left := drill.StandardSetup(rack.NineBall, table.Left, nine)
	window := nine.StandardWindow()

	setup := picture.DrillTable("setup-left", drill.Drill{Kind: nine, Setup: left, Window: window})
	cut := left.Mirror()
	cut.Contact, cut.Cue.Y = -0.4, 21
	right := picture.SetupTable("cut-right", cut, nine)
	right.DiamondNumbers = true
	boxed := picture.SetupTable("break-box", left, nine)
	boxed.Cue.Place.X, boxed.Box = -8, 8

	after := picture.BreaksTable("ten-breaks", tenBreaks(), window, nine)
	after.Mean = &picture.Ellipse{Centre: table.Place{X: -3, Y: 38}, Major: 15, Minor: 9, AngleRadians: 0.6}

	moved := picture.SetupTable("moved", left, nine)
	moved.Before = &picture.CueBall{Place: table.Place{X: -13, Y: 25}}
	moved.Earlier = []table.Place{{X: 4, Y: 60}, {X: 9, Y: 71}, {X: -12, Y: 55}, {X: 2, Y: 44}, {X: -7, Y: 83}}
	moved.Window = &window

	seven := table.Kind{Feet: 7, CornerMouth: 5, SideMouth: 5.5}
	eight := picture.SetupTable("eight-ball-seven-foot", drill.StandardSetup(rack.EightBall, table.Right, seven), seven)

	rest := picture.TableView{ID: "balls-and-path", Kind: nine, Window: &window,
		Balls: []picture.RestBall{{Ball: 1, Place: table.Place{X: 12, Y: 33}}, {Ball: 2, Place: table.Place{X: -17, Y: 41}},
			{Ball: 3, Place: table.Place{X: 6, Y: 62}}, {Ball: 6, Place: table.Place{X: -20, Y: 70}}, {Ball: 14, Place: table.Place{X: 18, Y: 88}}},
		Stops: []picture.Stop{{Break: 4, Place: table.Place{X: -4, Y: 36}}},
		Paths: []picture.Path{{Places: []table.Place{{X: -18, Y: 25}, {X: -1.5, Y: 73}, {X: -8, Y: 1.1}, {X: -4, Y: 36}}}},
	}
	tap := picture.TableView{ID: "tappable", Kind: nine, Window: &window, Tappable: true}
	eightFoot := picture.SetupTable("ten-ball-eight-foot", drill.StandardSetup(rack.TenBall, table.Left, table.EightFoot()), table.EightFoot())
	return []picture.TableView{setup, after, right, moved, eight, eightFoot, rest, tap, boxed, {ID: "bare", Kind: nine}}
}

func tenBreaks() []drill.Break {
	stop := func(x, y table.Inches) drill.CueEnd {
		return drill.CueEnd{How: drill.Stopped, Place: table.Place{X: x, Y: y}}
	}
	scratch := func(p table.Pocket) drill.CueEnd { return drill.CueEnd{How: drill.Scratched, Scratch: p} }
	ends := []drill.CueEnd{
		stop(-4, 36), stop(3, 41), stop(-9, 30), stop(1.2, 40), scratch(table.SideRight),
		stop(14, 72), stop(-6, 33), stop(-1, 47), scratch(table.SideRight), {How: drill.OffTable},
	}
	breaks := make([]drill.Break, len(ends))
	for i, e := range ends {
		breaks[i] = drill.Break{Number: i + 1, Cue: e}
	}
	return breaks
}

func rackPlates() []Plate {
	nine := rack.NineBall.PracticeOrder(table.Left)
	editor := picture.RackView{ID: "rack-edit", Game: rack.NineBall, Order: nine, Wing: "3L", SlotNames: true,
		Editable: true, Selected: []rack.Slot{"2L"}}
	return []Plate{
		{"rack", picture.RackFigure(picture.RackView{ID: "rack", Game: rack.NineBall, Order: nine, Wing: "3L", Target: "4R"})},
		{"rack-edit", picture.RackFigure(editor)},
		{"rack8", picture.RackFigure(picture.RackView{ID: "rack8", Game: rack.EightBall,
			Order: rack.EightBall.PracticeOrder(table.Right), Wing: rack.EightBall.WingSlot(table.Right), SlotNames: true})},
		{"rack10", picture.RackFigure(picture.RackView{ID: "rack10", Game: rack.TenBall,
			Order: rack.TenBall.PracticeOrder(table.Left), Wing: "4L"})},
		{"tip", picture.TipFigure(picture.TipView{ID: "tip", Tip: -0.2, Spin: 0.1, Before: &picture.TipPlace{Tip: -0.1}})},
		{"contact", picture.ContactFigure(picture.ContactView{ID: "contact", Contact: 0.4})},
		{"contact-full", picture.ContactFigure(picture.ContactView{ID: "contact-full"})},
	}
}

func chartPlates() []Plate {
	wing := picture.RateView{ID: "rate", Label: "Wing ball in its corner", Made: 7, Of: 30, Low: 0.11, High: 0.4, Target: 0.5}
	cue := picture.RateView{ID: "rate2", Label: "Cue ball in the window", Made: 19, Of: 30, Low: 0.455, High: 0.785, Target: 0.5}
	none := picture.RateView{ID: "rate0", Label: "Shot on the lowest ball", Target: 0.4}
	before := picture.RateView{ID: "pair-before", Label: "Before", Made: 2, Of: 10, Low: 0.05, High: 0.5, Target: 0.5}
	after := picture.RateView{ID: "pair-after", Label: "After", Made: 11, Of: 20, Low: 0.34, High: 0.74, Target: 0.5}
	return []Plate{
		{"rate", picture.RateFigure(wing)}, {"rate2", picture.RateFigure(cue)}, {"share", picture.ShareFigure(picture.ShareView{ID: "share", Label: "The hit on the head ball", Share: 0.58})}, {"rate0", picture.RateFigure(none)},
		{"rate-key", picture.Legend(picture.RateLegend(wing))},
		{"pair", picture.PairFigure(picture.PairView{ID: "pair", Title: "Wing ball in its corner", Before: before, After: after})},
		{"spark", picture.SparkSVG(picture.SparkView{ID: "spark", Label: "Wing ball in its corner", Target: 0.5,
			Sets: []picture.SetRate{{Made: 2, Of: 10}, {Made: 1, Of: 10}, {Made: 3, Of: 10}, {Made: 5, Of: 10, NewSetup: true}, {Made: 6, Of: 10}, {Made: 4, Of: 10}}})},
		{"curve", picture.CurveFigure(curveView())},
		{"cloud", picture.CloudFigure(cloudView())},
		{"leave", picture.LeaveSVG(leaveView())},
		{"shot-map", picture.ShotMapFigure(shotMapView())},
		{"control", picture.ControlFigure(controlView())},
	}
}

func cloudView() picture.CloudView {
	nine := table.NineFoot()
	window, from := nine.StandardWindow(), table.Place{X: -18, Y: 25}
	c := picture.CloudView{ID: "cloud", Title: "Thirty breaks", Kind: nine, Window: &window, InWindow: 12, Scratches: 3, From: &from,
		Mean: &picture.Ellipse{Centre: table.Place{X: -2, Y: 42}, Major: 22, Minor: 11, AngleRadians: 1.1}}
	for i := range 27 {
		t := float64(i)
		c.Places = append(c.Places, table.Place{X: table.Inches(-2 + 9*math.Sin(2.4*t)), Y: table.Inches(42 + 0.8*t*math.Cos(2.4*t))})
	}
	return c
}

// controlView falls short of five in ten from the tenth set on.
func controlView() picture.ControlView {
	c := picture.ControlView{ID: "control", Label: "Wing ball in its corner, set by set", Usual: 0.5, Limit: 6}
	low, high := 0.0, 0.0
	for i, made := range []int{5, 6, 4, 5, 5, 4, 6, 5, 6, 4, 3, 2, 3, 2, 4} {
		set := picture.ControlSet{SetRate: picture.SetRate{Made: made, Of: 10, NewSetup: i == 9}, Watched: i >= 8}
		if set.Watched {
			low, high = max(0, low+4-float64(made)), max(0, high+float64(made)-6)
			set.Low, set.High = low, high
		}
		c.Sets = append(c.Sets, set)
	}
	return c
}

func curveView() picture.CurveView {
	now, next := table.Inches(-15), table.Inches(-18)
	c := picture.CurveView{ID: "curve", Label: "Wing ball in its corner", Kind: table.NineFoot(), Level: 0.95, Target: 0.5, Now: &now, Next: &next,
		Tried: []picture.TriedPlace{{Place: -10, Made: 1, Of: 10}, {Place: -15, Made: 7, Of: 20}, {Place: -20, Made: 4, Of: 10}}}
	for x := -22.75; x <= 0; x += 0.875 {
		mean := 0.45 * math.Exp(-(x+18)*(x+18)/90)
		sd := 0.06 + 0.003*math.Abs(x+15)*2
		c.Places = append(c.Places, table.Inches(x))
		c.Mean = append(c.Mean, mean)
		c.Low, c.High = append(c.Low, max(mean-2*sd, 0)), append(c.High, mean+2*sd)
	}
	return c
}
