//go:build !quick

package main

import (
	"encoding/json"
	"math"
	"os"
	"testing"

	"breakwright/internal/rack"
	"breakwright/internal/rackplan"
	"breakwright/internal/table"
)

// The committed file is what this command says: other students, drawn from another
// seed, have the same shares of balls gone within what their number allows.
func TestClub_AgreesWithTheCommittedFile(t *testing.T) {
	text, err := os.ReadFile("../computed.json")
	if err != nil {
		t.Fatal(err)
	}
	var file rackplan.Computed
	if err := json.Unmarshal(text, &file); err != nil {
		t.Fatal(err)
	}
	c := club{kind: table.NineFoot(), game: rack.NineBall, spot: rack.HeadOnSpot, students: 20, breaks: 30, seed: 77}
	if err := c.play(); err != nil {
		t.Fatal(err)
	}
	got := c.rack()
	for _, size := range file.Tables {
		for _, r := range size.Racks {
			if size.Feet != 9 || r.Game != c.game || r.Spot != c.spot {
				continue
			}
			for i := range got.Slots {
				p := float64(r.Slots[i].Gone) / 10000
				// 600 breaks of 20 students who differ: the breaks count as those of
				// the strength allow.
				sd := math.Sqrt(p * (1 - p) * (1/600.0 + 1/(20*(r.Strength+1))))
				if off := float64(got.Slots[i].Gone)/10000 - p; math.Abs(off) > 4*sd {
					t.Errorf("slot %d: gone %.3f, the file has %.3f", i, p+off, p)
				}
			}
		}
	}
}

// Students who all break alike have no end of strength, and such as never agree
// have none.
func TestClub_Strength(t *testing.T) {
	alike := club{students: 40, breaks: 50}
	apart := club{students: 40, breaks: 50}
	for i := range 40 {
		var same, other [2][rackplan.Cells + 1]float64
		same[1][0], same[1][1] = 25, 25
		other[1][i%2] = 50
		alike.ends = append(alike.ends, same[:])
		apart.ends = append(apart.ends, other[:])
	}
	if s := alike.strength(); s < 500 {
		t.Errorf("all alike: strength %g", s)
	}
	if s := apart.strength(); s > 0.1 {
		t.Errorf("half always here, half always there: strength %g", s)
	}
}

func TestTables_ShotsFromNearAreBetter(t *testing.T) {
	shots := shotTable(table.NineFoot(), 3)
	// Cell 29 is on the foot rail left of the middle; from the cells before it
	// (21, 25) a ball there goes into the corner more often than from the head end.
	near, far := shots[21][28], shots[1][28]
	if near <= far {
		t.Errorf("a ball in the foot corner: %d of 1000 from near, %d from afar", near, far)
	}
}
