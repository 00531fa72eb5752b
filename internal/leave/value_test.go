package leave

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"breakwright/internal/drill"
	"breakwright/internal/rack"
	"breakwright/internal/table"
)

// A rolling cue ball leaves its line by atan(sin c cos c / (sin² c + 2/5)), always
// away from the object ball: 27.626 degrees after a three-quarter hit, 33.670 after
// a half-ball hit, 27.267 after a quarter (Wallace & Schroeder 1988; Alciatore's
// 30-degree rule: 27 to 34 degrees between quarter and three-quarter hits).
func TestShot_NaturalLine(t *testing.T) {
	for fraction, want := range map[float64]float64{1: 0, 0.75: 27.626, 0.5: 33.670, 0.25: 27.267} {
		cut := math.Asin(1-fraction) * 180 / math.Pi
		for _, hand := range []float64{1, -1} {
			out := table.Vector{Y: 1}.TurnedBy(hand * cut * math.Pi / 180)
			s := Shot{Way: Direct, Ghost: table.Place{Y: 20}, Cut: table.Degrees(cut)}
			s.Target = s.Ghost.MovedBy(out.ScaledBy(30))
			got := table.Vector{Y: 1}.AngleTo(s.Natural()) * 180 / math.Pi
			near(t, "deflection", got, -hand*want, 0.001)
		}
	}
}

func TestEstimateValue(t *testing.T) {
	on, next := table.Place{X: 10, Y: 70}, table.Place{X: 15, Y: 90}
	l := lie(table.Place{X: 5, Y: 50}, on, next)
	v, known := EstimateValue(l, PlayerAt(Club))
	if !known || !v.NextKnown || !(v.Position > 0.5 && v.Position <= 1) || v.Total() != v.Shot*v.Position {
		t.Errorf("%+v", v)
	}
	alone := l
	alone.Placed = l.Placed[:1]
	if v, _ := EstimateValue(alone, PlayerAt(Club)); v.NextKnown || v.Position != 1 {
		t.Errorf("with the 2 not placed: %+v", v)
	}
	gap := l
	gap.Placed = []drill.RestingBall{{Ball: 1, Place: on}, {Ball: 3, Place: next}}
	gap.Unplaced = []rack.Ball{2}
	if v, _ := EstimateValue(gap, PlayerAt(Club)); v.NextKnown {
		t.Errorf("the 3 was taken for the next ball while the 2 lies somewhere: %+v", v)
	}
	for name, change := range map[string]func(l *Leave){
		"scratch": func(l *Leave) { l.Hand = Anywhere },
		"no shot": func(l *Leave) {
			l.Placed = append(l.Placed, drill.RestingBall{Ball: 9, Place: table.Place{X: 5.7, Y: 53}})
		},
	} {
		bad := lie(l.Cue, on, next)
		change(&bad)
		if v, known := EstimateValue(bad, PlayerAt(Club)); !known || v.Total() > 0.01 {
			t.Errorf("%s: %+v", name, v)
		}
	}
	if v, known := EstimateValue(Leave{Kind: table.NineFoot(), Game: rack.NineBall, Won: true}, PlayerAt(Club)); !known || v.Total() != 1 {
		t.Errorf("won: %+v", v)
	}
	if _, known := EstimateValue(Leave{Kind: table.NineFoot(), Game: rack.NineBall, Unplaced: []rack.Ball{1}}, PlayerAt(Club)); known {
		t.Error("a value without a placed ball")
	}
}

func TestEstimateValue_IsAChanceAndMirrors(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := anyLeave().Draw(t, "leave")
		v, known := EstimateValue(l, PlayerAt(Club))
		if !(v.Total() >= 0 && v.Total() <= 1) {
			t.Fatalf("%+v", v)
		}
		m, knownToo := EstimateValue(l.Mirror(), PlayerAt(Club))
		if l.Cue.X != 0 && (known != knownToo || math.Abs(m.Total()-v.Total()) > 1e-9) {
			t.Fatalf("%+v, mirrored %+v", v, m)
		}
	})
}

func TestMapShots_AndTheBetterWindow(t *testing.T) {
	k := table.NineFoot()
	var leaves []Leave
	for i := range 30 {
		// The 1 stays near the right foot corner, behind a wall for who is on the left.
		l := lie(table.Place{Y: 40}, table.Place{X: 20, Y: 90 + table.Inches(i%5)})
		leaves = append(leaves, l)
	}
	leaves = append(leaves, Leave{Kind: k, Game: rack.NineBall, Unplaced: []rack.Ball{1}})
	m := MapShots(leaves, PlayerAt(Club))
	if m.Leaves != 30 {
		t.Errorf("%d leaves were looked at", m.Leaves)
	}
	on := leaves[0]
	if got, want := m.Chance[3][2], 0.0; got == want {
		t.Errorf("from %v no leave gives a shot", m.CellMiddle(3, 2))
	}
	if one := MapShots(leaves[:1], PlayerAt(Club)); one.Chance[4][3] != on.ChanceFrom(one.CellMiddle(4, 3), 1, Club) {
		t.Error("a map of one leave is not that leave")
	}
	now := table.Window{Left: -25, Right: -12.5, Head: 0, Foot: 25}
	better, gain, ok := m.FindBetterWindow(now)
	if !ok || gain < 0.15 || m.MeanIn(better) < m.MeanIn(now)+gain-1e-9 || (better.Right-better.Left)*(better.Foot-better.Head) < 12.5*25 {
		t.Errorf("%+v brings %.3f (%v)", better, gain, ok)
	}
	if _, _, ok := MapShots(leaves[:10], PlayerAt(Club)).FindBetterWindow(now); ok {
		t.Error("ten leaves were enough")
	}
	if _, _, ok := m.FindBetterWindow(better); ok {
		t.Error("the best window has a better one")
	}
	says := DescribeWindowChange(table.Window{Left: -10, Right: 10, Head: 20, Foot: 50}, table.Window{Left: -15, Right: 15, Head: 14, Foot: 44}, wholeInches)
	if says != "10 in wider, 6 in nearer the head rail" {
		t.Error(says)
	}
	if says := DescribeWindowChange(now, now, wholeInches); says != "as it is" {
		t.Error(says)
	}
}

// In eight-ball the table is open: from each place the easier of two balls counts.
// A window counts the cells by how much of them it holds: a small one that holds no
// cell's middle too, and one that ends within cells.
func TestShotMap_MeanInIsByArea(t *testing.T) {
	m := ShotMap{Kind: table.NineFoot(), Leaves: 1}
	m.Chance[5][3], m.Chance[5][4] = 0.2, 0.6 // 6.25 in square, to both sides of the long string, from 31.25 in on
	for _, c := range []struct {
		left, right table.Inches
		want        float64
	}{{-1, 1, 0.4}, {-1.5, 0.5, 0.3}, {1, 3.5, 0.6}, {-6.25, 12.5, 0.8 / 3}} {
		if got := m.MeanIn(table.Window{Left: c.left, Right: c.right, Head: 33, Foot: 36}); math.Abs(got-c.want) > 1e-12 {
			t.Errorf("from %s to %s: %g, want %g", c.left, c.right, got, c.want)
		}
	}
}

func TestMapShots_EightBallTakesTheEasiest(t *testing.T) {
	l := lie(table.Place{Y: 40}, table.Place{X: 20, Y: 94}, table.Place{X: -20, Y: 8})
	l.Game = rack.EightBall
	m := MapShots([]Leave{l}, PlayerAt(Club))
	for _, cell := range [][2]int{{3, 2}, {12, 6}, {8, 4}} {
		cue := m.CellMiddle(cell[0], cell[1])
		first, second := l.ChanceFrom(cue, 1, Club), l.ChanceFrom(cue, 2, Club)
		if got := m.Chance[cell[0]][cell[1]]; got != max(first, second) || first == second {
			t.Errorf("from %v: %.3f, of the balls %.3f and %.3f", cue, got, first, second)
		}
	}
}

func TestSummarize(t *testing.T) {
	open := lie(table.Place{X: 5, Y: 50}, table.Place{X: 10, Y: 70}, table.Place{X: 15, Y: 90})
	lost, won, unknown := open, open, open
	lost.Hand, won.Won = Anywhere, true
	unknown.Placed, unknown.Unplaced = nil, []rack.Ball{1}
	now := table.NineFoot().StandardWindow()
	s := Summarize([]Leave{open, open, lost, won, unknown}, PlayerAt(Club), now)
	v, _ := EstimateValue(open, PlayerAt(Club))
	want := Summary{Breaks: 5, Open: 2, Lost: 1, Won: 1, Unknown: 1, Valued: 4, Worth: (2*v.Total() + 1) / 4}
	if s != want {
		t.Errorf("%+v, want %+v", s, want)
	}
	// The break that is not known counts as the two that are, not as the foul does.
	if got, ok := s.MeanValue(); !ok || math.Abs(got-(3*v.Total()+1)/5) > 1e-9 {
		t.Errorf("a break is worth %.4f (%v), want %.4f", got, ok, (3*v.Total()+1)/5)
	}
	if breaks, known := s.InPlay(); breaks != 3 || known != 2 {
		t.Errorf("of %d breaks in play %d are known, want 3 and 2", breaks, known)
	}
	if _, ok := CountShots([]Leave{lost, won, unknown}, PlayerAt(Club)).MeanValue(); ok {
		t.Error("a value is given where no leave is known")
	}
	if says := s.Describe(now); says != "2 of 5 breaks left an open shot, 1 won the rack, 1 lost the table by a foul, 1 not known." {
		t.Error(says)
	}
	var many []Leave
	for range 20 {
		many = append(many, lie(table.Place{X: -20, Y: 10}, table.Place{X: 20, Y: 94}))
	}
	corner := table.Window{Left: -25, Right: -12.5, Head: 0, Foot: 25}
	if says := Summarize(many, PlayerAt(Club), corner).Describe(corner); !strings.Contains(says, "the cue-ball window that gives most shots is ") {
		t.Error(says)
	}
}
