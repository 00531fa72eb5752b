package store

import (
	"context"

	"breakwright/internal/table"
)

// Join takes the place that a join code opens: it keeps the argon2id hash of
// the viewer's PIN and, where no coach has said it yet, the side they break
// from. Only who was found by code and has no secret yet may join; for whoever
// has one, [ErrConflict].
func (s *Store) Join(ctx context.Context, v Viewer, hash string, side table.Side) error {
	return s.in(ctx, v, "join", func(t *tx) error {
		if v.Role != Student {
			return refuse(ErrNotAllowed, "only students join with a code")
		}
		done, err := t.Queries.SetFirstSecret(ctx, hash)
		if err != nil {
			return err
		}
		if !done {
			return refuse(ErrConflict, "somebody has joined with this code already")
		}
		if side == "" {
			return nil
		}
		return t.ChooseSide(ctx, string(side))
	})
}
