package picture

import (
	"math/rand/v2"
	"testing"

	"breakwright/internal/table"
)

func TestSpread_MakesRoomAndNoMoreThanNeeded(t *testing.T) {
	rng := rand.New(rand.NewPCG(1, 2))
	k := table.NineFoot()
	w := k.StandardWindow()
	for range 200 {
		places := make([]table.Place, 10)
		for i := range places {
			places[i] = table.Place{
				X: w.Left + table.Inches(rng.Float64())*(w.Right-w.Left),
				Y: w.Head + table.Inches(rng.Float64())*(w.Foot-w.Head),
			}
		}
		marks := spreadMarks(places, k)
		for i, m := range marks {
			if m.Distance(places[i]) > 5 {
				t.Errorf("a mark moved %v in", m.Distance(places[i]))
			}
			alone := true
			for j := range marks {
				if i != j && m.Distance(marks[j]) < markGap-0.1 {
					t.Errorf("marks %v in apart", m.Distance(marks[j]))
				}
				if i != j && places[i].Distance(places[j]) < 3*markGap {
					alone = false
				}
			}
			if alone && m != places[i] {
				t.Errorf("a mark with room moved from %v to %v", places[i], m)
			}
		}
	}
}

func TestSpread_SameSpotAndMirror(t *testing.T) {
	k := table.NineFoot()
	places := []table.Place{{X: -24, Y: 2}, {X: -24, Y: 2}, {X: -24, Y: 2}, {X: 5, Y: 50}, {X: 6, Y: 51}}
	marks := spreadMarks(places, k)
	for i, p := range places {
		places[i] = p.Mirror()
	}
	for i, m := range spreadMarks(places, k) {
		if m != marks[i].Mirror() {
			t.Errorf("mark %d mirrored is %v, want %v", i, m, marks[i].Mirror())
		}
		if !k.OnCloth(m) {
			t.Errorf("mark %d left the cloth: %v", i, m)
		}
	}
	if marks[0].Distance(marks[1]) < 1 {
		t.Errorf("marks on the same spot stay on it: %v", marks)
	}
}
