package plate

import (
	"math"

	"breakwright/internal/table"
	"breakwright/web/picture"
)

func leaveView() picture.LeaveView {
	cue := table.Place{X: -6, Y: 40}
	return picture.LeaveView{
		ID: "leave", Title: "Break 3", Kind: table.NineFoot(), Cue: &cue,
		Balls: []picture.RestBall{{Ball: 2, Place: table.Place{X: 14, Y: 70}}, {Ball: 9, Place: table.Place{X: -8, Y: 80}}},
		Shot: &picture.ShotLine{
			Cue:  []table.Place{cue, {X: 13.1, Y: 67.9}},
			Ball: []table.Place{{X: 14, Y: 70}, {X: 24.2, Y: 98.8}},
		},
		Words: "An open shot on the 2 into the right foot corner, about 7 of 10.",
	}
}

// shotMapView is a hill of chances toward one foot corner.
func shotMapView() picture.ShotMapView {
	nine := table.NineFoot()
	now, better := nine.StandardWindow(), table.Window{Left: -12.5, Right: 18.75, Head: 37.5, Foot: 75}
	m := picture.ShotMapView{ID: "shot-map", Title: "Twenty leaves", Ball: "the lowest ball", Kind: nine, Window: &now, Better: &better}
	for i := range 16 {
		var row []float64
		for j := range 8 {
			row = append(row, 0.8*math.Exp(-(math.Pow(float64(i-9)/5, 2)+math.Pow(float64(j-5)/4, 2))))
		}
		m.Chance = append(m.Chance, row)
	}
	for i := range 20 {
		a := float64(i) * 2.4
		m.Places = append(m.Places, table.Place{X: table.Inches(6 + 12*math.Cos(a)), Y: table.Inches(72 + 18*math.Sin(1.7*a))})
	}
	return m
}
