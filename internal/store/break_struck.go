package store

import (
	"context"
	"time"

	"github.com/google/uuid"

	"breakwright/internal/drill"
	"breakwright/internal/store/internal/query"
)

// StruckBreak is a break as it was before it was changed or taken out.
//
// A coach reads everybody's, a student their own: of others there are none. Nobody writes
// it but by changing or taking out the break, and it is kept as long as its set.
type StruckBreak struct {
	// Break has the id of the break that it was, and the revision that ended.
	Break
	// Corrected says that it was changed, and that a later revision stands in its
	// place; false that it was taken out.
	Corrected bool
	// Reason is why, in the words of who did it, "" when nobody said; At is when.
	Reason string
	At     time.Time
	// By is the coach who did it, zero for the student.
	By PersonID
	// IsBack says that it was taken out and has been put back since, by the coach
	// BackBy; zero for the student.
	IsBack bool
	BackBy PersonID
}

// IsOut reports whether it was taken out of its set and is out still.
func (b StruckBreak) IsOut() bool { return !b.Corrected && !b.IsBack }

// ListStruckBreaks returns what was taken out of a set and what was changed in it, by
// number and then time; what was undone right after it was saved is left out. A
// coach's of anyone in the club, a student's their own.
func (s *Store) ListStruckBreaks(ctx context.Context, v Actor, set SetID) ([]StruckBreak, error) {
	return readInTransaction(ctx, s, v, "list the struck breaks", func(t *tx) ([]StruckBreak, error) {
		struck, err := t.loadStruckBreaks(ctx, []uuid.UUID{set.UUID})
		return struck[set], err
	})
}

func (t *tx) loadStruckBreaks(ctx context.Context, sets []uuid.UUID) (map[SetID][]StruckBreak, error) {
	rows, err := t.Queries.ListStruckBreaks(ctx, query.ListStruckBreaksParams{Sets: sets, But: undoneAtOnce})
	if err != nil {
		return nil, err
	}
	struck := map[SetID][]StruckBreak{}
	for _, row := range rows {
		b, err := struckBreakFromRow(row)
		if err != nil {
			return nil, err
		}
		set := SetID{row.Break.SetID}
		struck[set] = append(struck[set], b)
	}
	return struck, nil
}

func struckBreakFromRow(row query.ListStruckBreaksRow) (StruckBreak, error) {
	was, err := storedBreak(row.Break)
	was.ID = BreakID{row.BreakID}
	b := StruckBreak{Break: was, Reason: row.Break.DeleteReason, At: utcOrZero(row.Break.DeletedAt)}
	after := PersonID{row.FollowedBy}
	switch {
	case row.Break.WasStruck:
		b.By, b.IsBack, b.BackBy = was.EditedBy, true, after
	case row.Break.VersionOf != nil:
		b.By, b.Corrected = after, true
	default:
		b.By = was.EditedBy
	}
	return b, err
}

// ExportStruckBreaks returns what was struck of those meant, as ExportSets orders it; sets
// without anything struck are left out. A student can export only their own.
func (s *Store) ExportStruckBreaks(ctx context.Context, v Actor, scope ExportScope) ([]drill.StruckSet, error) {
	return readInTransaction(ctx, s, v, "export what was struck", func(t *tx) ([]drill.StruckSet, error) {
		students, err := t.listScopeStudents(ctx, scope)
		if err != nil {
			return nil, err
		}
		labels, err := t.labelStudents(ctx)
		if err != nil {
			return nil, err
		}
		var all []drill.StruckSet
		for _, student := range students {
			sets, err := t.loadStruckSets(ctx, student.ID, labels[student.ID])
			if err != nil {
				return nil, err
			}
			all = append(all, sets...)
		}
		return all, nil
	})
}

func (t *tx) loadStruckSets(ctx context.Context, student PersonID, label string) ([]drill.StruckSet, error) {
	recorded, err := t.loadRecordedSets(ctx, []PersonID{student})
	if err != nil {
		return nil, err
	}
	ids := make([]uuid.UUID, len(recorded))
	for i, set := range recorded {
		ids[i] = set.ID.UUID
	}
	struck, err := t.loadStruckBreaks(ctx, ids)
	if err != nil {
		return nil, err
	}
	var sets []drill.StruckSet
	for _, r := range recorded {
		if len(struck[r.ID]) == 0 {
			continue
		}
		set := drill.StruckSet{Set: r.DrillSet()}
		set.Student, set.Breaks = label, nil
		for _, b := range struck[r.ID] {
			set.Struck = append(set.Struck, drill.StruckBreak{
				Break: b.Break.Break, Changed: b.Corrected, PutBack: b.IsBack, ByCoach: !IsZero(b.By), Reason: b.Reason, At: b.At,
			})
		}
		sets = append(sets, set)
	}
	return sets, nil
}
