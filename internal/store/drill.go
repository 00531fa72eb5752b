package store

import (
	"context"
	"errors"

	"github.com/google/uuid"
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

// ListDrills returns the club's drills by name; for a student those of their
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

// GetDrill returns a drill, archived or not.
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

func (t *tx) insertDrill(ctx context.Context, row query.InsertDrillParams, d drill.Drill, setup uuid.UUID) (Drill, error) {
	row.ClubID, row.SetupID = t.actor.Club.UUID, setup
	row.Name, row.Breaks, row.Watch = d.Name, d.Breaks, d.Watch
	row.Feet, row.Small, row.CornerIn, row.SideIn = d.Kind.Feet, d.Kind.Small, float64(d.Kind.CornerMouth), float64(d.Kind.SideMouth)
	row.WindowLeft, row.WindowRight = float64(d.Window.Left), float64(d.Window.Right)
	row.WindowHead, row.WindowFoot = float64(d.Window.Head), float64(d.Window.Foot)
	row.TargetWing, row.TargetWindow = d.Targets.Wing, d.Targets.Window
	row.TargetShot, row.TargetRanOut = pointerOrNil(d.Targets.Shot), pointerOrNil(d.Targets.RanOut)
	row.ThreePoints, row.BreakBox = d.House.ThreePoints, pointerOrNil(float64(d.House.BreakBox))
	row.WatchWing, row.WatchPath, row.WatchCueOnly = d.WatchList.WingPath, d.WatchList.CuePath, d.WatchList.CueOnly
	if err := t.InsertDrill(ctx, row); err != nil {
		return Drill{}, err
	}
	if err := t.requireRoom(ctx, RoomForDrills, uuid.Nil); err != nil {
		return Drill{}, err
	}
	there, err := t.loadDrill(ctx, DrillID{row.ID})
	if err == nil && there.Drill != d {
		return Drill{}, errDrillChanged
	}
	return there, err
}

func (t *tx) updateDrill(ctx context.Context, id DrillID, d drill.Drill, setup uuid.UUID) (Drill, error) {
	err := requireChangedRow(t.UpdateDrill(ctx, query.UpdateDrillParams{
		ID: id.UUID, SetupID: setup, Name: d.Name, Breaks: d.Breaks, Watch: d.Watch,
		Feet: d.Kind.Feet, Small: d.Kind.Small, CornerIn: float64(d.Kind.CornerMouth), SideIn: float64(d.Kind.SideMouth),
		WindowLeft: float64(d.Window.Left), WindowRight: float64(d.Window.Right),
		WindowHead: float64(d.Window.Head), WindowFoot: float64(d.Window.Foot),
		TargetWing: d.Targets.Wing, TargetWindow: d.Targets.Window,
		TargetShot: pointerOrNil(d.Targets.Shot), TargetRanOut: pointerOrNil(d.Targets.RanOut),
		ThreePoints: d.House.ThreePoints, BreakBox: pointerOrNil(float64(d.House.BreakBox)),
		WatchWing: d.WatchList.WingPath, WatchPath: d.WatchList.CuePath, WatchCueOnly: d.WatchList.CueOnly,
	}))
	if err != nil {
		return Drill{}, err
	}
	return t.loadDrill(ctx, id)
}
