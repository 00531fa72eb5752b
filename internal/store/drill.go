package store

import (
	"context"
	"errors"

	"github.com/jackc/pgx/v5"

	"breakwright/internal/drill"
	"breakwright/internal/store/internal/query"
	"breakwright/internal/table"
)

// Drill is a drill of the club, as its coach wrote it. For a student's side:
// Drill.For.
//
// A coach makes, changes and archives it ([ErrNotAllowed] for a student); a student
// reads those of their assignments and sets: others are [ErrNotFound]. One that was
// assigned is never changed: an edit makes another that replaces it, and sets keep
// theirs.
type Drill struct {
	ID DrillID
	drill.Drill
	// Lineage is the same for a drill and all that replaced it: the first one's
	// id. What a student has learnt carries along it.
	Lineage  DrillID
	Replaces DrillID // zero for the first
	Archived bool
	// Assigned says that the drill was given to someone: editing it makes
	// another that replaces it.
	Assigned bool
}

// ListDrills gives the club's drills by name; for a student those of their
// assignments and sets.
func (s *Store) ListDrills(ctx context.Context, v Actor, which ArchiveFilter) ([]Drill, error) {
	return readInTransaction(ctx, s, v, "list the drills", func(t *tx) ([]Drill, error) {
		rows, err := t.Queries.ListDrills(ctx, bool(which))
		if err != nil {
			return nil, err
		}
		drills := make([]Drill, 0, len(rows))
		for _, row := range rows {
			d, err := drillFromRow(row.Drill, row.Setup, row.Assigned)
			if err != nil {
				return nil, err
			}
			drills = append(drills, d)
		}
		return drills, nil
	})
}

// GetDrill gives a drill, archived or not.
func (s *Store) GetDrill(ctx context.Context, v Actor, id DrillID) (Drill, error) {
	return readInTransaction(ctx, s, v, "get the drill", func(t *tx) (Drill, error) { return t.loadDrill(ctx, id) })
}

func (t *tx) loadDrill(ctx context.Context, id DrillID) (Drill, error) {
	row, err := t.GetDrill(ctx, id.UUID)
	if err != nil {
		return Drill{}, err
	}
	return drillFromRow(row.Drill, row.Setup, row.Assigned)
}

// ArchiveDrill puts a drill away; its assignments go on. Coaches only.
func (s *Store) ArchiveDrill(ctx context.Context, v Actor, id DrillID) error {
	return s.changeAsCoach(ctx, v, "archive the drill", func(t *tx) error {
		return requireChangedRow(t.Queries.ArchiveDrill(ctx, id.UUID))
	})
}

// RestoreDrill takes a drill back from the archived ones. [ErrConflict] for one
// that another has replaced: two versions of one drill would be given. Coaches
// only.
func (s *Store) RestoreDrill(ctx context.Context, v Actor, id DrillID) error {
	return s.changeAsCoach(ctx, v, "restore the drill", func(t *tx) error {
		if _, err := t.LockDrill(ctx, id.UUID); err != nil {
			return err
		}
		switch _, err := t.FindReplacement(ctx, id.UUID); {
		case err == nil:
			return newRefusal(ErrConflict, "a newer version took its place: give that one, or copy this")
		case !errors.Is(err, pgx.ErrNoRows):
			return err
		}
		return requireChangedRow(t.Queries.RestoreDrill(ctx, id.UUID))
	})
}

func drillFromRow(row query.Drill, setup query.Setup, assigned bool) (Drill, error) {
	s, err := setupFromRow(setup)
	if err != nil {
		return Drill{}, err
	}
	return Drill{
		ID: DrillID{row.ID}, Lineage: DrillID{row.Lineage}, Replaces: idOrZero[DrillID](row.Replaces),
		Archived: row.ArchivedAt != nil, Assigned: assigned,
		Drill: drill.Drill{
			Name:  row.Name,
			Kind:  table.Kind{Feet: row.Feet, Small: row.Small, CornerMouth: table.Inches(row.CornerIn), SideMouth: table.Inches(row.SideIn)},
			Setup: s, Breaks: row.Breaks, Watch: row.Watch,
			WatchList: drill.WatchList{WingPath: row.WatchWing, CuePath: row.WatchPath, CueOnly: row.WatchCueOnly},
			Window: table.Window{
				Left: table.Inches(row.WindowLeft), Right: table.Inches(row.WindowRight),
				Head: table.Inches(row.WindowHead), Foot: table.Inches(row.WindowFoot),
			},
			Targets: drill.Targets{
				Wing: row.TargetWing, Window: row.TargetWindow,
				Shot: valueOrZero(row.TargetShot), RanOut: valueOrZero(row.TargetRanOut),
			},
			House: drill.HouseRules{ThreePoints: row.ThreePoints, BreakBox: table.Inches(valueOrZero(row.BreakBox))},
		},
	}, nil
}
