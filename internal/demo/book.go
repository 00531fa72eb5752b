package demo

import (
	"context"
	"fmt"
	"time"

	"breakwright/internal/closing"
	"breakwright/internal/drill"
	"breakwright/internal/store"
)

// book is a room in the store: what happens there is recorded through the
// calls that phones and pages make.
type book struct {
	store      *store.Store
	student    store.Viewer
	assignment store.AssignmentID
	table      store.TableID
	set        store.SetID // the latest
}

func (k *book) begin(ctx context.Context, at time.Time) (drill.Setup, error) {
	set, err := k.store.StartSet(ctx, k.student, store.Start{Assignment: k.assignment, Table: k.table, At: at})
	k.set = set.ID
	return set.Setup, err
}

func (k *book) record(ctx context.Context, b drill.Break) error {
	_, err := k.store.SaveBreak(ctx, k.student, k.set, store.Break{ID: store.NewID[store.BreakID](), Revision: 1, Break: b})
	if err != nil {
		return fmt.Errorf("break %d: %w", b.Number, err)
	}
	return nil
}

func (k *book) end(ctx context.Context) (said store.Closing, err error) {
	err = k.store.CloseSet(ctx, k.student, k.set, func(c store.Case) (store.Closing, error) {
		said, err = closing.Judge(c)
		return said, err
	})
	return said, err
}

func (k *book) decide(ctx context.Context, d store.Decision) error {
	set, err := k.store.GetSet(ctx, coach, k.set)
	if err != nil {
		return err
	}
	if set.Prescription == nil {
		return fmt.Errorf("set %s has nothing to decide", set.Name)
	}
	return k.store.Decide(ctx, coach, set.Prescription.ID, d)
}
