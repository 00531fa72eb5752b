package leave

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"breakwright/internal/drill"
	"breakwright/internal/rack"
	"breakwright/internal/table"
)

// lie is a nine-ball leave on a 9-foot table: the cue ball, then the 1, the 2 …
func lie(cue table.Place, balls ...table.Place) Leave {
	l := Leave{Kind: table.NineFoot(), Game: rack.NineBall, Cue: cue}
	for i, p := range balls {
		l.Placed = append(l.Placed, drill.RestingBall{Ball: rack.Ball(i + 1), Place: p})
	}
	return l
}

// into finds the direct shot into a pocket.
func into(t testing.TB, l Leave, a Accuracy, p table.Pocket) Shot {
	t.Helper()
	for _, s := range FindShots(l, PlayerAt(a)).Shots {
		if s.Way == Direct && s.Pocket == p {
			return s
		}
	}
	t.Fatalf("no direct shot into %s", p)
	return Shot{}
}

func near(t *testing.T, what string, got, want, tolerance float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tolerance) {
		t.Errorf("%s is %.6g, want %.6g ± %.2g", what, got, want, tolerance)
	}
}

var kinds = []table.Kind{table.SevenFoot(), table.EightFoot(), table.NineFoot(),
	{Feet: 9, CornerMouth: 4, SideMouth: 4.5}, {Feet: 8, CornerMouth: 5, SideMouth: 5.5}, {Feet: 8, Small: true, CornerMouth: 4.5, SideMouth: 5}}

// anyPlace draws a place where a ball can lie; some lie on the rails, and some on
// places of whole inches, where ties are.
func anyPlace(k table.Kind) *rapid.Generator[table.Place] {
	return rapid.Custom(func(t *rapid.T) table.Place {
		p := table.Place{
			X: table.Inches(rapid.Float64Range(-26, 26).Draw(t, "x")),
			Y: table.Inches(rapid.Float64Range(-1, float64(k.Length())+1).Draw(t, "y")),
		}
		if rapid.Bool().Draw(t, "whole") {
			p = table.Place{X: table.Inches(math.Round(float64(p.X))), Y: table.Inches(math.Round(float64(p.Y)))}
		}
		return k.SettleBall(p)
	})
}

// anyLeave draws a leave of up to six placed balls that do not overlap.
func anyLeave() *rapid.Generator[Leave] {
	return rapid.Custom(func(t *rapid.T) Leave {
		k := rapid.SampledFrom(kinds).Draw(t, "kind")
		l := Leave{Kind: k, Game: rapid.SampledFrom(rack.Games()).Draw(t, "game"), Cue: anyPlace(k).Draw(t, "cue")}
		for range rapid.IntRange(1, 6).Draw(t, "balls") {
			p := anyPlace(k).Draw(t, "place")
			if l.clear(p) && p.Distance(l.Cue) > table.BallDiameter {
				l.Placed = append(l.Placed, drill.RestingBall{Ball: rack.Ball(len(l.Placed) + 1), Place: p})
			}
		}
		return l
	})
}
