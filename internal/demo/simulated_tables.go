package demo

import (
	"fmt"

	"breakwright/internal/breaksim"
	"breakwright/internal/rehearsal"
	"breakwright/internal/table"
)

// simulatedTables holds the club's tables as package breaksim computes them. Any number of
// students may break at once.
type simulatedTables map[table.Kind]*breaksim.Table

func newSimulatedTables() (simulatedTables, error) {
	h := simulatedTables{}
	for name, t := range clubTables() {
		made, err := breaksim.NewTable(breaksim.Defaults(), t.Kind)
		if err != nil {
			return nil, fmt.Errorf("%s: %w", name, err)
		}
		h[t.Kind] = made
	}
	return h, nil
}

// placeStudent gives somebody with these hands a table.
func (h simulatedTables) placeStudent(k table.Kind, hands rehearsal.Physics) rehearsal.Physics {
	hands.Table = h[k]
	return hands
}
