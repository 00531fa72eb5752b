package store

import (
	"context"
	"errors"

	"github.com/google/uuid"
	"github.com/jackc/pgx/v5"

	"breakwright/internal/drill"
	"breakwright/internal/store/internal/query"
)

// SaveDrill makes a drill, or changes the one with that id, and returns it as it
// now is. A drill that was assigned stays as the students know it: the edit
// becomes a new drill that replaces it, with another id, and the old one is
// archived. Sending the same edit again returns the same drill; an edit of a
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
