package store

import (
	"context"
	"errors"
	"fmt"

	"github.com/google/uuid"
	"github.com/jackc/pgx/v5"

	"breakwright/internal/drill"
	"breakwright/internal/rack"
	"breakwright/internal/store/internal/query"
	"breakwright/internal/table"
)

// ensureSetup gives the id of the club's row for a setup and makes one when it
// is new. The viewer must be a coach or the adviser.
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

// setupRow writes a setup at the grain in which setups are told apart.
func setupRow(s drill.Setup) query.Setup {
	s = s.Rounded()
	return query.Setup{
		Game: string(s.Game), Spot: string(s.Spot), Rack: s.Order.String(), Side: string(s.Side), Wing: string(s.Wing),
		CueX: float64(s.Cue.X), CueY: float64(s.Cue.Y), Contact: float64(s.Contact),
		Tip: float64(s.Tip), Spin: float64(s.Spin), Speed: pointerOrNil(float64(s.Speed)),
	}
}

func setupFromRow(row query.Setup) (drill.Setup, error) {
	order, err := rack.ParseOrder(rack.Game(row.Game), row.Rack)
	if err != nil {
		return drill.Setup{}, fmt.Errorf("setup %s: %w", row.ID, err)
	}
	return drill.Setup{
		Game: rack.Game(row.Game), Spot: rack.Spot(row.Spot), Order: order,
		Side: table.Side(row.Side), Wing: rack.Slot(row.Wing),
		Cue:     table.Place{X: table.Inches(row.CueX), Y: table.Inches(row.CueY)},
		Contact: table.Inches(row.Contact), Tip: drill.RadiusFraction(row.Tip), Spin: drill.RadiusFraction(row.Spin),
		Speed: table.Mph(valueOrZero(row.Speed)),
	}, nil
}
