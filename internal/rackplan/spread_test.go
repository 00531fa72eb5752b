package rackplan

import (
	"testing"

	"pgregory.net/rapid"

	"breakwright/internal/drill"
	"breakwright/internal/rack"
	"breakwright/internal/table"
)

// Nothing of one's own leaves the computed shares; as many own breaks as the
// strength count half.
func TestSpread_BetweenComputedAndOwn(t *testing.T) {
	c := ComputedBall{Gone: 2000}
	c.Cells[3] = 8000
	s := spreadOf(c, 20, tally{})
	if s.gone != 0.2 || s.cell[3] != 1 || s.own != 0 {
		t.Errorf("%+v", s)
	}
	own := tally{seen: 20, gone: 12, placed: 8}
	own.cells[5] = 8
	s = spreadOf(c, 20, own)
	if s.gone != 0.4 || s.own != 0.5 || s.cell[3] != 16.0/24 || s.cell[5] != 8.0/24 {
		t.Errorf("gone %g, own %g, cells %g and %g", s.gone, s.own, s.cell[3], s.cell[5])
	}
}

// What dropped is always written down, where the others lie for some.
func TestTallySets(t *testing.T) {
	s := drill.StandardSetup(rack.NineBall, table.Left, table.NineFoot())
	set := drill.Set{Kind: table.NineFoot(), Setup: s, Breaks: []drill.Break{
		{Number: 1, Cue: drill.CueEnd{How: drill.Stopped, Place: table.Place{X: -24, Y: 1}},
			Pocketed: []drill.Pocketed{{Ball: 8, Pocket: table.FootLeft}}, Off: []rack.Ball{2},
			Rest: []drill.RestingBall{{Ball: 1, Place: table.Place{X: 24, Y: 99}}}},
		{Number: 2, Cue: drill.CueEnd{How: drill.OffTable}},
	}}
	got := tallySets(rack.NineBall, []drill.Set{set})
	if got.breaks != 2 || got.cue.gone != 1 || got.cue.cells[0] != 1 {
		t.Errorf("cue ball %+v", got.cue)
	}
	// Rack 1-3-2-8-9-5-6-4-7: the 8 is in 3L, the 2 in 2R.
	if got.slots[3].gone != 1 || got.slots[2].gone != 1 || got.slots[0].cells[Cells-1] != 1 || got.slots[0].placed != 1 {
		t.Errorf("%+v", got.slots)
	}
	for i, slot := range got.slots {
		if slot.seen != 2 {
			t.Errorf("slot %d was seen %g times", i, slot.seen)
		}
	}
	if mirrored := tallySets(rack.NineBall, []drill.Set{set.Mirror()}); mirrored.cue.cells != got.cue.cells || mirrored.slots[3].gone != 1 {
		t.Error("a set from the right is not read as its mirror")
	}
}

func TestCells(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		k := rapid.SampledFrom([]table.Kind{table.SevenFoot(), table.EightFoot(), table.NineFoot()}).Draw(t, "kind")
		cell := rapid.IntRange(0, Cells-1).Draw(t, "cell")
		along, across := cell/CellsAcross, cell%CellsAcross
		p := table.Place{
			X: k.Width() * ((table.Inches(across)+table.Inches(rapid.Float64Range(0.01, 0.99).Draw(t, "right")))/CellsAcross - 0.5),
			Y: k.Length() * (table.Inches(along) + table.Inches(rapid.Float64Range(0.01, 0.99).Draw(t, "foot"))) / CellsAlong,
		}
		if CellOf(k, p) != cell {
			t.Fatalf("%v is in cell %d, want %d", p, CellOf(k, p), cell)
		}
		if m := CellOf(k, p.Mirror()); p.X != 0 && m != mirrorCell(cell) {
			t.Fatalf("the mirror of cell %d is %d", cell, m)
		}
	})
	for p, want := range map[table.Place]int{{X: -25, Y: 0}: 0, {X: 25, Y: 100}: Cells - 1, {X: 30, Y: -5}: 3} {
		if got := CellOf(table.NineFoot(), p); got != want {
			t.Errorf("%v is in cell %d, want %d", p, got, want)
		}
	}
}
