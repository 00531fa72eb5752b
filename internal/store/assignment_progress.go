package store

import (
	"context"
	"time"

	"breakwright/internal/store/internal/query"
	"breakwright/internal/table"
)

// AssignmentProgress is how far a student is with an assignment.
type AssignmentProgress struct {
	Student PersonID
	Name    string
	Side    table.Side // "" when it is not known yet
	// Sets counts closed sets, Breaks the breaks of all.
	Sets, Breaks int
	// Last is the latest set, open when LastClosed is the zero time; zero
	// before the first.
	Last                    SetID
	LastStarted, LastClosed time.Time
	// Verdict is that of the latest advice, "" before the first; Prescription
	// is what that advice proposed, if anything, and State what became of it.
	Verdict      string
	Prescription PrescriptionID
	State        State
}

// GetAssignmentProgress returns a row for each student that an assignment is for or
// who did a set of it, by name, without archived ones; two queries however
// many they are. Coaches only.
func (s *Store) GetAssignmentProgress(ctx context.Context, v Actor, id AssignmentID) ([]AssignmentProgress, error) {
	return readInTransaction(ctx, s, v, "get the progress", func(t *tx) ([]AssignmentProgress, error) {
		if err := v.requireCoach(); err != nil {
			return nil, err
		}
		if _, err := t.GetAssignment(ctx, id.UUID); err != nil {
			return nil, err
		}
		rows, err := t.ListAssignmentProgress(ctx, id.UUID)
		return mapRows(rows, progressFromRow), err
	})
}

func progressFromRow(r query.ListAssignmentProgressRow) AssignmentProgress {
	return AssignmentProgress{
		Student: PersonID{r.ID}, Name: r.Name, Side: table.Side(valueOrZero(r.Side)),
		Sets: r.SetsClosed, Breaks: r.Breaks,
		Last: idOrZero[SetID](r.LastSetID), LastStarted: utcOrZero(r.LastStartedAt), LastClosed: utcOrZero(r.LastClosedAt),
		Verdict: r.Verdict, Prescription: idOrZero[PrescriptionID](r.PrescriptionID), State: State(r.State),
	}
}
