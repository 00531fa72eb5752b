package demo

import (
	"context"
	"fmt"
	"time"

	"breakwright/internal/drill"
	"breakwright/internal/setreview"
	"breakwright/internal/store"
)

// storeRecorder is a room in the store: what happens there is recorded through the
// calls that phones and pages make.
type storeRecorder struct {
	store      *store.Store
	student    store.Actor
	assignment store.AssignmentID
	table      store.TableID
	set        store.SetID // the latest
}

func (k *storeRecorder) beginSet(ctx context.Context, at time.Time) (drill.Setup, error) {
	set, err := k.store.StartSet(ctx, k.student, store.NewSet{Assignment: k.assignment, Table: k.table, At: at})
	k.set = set.ID
	return set.Setup, err
}

func (k *storeRecorder) recordBreak(ctx context.Context, b drill.Break) error {
	_, err := k.store.SaveBreak(ctx, k.student, k.set, store.Break{ID: store.NewID[store.BreakID](), Revision: 1, Break: b})
	if err != nil {
		return fmt.Errorf("break %d: %w", b.Number, err)
	}
	return nil
}

func (k *storeRecorder) endSet(ctx context.Context) (judgement store.Judgement, err error) {
	err = k.store.CloseSet(ctx, k.student, k.set, func(c store.Case) (store.Judgement, error) {
		c.Others = nil // each was found alone, in mind, and is to be told the same here
		judgement, err = setreview.JudgeCase(c)
		return judgement, err
	})
	return judgement, err
}

func (k *storeRecorder) decideChange(ctx context.Context, d store.Decision) error {
	set, err := k.store.GetSet(ctx, demoCoach, k.set)
	if err != nil {
		return err
	}
	if set.Prescription == nil {
		return fmt.Errorf("set %s has nothing to decide", set.Name)
	}
	return k.store.DecidePrescription(ctx, demoCoach, set.Prescription.ID, d)
}
