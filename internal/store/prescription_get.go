package store

import "context"

// GetPrescription returns a prescription: a coach's of anyone in the club, a
// student's their own.
func (s *Store) GetPrescription(ctx context.Context, v Actor, id PrescriptionID) (Prescription, error) {
	return readInTransaction(ctx, s, v, "get the prescription", func(t *tx) (Prescription, error) {
		row, err := t.Queries.GetPrescription(ctx, id.UUID)
		if err != nil {
			return Prescription{}, err
		}
		return prescriptionFromRow(row.Prescription, row.Setup, row.Setup_2, row.Setup_3)
	})
}
