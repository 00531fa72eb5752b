package store

import (
	"cmp"
	"context"
	"slices"
)

// ApprovePrescriptions approves several proposals as they are, all of them or none.
// The same again is harmless; one that was answered otherwise, or replaced, makes it an
// [ErrConflict]. Coaches only.
func (s *Store) ApprovePrescriptions(ctx context.Context, v Actor, ids []PrescriptionID) error {
	return s.changeAsCoach(ctx, v, "approve the prescriptions", func(t *tx) error {
		for _, id := range inLockOrder(ids) {
			if err := t.decidePrescription(ctx, id, Decision{Answer: Approved}); err != nil {
				return err
			}
		}
		return nil
	})
}

// ReopenDecisions takes several decisions back, all of them or none, each as
// [Store.ReopenDecision] does. Coaches only.
func (s *Store) ReopenDecisions(ctx context.Context, v Actor, ids []PrescriptionID, judge Judge) error {
	return s.changeAsCoach(ctx, v, "take the decisions back", func(t *tx) error {
		for _, id := range inLockOrder(ids) {
			if err := t.reopenDecision(ctx, id, judge); err != nil {
				return err
			}
		}
		return nil
	})
}

// inLockOrder sorts, so that two coaches who decide on the same do not wait for each
// other for ever.
func inLockOrder(ids []PrescriptionID) []PrescriptionID {
	return slices.SortedFunc(slices.Values(ids), func(a, b PrescriptionID) int { return cmp.Compare(a.String(), b.String()) })
}
