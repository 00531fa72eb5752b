package store

import (
	"context"
	"errors"
	"time"

	"github.com/jackc/pgx/v5"

	"breakwright/internal/drill"
	"breakwright/internal/store/internal/query"
	"breakwright/internal/table"
)

// Set is a set with all that belongs to it.
//
// A student starts, records and closes their own; a coach reads everybody's and
// corrects them, and starts none ([ErrNotAllowed]). Another student's is
// [ErrNotFound]. Once closed it is changed by a coach alone, but for a while its
// student may open it again. It is kept with its student; only an open one without
// a break goes.
type Set struct {
	ID          SetID
	Student     PersonID
	StudentName string
	// Assignment and Drill.ID are zero for a set from a break log, and for one
	// that was trained alone. The drill is as its coach wrote it.
	Assignment AssignmentID
	// Training says in words what was trained without an assignment, "" else.
	Training string
	Drill    Drill
	Table    Table
	Name     string
	Setup    drill.Setup
	// Window, Targets and House are those of the drill, the right way round and
	// carried to the table; without a drill the window is the one it was counted
	// with, and the targets are the standard ones.
	Window  table.Window
	Targets drill.Targets
	House   drill.HouseRules
	Planned int
	Started time.Time
	Closed  time.Time // zero while it is open
	// Revision counts the changes to its breaks.
	Revision int
	// Breaks are in the order of their numbers; deleted ones leave a gap.
	Breaks []Break

	Advice *Advice // nil before the set is closed, and for one from a break log
	// Changes are what was proposed after it and decided on it, oldest first,
	// without what was taken back; Prescription is the last of them, nil for none.
	Changes      []Prescription
	Prescription *Prescription
	// ComesFirst is a decision that was made on a set before and comes before what this
	// one says, nil for none and while it says nothing.
	ComesFirst *Prescription
	// Under is the change that it was broken under, nil for none: it tries that out,
	// unless SettledBefore says that an older set had settled what came of it.
	Under         *Prescription
	SettledBefore bool
	Messages      []Message // oldest first
	// WordBack is what the student said of it in a word.
	WordBack WordBack
}

// Advice is what was said when a set was closed, as it was said.
//
// The adviser writes it, and who may read the set reads it. It is never changed: it goes
// when its set is opened again, and a set that is closed again has another.
type Advice struct {
	Verdict      string
	JSON         []byte
	RulesVersion string
	At           time.Time
}

func adviceFromRow(row query.Advice) Advice {
	return Advice{Verdict: row.Verdict, JSON: row.Advice, RulesVersion: row.RulesVersion, At: row.CreatedAt.UTC()}
}

// DrillSet returns the set as the pure packages know it: breaks numbered without
// gaps.
func (s Set) DrillSet() drill.Set {
	seen := drill.Set{Student: s.StudentName, Name: s.Name, Table: s.Table.Label(), Kind: s.Table.Kind, Setup: s.Setup}
	for i, b := range s.Breaks {
		b.Number = i + 1
		seen.Breaks = append(seen.Breaks, b.Break)
	}
	return seen
}

// Title is what a set is called on pages: its drill, else what was trained, else
// its name.
func (s Set) Title() string {
	switch {
	case s.Drill.Name != "":
		return s.Drill.Name
	case s.Training != "":
		return s.Training
	}
	return s.Name
}

// GetSet returns a set: a coach's of anyone in the club, a student's their own.
func (s *Store) GetSet(ctx context.Context, v Actor, id SetID) (Set, error) {
	return readInTransaction(ctx, s, v, "get the set", func(t *tx) (Set, error) {
		set, err := t.loadSet(ctx, id)
		if err != nil {
			return Set{}, err
		}
		return set, t.loadSetReview(ctx, &set)
	})
}

// loadSet returns a set with its drill and breaks.
func (t *tx) loadSet(ctx context.Context, id SetID) (Set, error) {
	row, err := t.GetSet(ctx, id.UUID)
	if err != nil {
		return Set{}, err
	}
	set, err := setFromRow(row.BreakSet, row.PoolTable, row.Setup)
	if err != nil {
		return Set{}, err
	}
	set.StudentName, set.Window = row.StudentName, windowFromRow(row.SetTally)
	if err := t.loadDrillInto(ctx, &set, idOrZero[DrillID](row.BreakSet.DrillID)); err != nil {
		return Set{}, err
	}
	breaks, err := t.ListBreaks(ctx, id.UUID)
	if err != nil {
		return Set{}, err
	}
	for _, r := range breaks {
		b, err := storedBreak(r)
		if err != nil {
			return Set{}, err
		}
		set.Breaks = append(set.Breaks, b)
	}
	return set, nil
}

func (t *tx) loadDrillInto(ctx context.Context, set *Set, id DrillID) error {
	var d Drill
	if !IsZero(id) {
		var err error
		if d, err = t.loadDrill(ctx, id); err != nil {
			return err
		}
	}
	set.applyKeptDrill(d)
	return nil
}

// applyKeptDrill is applyDrill for a set with the window it was counted with, which
// stays when there is no drill.
func (s *Set) applyKeptDrill(d Drill) {
	counted := s.Window
	s.applyDrill(d)
	if IsZero(d.ID) {
		s.Window = counted
	}
}

// applyDrill gives the set its drill, with the window and the targets of that;
// the standard ones when there is no drill.
func (s *Set) applyDrill(d Drill) {
	kind := s.Table.Kind
	s.Window, s.Targets = kind.StandardWindow(), drill.StandardTargets(kind)
	if IsZero(d.ID) {
		return
	}
	n := d.UndecidedInstruction(s.Setup.Side, kind)
	s.Drill, s.Window, s.Targets, s.House = d, n.Window, n.Targets, n.House
}

// loadSetReview adds what was said about the set.
func (t *tx) loadSetReview(ctx context.Context, set *Set) error {
	given, err := t.GetAdvice(ctx, set.ID.UUID)
	switch {
	case err == nil:
		advice := adviceFromRow(given)
		set.Advice = &advice
	case !errors.Is(err, pgx.ErrNoRows):
		return err
	}
	changes, err := t.ListChangesOfSet(ctx, set.ID.UUID)
	if err != nil {
		return err
	}
	for _, r := range changes {
		p, err := prescriptionFromRow(r.Prescription, r.Setup, r.Setup_2, r.Setup_3)
		if err != nil {
			return err
		}
		set.Changes = append(set.Changes, p)
		set.Prescription = &p
	}
	if err := t.loadComesFirst(ctx, set); err != nil {
		return err
	}
	if err := t.loadUnder(ctx, set); err != nil {
		return err
	}
	if err := t.loadWordBack(ctx, set); err != nil {
		return err
	}
	messages, err := t.ListMessages(ctx, set.ID.UUID)
	set.Messages = mapRows(messages, messageFromRow)
	return err
}

// loadComesFirst adds the decision that comes before what the set says; one that says
// nothing yet, as at the table, needs none of the student's changes.
func (t *tx) loadComesFirst(ctx context.Context, set *Set) error {
	if set.Advice == nil {
		return nil
	}
	all, err := t.loadChangeRecords(ctx, []PersonID{set.Student})
	if err != nil {
		return err
	}
	book := all[set.Student]
	if first := book.ComesFirst(closedSet(*set)); first != nil {
		set.ComesFirst = new(book.records[first.ID])
	}
	return nil
}

// loadUnder adds the change that the set was broken under.
func (t *tx) loadUnder(ctx context.Context, set *Set) error {
	k := set.Table.Kind
	r, err := t.GetChangeKnownAt(ctx, query.GetChangeKnownAtParams{
		StudentID: set.Student.UUID, Feet: k.Feet, Small: k.Small, CornerIn: float64(k.CornerMouth), SideIn: float64(k.SideMouth), StartedAt: set.Started,
	})
	if errors.Is(err, pgx.ErrNoRows) {
		return nil
	}
	if err != nil {
		return err
	}
	p, err := prescriptionFromRow(r.Prescription, r.Setup, r.Setup_2, r.Setup_3)
	if err == nil && p.After.ForSide(set.Setup.Side).Rounded() == set.Setup.Rounded() {
		set.Under, set.SettledBefore = &p, p.State.IsOutcome() && r.CountedBefore
	}
	return err
}

func setFromRow(row query.BreakSet, pool query.PoolTable, setup query.Setup) (Set, error) {
	s, err := setupFromRow(setup)
	return Set{
		ID: SetID{row.ID}, Student: PersonID{row.StudentID}, Assignment: idOrZero[AssignmentID](row.AssignmentID),
		Table: tableFromRow(pool), Name: row.Name, Training: row.Training, Setup: s, Planned: row.Planned,
		Started: row.StartedAt.UTC(), Closed: utcOrZero(row.ClosedAt), Revision: row.Revision,
	}, err
}
