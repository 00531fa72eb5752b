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

// ensureSetup returns the id of the club's row for a setup and makes one when it
// is new. The actor must be a coach or the adviser.
func (t *tx) ensureSetup(ctx context.Context, s drill.Setup) (uuid.UUID, error) {
	wanted := setupRow(s)
	wanted.ClubID = t.actor.Club.UUID
	find := query.FindSetupParams{
		ClubID: wanted.ClubID, Game: wanted.Game, Spot: wanted.Spot, Rack: wanted.Rack, Side: wanted.Side,
		Wing: wanted.Wing, CueX: wanted.CueX, CueY: wanted.CueY, Contact: wanted.Contact, Tip: wanted.Tip,
		Spin: wanted.Spin, Speed: wanted.Speed,
	}
	id, err := t.FindSetup(ctx, find)
	if !errors.Is(err, pgx.ErrNoRows) {
		return id, err
	}
	wanted.ID = newUUID()
	if err := t.InsertSetup(ctx, query.InsertSetupParams(wanted)); err != nil {
		return uuid.Nil, err
	}
	return t.FindSetup(ctx, find) // ours, or that of somebody who was faster
}

// ensureBothWays also makes the row for the other side, so that students of
// both sides find theirs. The one from the left is made first, whichever is
// asked for: two that wait for each other's rows would wait for ever.
func (t *tx) ensureBothWays(ctx context.Context, s drill.Setup) (uuid.UUID, error) {
	left, err := t.ensureSetup(ctx, s.ForSide(table.Left))
	if err != nil {
		return uuid.Nil, err
	}
	right, err := t.ensureSetup(ctx, s.ForSide(table.Right))
	if s.Side == table.Left {
		return left, err
	}
	return right, err
}
