package demo

import (
	"fmt"

	"breakwright/internal/breaksim"
	"breakwright/internal/rehearsal"
	"breakwright/internal/table"
)

// hall holds the club's tables as package breaksim computes them. Any number of
// students may break at once.
type hall map[table.Kind]*breaksim.Table

func openHall() (hall, error) {
	h := hall{}
	for name, t := range tables() {
		made, err := breaksim.New(breaksim.Defaults(), t.Kind)
		if err != nil {
			return nil, fmt.Errorf("%s: %w", name, err)
		}
		h[t.Kind] = made
	}
	return h, nil
}

// on gives somebody with these hands a table.
func (h hall) on(k table.Kind, hands rehearsal.Physics) rehearsal.Physics {
	hands.On = h[k]
	return hands
}
