package plate

import (
	"fmt"
	"math"

	"breakwright/internal/breaksim"
	"breakwright/internal/drill"
	"breakwright/internal/rack"
	"breakwright/internal/table"
	"breakwright/web/picture"
)

// ComputeBreak returns a break of the model on this kind of table, with paths.
func ComputeBreak(k table.Kind) breaksim.BreakResult {
	t, err := breaksim.NewTable(breaksim.Defaults(), k)
	if err != nil {
		panic(fmt.Sprintf("plate: %v", err))
	}
	r, err := t.ComputeBreak(breaksim.BreakInput{Game: rack.NineBall, Cue: table.Place{X: -k.Width() * drill.UsualWidthShare, Y: k.HeadString()},
		Tip: -0.1, Speed: drill.UsualSpeed, Paths: true}, nil)
	if err != nil {
		panic(fmt.Sprintf("plate: %v", err))
	}
	return r
}

// playPlates are pictures of computed breaks.
func playPlates() []Plate {
	nine := table.NineFoot()
	v := picture.NewPlayView("play", ComputeBreak(nine), rack.NineBall.WingSlot(table.Left), nine)
	v.Title = "One break"
	v.Stills = []float64{0, 0.25, 1, v.Seconds}
	window := nine.StandardWindow()
	cue := picture.CrowdView{ID: "crowd-cue", Kind: nine, Title: "Cue ball", Window: &window, Of: 60,
		Down: []picture.PocketCount{{Pocket: table.HeadLeft, Count: 4}, {Pocket: table.SideRight, Count: 1}}}
	for i := range 55 {
		turn := float64(i) * 2.4
		r := 2.4 * math.Sqrt(float64(i))
		cue.Places = append(cue.Places, table.Place{X: table.Inches(-2 + r*math.Cos(turn)), Y: table.Inches(36 + 1.4*r*math.Sin(turn))})
	}
	cue.Areas = []picture.CrowdArea{{Share: 0.9, Loops: [][]table.Place{loopPlaces(17)}}, {Share: 0.5, Loops: [][]table.Place{loopPlaces(12), loopPlaces(-5)}}}
	two := cue
	two.ID, two.Title, two.Ball, two.Window = "crowd-two", "The 2", 2, nil
	return []Plate{
		{"play", picture.PlaySVG(v)}, {"play-stills", picture.PlayStills(v)}, {"play-key", picture.PlayLegend(v)},
		{"crowd-cue", picture.CrowdFigure(cue)}, {"crowd-two", picture.CrowdFigure(two)}, {"crowd-key", picture.CrowdLegend(true)},
	}
}

// loopPlaces is a loop; a negative radius runs the other way.
func loopPlaces(radius float64) []table.Place {
	var loop []table.Place
	for i := range 40 {
		turn := float64(i) * math.Pi / 20
		loop = append(loop, table.Place{X: table.Inches(-2 + math.Abs(radius)*math.Cos(turn)), Y: table.Inches(36 + 1.4*radius*math.Sin(turn))})
	}
	return loop
}
