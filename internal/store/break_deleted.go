package store

import (
	"context"
	"time"
)

// DeletedBreak is a break that was taken out of its set, as it was.
type DeletedBreak struct {
	Break
	// Reason is why, in the words of who took it out; At is when.
	Reason string
	At     time.Time
}

// ListDeletedBreaks gives what was taken out of a set, by number, with the reasons;
// what was undone right after it was saved is left out. A coach's of anyone in the
// club, a student's their own.
func (s *Store) ListDeletedBreaks(ctx context.Context, v Actor, set SetID) ([]DeletedBreak, error) {
	return readInTransaction(ctx, s, v, "list the deleted breaks", func(t *tx) ([]DeletedBreak, error) {
		rows, err := t.Queries.ListDeletedBreaks(ctx, set.UUID)
		if err != nil {
			return nil, err
		}
		deleted := []DeletedBreak{}
		for _, row := range rows {
			if row.DeleteReason == undoneAtOnce {
				continue
			}
			b, err := drillBreak(row)
			if err != nil {
				return nil, err
			}
			deleted = append(deleted, DeletedBreak{
				Break:  Break{ID: BreakID{row.ID}, Revision: row.Revision, Break: b, EditedBy: idOrZero[PersonID](row.EditedBy)},
				Reason: row.DeleteReason, At: utcOrZero(row.DeletedAt),
			})
		}
		return deleted, nil
	})
}
