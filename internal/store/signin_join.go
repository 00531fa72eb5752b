package store

import (
	"context"

	"breakwright/internal/table"
)

// JoinClub takes the place that a join code opens: it keeps the argon2id hash of
// the actor's PIN and, where no coach has said it yet, the side they break
// from. Only who was found by code and has no secret yet may join; for whoever
// has one, [ErrConflict].
func (s *Store) JoinClub(ctx context.Context, v Actor, hash string, side table.Side) error {
	return s.inTransaction(ctx, v, "join", func(t *tx) error {
		if v.Role != Student {
			return newRefusal(ErrNotAllowed, "only students join with a code")
		}
		done, err := t.Queries.SetFirstSecret(ctx, hash)
		if err != nil {
			return err
		}
		if !done {
			return newRefusal(ErrConflict, "somebody has joined with this code already")
		}
		if side == "" {
			return nil
		}
		return t.ChooseSide(ctx, string(side))
	})
}
