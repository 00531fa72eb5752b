package rackplan

import (
	"math"
	"strings"
	"testing"

	"breakwright/internal/rack"
)

// The committed file has every rack on every size of table; shares add up to all
// breaks, chances are chances.
func TestComputed_IsWhole(t *testing.T) {
	c := computed()
	if !strings.HasPrefix(c.Made, "go run ./internal/rackplan/compute") {
		t.Errorf("made by %q", c.Made)
	}
	for _, feet := range []int{7, 8, 9} {
		for _, g := range rack.Games() {
			for _, spot := range g.Spots() {
				size, r, err := c.find(feet, g, spot)
				if err != nil {
					t.Error(err)
					continue
				}
				if len(r.Slots) != g.BallCount() || r.Breaks < 1000 || !(r.Strength > 5 && r.Strength < 1000) {
					t.Errorf("%d ft %s %s: %d slots, %d breaks, strength %g", feet, g, spot, len(r.Slots), r.Breaks, r.Strength)
				}
				for i, b := range append(r.Slots, r.Cue) {
					sum := b.Gone
					for _, n := range b.Cells {
						sum += n
					}
					if math.Abs(float64(sum-10000)) > 20 { // rounding of 33 shares
						t.Errorf("%d ft %s %s: ball %d adds up to %d", feet, g, spot, i, sum)
					}
				}
				if len(r.Single) != len(r.Slots) || g != rack.EightBall && len(r.Pair) != len(r.Slots) {
					t.Errorf("%d ft %s %s: %d single shots, %d rows of pairs", feet, g, spot, len(r.Single), len(r.Pair))
				}
				for i, row := range r.Pair {
					for j, worth := range row {
						if len(row) != len(r.Slots) || (i != j) != (worth > 0) || worth > r.Single[i] {
							t.Errorf("%d ft %s %s: slots %d and %d are worth %d, a shot alone %d", feet, g, spot, i, j, worth, r.Single[i])
						}
					}
				}
				for z := range size.Shot {
					for y, chance := range size.Shot[z] {
						if chance < 0 || chance > 1000 || size.Position[z][y] < 0 || size.Position[z][y] > 1000 {
							t.Fatalf("%d ft: cells %d and %d have chances %d and %d", feet, z, y, chance, size.Position[z][y])
						}
					}
				}
			}
		}
	}
	if _, _, err := c.find(9, rack.TenBall, rack.CentreOnSpot); err == nil {
		t.Error("a rack that no game has was found")
	}
}

// Chances of shots know no left and right, but for the luck of the draws: 60 each,
// so that mirrored cells differ by 0.05 or so, and on the mean by nothing.
func TestComputed_ShotsMirror(t *testing.T) {
	for _, size := range computed().Tables {
		sum, squares := 0.0, 0.0
		for z := range size.Shot {
			for y, chance := range size.Shot[z] {
				d := float64(chance-size.Shot[mirrorCell(z)][mirrorCell(y)]) / 1000
				sum, squares = sum+d, squares+d*d
			}
		}
		if rms := math.Sqrt(squares / (Cells * Cells)); rms > 0.1 {
			t.Errorf("%d ft: mirrored cells differ by %.3f", size.Feet, rms)
		}
	}
}

func mirrorCell(z int) int { return z/CellsAcross*CellsAcross + CellsAcross - 1 - z%CellsAcross }
