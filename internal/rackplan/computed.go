package rackplan

import (
	_ "embed"
	"encoding/json"
	"errors"
	"fmt"
	"sync"

	"breakwright/internal/rack"
)

// Computed is what computed breaks say, for every size of table.
type Computed struct {
	// Made tells how the file was made.
	Made   string         `json:"made"`
	Tables []ComputedSize `json:"tables"`
}

// ComputedSize is that of one size of table.
type ComputedSize struct {
	Feet int `json:"feet"`
	// Shot is the mean chance, in thousandths, of the best direct shot from a
	// place of the first cell on a ball in the second, with five balls somewhere
	// else; Position that of a shot on a ball in the second cell after one in the
	// first was made.
	Shot     [Cells][Cells]int `json:"shot"`
	Position [Cells][Cells]int `json:"position"`
	Racks    []ComputedRack    `json:"racks"`
}

// ComputedRack is that of one rack on it, broken from the left.
type ComputedRack struct {
	Game rack.Game `json:"game"`
	Spot rack.Spot `json:"spot"`
	// Breaks is how many were computed, Strength how many own breaks they weigh as
	// much as.
	Breaks   int     `json:"breaks"`
	Strength float64 `json:"strength"`
	// Cue is where the cue ball comes to rest, Slots the balls of the slots, in the
	// game's order.
	Cue   ComputedBall   `json:"cue"`
	Slots []ComputedBall `json:"slots"`
	// Single is the mean chance, in ten thousandths, of a shot on each slot's ball
	// when it is up and the lowest, with every ball where it came to rest; Pair[i][j]
	// the mean worth of the break when the ball of slot i is the lowest and that of
	// slot j the next, both up. There are no pairs in eight-ball.
	Single []int   `json:"single"`
	Pair   [][]int `json:"pair,omitempty"`
}

// ComputedBall says how often, in ten thousandths, a ball was gone (pocketed or
// off the table) and how often it came to rest in each cell.
type ComputedBall struct {
	Gone  int        `json:"gone"`
	Cells [Cells]int `json:"cells"`
}

//go:embed computed.json
var computedFile []byte

// computed reads the committed file once.
var computed = sync.OnceValue(func() Computed {
	var c Computed
	if err := json.Unmarshal(computedFile, &c); err != nil {
		panic("rackplan: computed.json: " + err.Error())
	}
	return c
})

// ErrNotComputed is returned for a rack that no breaks were computed for.
var ErrNotComputed = errors.New("no computed breaks")

// anyPosition is a table on which position on the next ball is sure, so that only
// the shot counts.
func (s ComputedSize) anyPosition() ComputedSize {
	for z := range s.Position {
		for next := range s.Position[z] {
			s.Position[z][next] = 1000
		}
	}
	return s
}

// find returns what was computed for a rack on a size of table.
func (c Computed) find(feet int, g rack.Game, spot rack.Spot) (ComputedSize, ComputedRack, error) {
	for _, t := range c.Tables {
		for _, r := range t.Racks {
			if t.Feet == feet && r.Game == g && r.Spot == spot {
				return t, r, nil
			}
		}
	}
	return ComputedSize{}, ComputedRack{}, fmt.Errorf("%w: %s with the %s on the spot on %d feet", ErrNotComputed, g, spot, feet)
}
