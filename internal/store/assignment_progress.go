package store

import (
	"context"
	"time"

	"breakwright/internal/store/internal/query"
	"breakwright/internal/table"
)

// Progress is how far a student is with an assignment.
type Progress struct {
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

// AssignmentProgress gives a row for each student that an assignment is for or
// who did a set of it, by name, without archived ones; two queries however
// many they are. Coaches only.
func (s *Store) AssignmentProgress(ctx context.Context, v Viewer, id AssignmentID) ([]Progress, error) {
	return read(ctx, s, v, "get the progress", func(t *tx) ([]Progress, error) {
		if err := v.mustCoach(); err != nil {
			return nil, err
		}
		if _, err := t.GetAssignment(ctx, id.UUID); err != nil {
			return nil, err
		}
		rows, err := t.ListProgress(ctx, id.UUID)
		return each(rows, progress), err
	})
}

func progress(r query.ListProgressRow) Progress {
	return Progress{
		Student: PersonID{r.ID}, Name: r.Name, Side: table.Side(orZero(r.Side)),
		Sets: r.SetsClosed, Breaks: r.Breaks,
		Last: orNone[SetID](r.LastSetID), LastStarted: utc(r.LastStartedAt), LastClosed: utc(r.LastClosedAt),
		Verdict: r.Verdict, Prescription: orNone[PrescriptionID](r.PrescriptionID), State: State(r.State),
	}
}
