package store

import (
	"context"
	"encoding/json"
	"fmt"

	"github.com/google/uuid"

	"breakwright/internal/drill"
	"breakwright/internal/store/internal/query"
)

// mostOfOthers is how many of a club's newest sets of a rack are looked at for what others'
// breaks show of its tables, and mostOfOneStudent how many of one student.
const (
	mostOfOthers     = 300
	mostOfOneStudent = 2
)

// loadOthers returns the newest sets of students other than the one of a set, of its rack,
// each student's together and without the student's name. The adviser's.
func (t *tx) loadOthers(ctx context.Context, than Set) ([][]drill.Set, error) {
	rows, err := t.ListNewestSetsOfOthers(ctx, query.ListNewestSetsOfOthersParams{
		StudentID: than.Student.UUID, Game: string(than.Setup.Game), Spot: string(than.Setup.Spot),
		Most: mostOfOthers, MostOfOne: mostOfOneStudent,
	})
	if err != nil || len(rows) == 0 {
		return nil, err
	}
	ids := make([]uuid.UUID, len(rows))
	for i, r := range rows {
		ids[i] = r.ID
	}
	found, err := t.ListBreaksOfSets(ctx, ids)
	if err != nil {
		return nil, err
	}
	breaks, err := groupBreaksBySet(found)
	if err != nil {
		return nil, err
	}
	var others [][]drill.Set
	for i, r := range rows {
		setup, err := setupFromRow(r.Setup)
		if err != nil {
			return nil, err
		}
		if i == 0 || r.StudentID != rows[i-1].StudentID {
			others = append(others, nil)
		}
		last := &others[len(others)-1]
		*last = append(*last, Set{Table: tableFromRow(r.PoolTable), Setup: setup, Breaks: breaks[r.ID]}.DrillSet())
	}
	return others, nil
}

// writeTablesPlay returns nil where nothing is known of the tables.
func writeTablesPlay(p drill.TablesPlay) ([]byte, error) {
	if !p.IsKnown() {
		return nil, nil
	}
	text, err := json.Marshal(p)
	if err != nil {
		return nil, fmt.Errorf("store: write how tables play: %w", err)
	}
	return text, nil
}

func readTablesPlay(text []byte) (p drill.TablesPlay, err error) {
	if len(text) > 0 {
		if err = json.Unmarshal(text, &p); err != nil {
			err = fmt.Errorf("store: read how tables play: %w", err)
		}
	}
	return p, err
}
