package store

import (
	"context"
	"errors"

	"github.com/google/uuid"
	"github.com/jackc/pgx/v5"

	"breakwright/internal/drill"
	"breakwright/internal/store/internal/query"
)

// SaveDrill makes a drill, or changes the one with that id, and gives it as it
// now is. A drill that was assigned stays as the students know it: the edit
// becomes a new drill that replaces it, with another id, and the old one is
// archived. Sending the same edit again gives the same drill; an edit of a
// drill that was replaced or archived meanwhile is an [ErrConflict]. Coaches
// only.
func (s *Store) SaveDrill(ctx context.Context, v Actor, id DrillID, wanted drill.Drill) (Drill, error) {
	wanted.Setup = wanted.Setup.Rounded()
	var saved Drill
	err := s.changeAsCoach(ctx, v, "save the drill", func(t *tx) (err error) {
		if err := wanted.Check(); err != nil {
			return err
		}
		saved, err = t.saveDrill(ctx, idOrNew(id), wanted)
		return err
	})
	return saved, err
}

// CopyDrill makes a drill like another under a name of its own. Coaches only.
func (s *Store) CopyDrill(ctx context.Context, v Actor, from, to DrillID, name string) (Drill, error) {
	var saved Drill
	err := s.changeAsCoach(ctx, v, "copy the drill", func(t *tx) error {
		source, err := t.loadDrill(ctx, from)
		if err != nil {
			return err
		}
		source.Name = name
		if err := source.Check(); err != nil {
			return err
		}
		saved, err = t.saveDrill(ctx, idOrNew(to), source.Drill)
		return err
	})
	return saved, err
}

func (t *tx) saveDrill(ctx context.Context, id DrillID, wanted drill.Drill) (Drill, error) {
	setup, err := t.ensureBothWays(ctx, wanted.Setup)
	if err != nil {
		return Drill{}, err
	}
	if _, err = t.LockDrill(ctx, id.UUID); errors.Is(err, pgx.ErrNoRows) {
		return t.insertDrill(ctx, query.InsertDrillParams{ID: id.UUID, Lineage: id.UUID}, wanted, setup)
	} else if err != nil {
		return Drill{}, err
	}
	there, err := t.loadDrill(ctx, id)
	switch {
	case err != nil:
		return Drill{}, err
	case there.Drill == wanted:
		return there, nil
	case there.Archived:
		return t.sameReplacement(ctx, id, wanted)
	case there.Assigned:
		return t.replaceDrill(ctx, there, wanted, setup)
	}
	return t.updateDrill(ctx, id, wanted, setup)
}

var errDrillChanged = newRefusal(ErrConflict, "this drill was changed or archived meanwhile: open it again")

// sameReplacement finds what an earlier click of the same edit has made.
func (t *tx) sameReplacement(ctx context.Context, old DrillID, wanted drill.Drill) (Drill, error) {
	id, err := t.FindReplacement(ctx, old.UUID)
	if errors.Is(err, pgx.ErrNoRows) {
		return Drill{}, errDrillChanged
	}
	if err != nil {
		return Drill{}, err
	}
	there, err := t.loadDrill(ctx, DrillID{id})
	if err == nil && there.Drill != wanted {
		return Drill{}, errDrillChanged
	}
	return there, err
}

func (t *tx) replaceDrill(ctx context.Context, old Drill, wanted drill.Drill, setup uuid.UUID) (Drill, error) {
	if err := requireChangedRow(t.Queries.ArchiveDrill(ctx, old.ID.UUID)); err != nil {
		return Drill{}, err
	}
	return t.insertDrill(ctx, query.InsertDrillParams{
		ID: newUUID(), Lineage: old.Lineage.UUID, Replaces: &old.ID.UUID,
	}, wanted, setup)
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
	if err := t.requireRoom(ctx, RoomForDrills, SetID{}); err != nil {
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
