package store

import (
	"context"
	"errors"
	"fmt"
	"slices"
	"time"

	"github.com/google/uuid"
	"github.com/jackc/pgx/v5"

	"breakwright/internal/coaching"
	"breakwright/internal/drill"
	"breakwright/internal/store/internal/query"
	"breakwright/internal/table"
)

// NewSet is a set to be started.
type NewSet struct {
	ID SetID // made by the phone
	// Assignment is zero for training alone: then Training, Setup and Window say
	// what is trained, and Breaks how many.
	Assignment AssignmentID
	Table      TableID
	// Training names what is trained without an assignment.
	Training string
	// Window is where the cue ball should stop in training; the zero window is
	// the table's standard one.
	Window table.Window
	// Breaks are how many are planned in training; zero for the usual ten.
	Breaks int
	// At is when the first ball was racked; zero for now. A phone that was out
	// of reach says it later.
	At time.Time
	// Setup is what the page told the student to do, for a phone that was out
	// of reach while a coach decided otherwise; the zero setup is what is to be
	// done now (Task.On).
	Setup drill.Setup
}

// StartSet begins a set of the actor's own. The first one under a decided
// change puts that change in trial. The same start again returns the set as it
// is; another one under its id is an [ErrConflict]. [ErrNotFound] when the
// assignment is not for the actor, [ErrConflict] when it had ended or the
// table was put away before the set was begun, [ErrFull] after so many in a day, [ErrNotAllowed] for a coach.
func (s *Store) StartSet(ctx context.Context, v Actor, start NewSet) (Set, error) {
	start.ID = idOrNew(start.ID)
	return readInTransaction(ctx, s, v, "start the set", func(t *tx) (Set, error) {
		if v.Role != Student {
			return Set{}, newRefusal(ErrNotAllowed, "only students record sets")
		}
		if err := t.LockUntilCommit(ctx, v.Person.String()); err != nil {
			return Set{}, err
		}
		there, err := t.loadSet(ctx, start.ID)
		switch {
		case err == nil && (there.Assignment != start.Assignment || there.Table.ID != start.Table):
			return Set{}, newRefusal(ErrConflict, "this set was started on another table or for another drill")
		case err == nil:
			return there, nil
		case !errors.Is(err, pgx.ErrNoRows):
			return Set{}, err
		}
		if err := t.requireRoomForSet(ctx); err != nil {
			return Set{}, err
		}
		if err := t.startSet(ctx, start); err != nil {
			return Set{}, err
		}
		return t.loadSet(ctx, start.ID)
	})
}

// MaxSetsADay is how many sets a student may begin in a day: two thousand breaks,
// more than anybody makes, and few enough that a page left open by mistake or a
// script does not fill the disk. A phone that was away for a week is within it.
const MaxSetsADay = 200

// requireRoomForSet refuses one set too many.
func (t *tx) requireRoomForSet(ctx context.Context) error {
	made, err := t.CountSetsMadeLately(ctx, t.actor.Person.UUID)
	if err == nil && made >= MaxSetsADay {
		return newRefusal(ErrFull, "%d sets were begun within a day, which is the most; go on with one of them, or come back tomorrow", made)
	}
	return err
}

func (t *tx) startSet(ctx context.Context, start NewSet) error {
	if start.At.IsZero() {
		start.At = presentTime()
	}
	student, err := t.loadStudent(ctx, t.actor.Person)
	if err != nil {
		return err
	}
	where, err := t.GetTable(ctx, start.Table.UUID)
	if err != nil {
		return err
	}
	if where.ArchivedAt != nil && !start.At.Before(*where.ArchivedAt) {
		return newRefusal(ErrConflict, "this table was put away: choose another")
	}
	kind := kindFromRow(where)
	if IsZero(start.Assignment) && start.Training != "" {
		return t.startTraining(ctx, start, where)
	}
	task, err := t.loadTask(ctx, student, start.Assignment, start.At)
	if err != nil {
		return err
	}
	todo := task.InstructionOn(kind)
	if start.Setup == (drill.Setup{}) {
		start.Setup = todo.Setup
	}
	setup, err := t.ensureStartSetup(ctx, start.Setup, kind)
	if err != nil {
		return err
	}
	judged := task.Drill.UndecidedInstruction(start.Setup.Side, kind)
	if err := t.insertStarted(ctx, start, task.Drill.ID, judged, setup); err != nil {
		return err
	}
	return t.inBook(ctx, t.actor.Person, func(b *changeBook) error {
		b.StartSet(startUnder(start.ID, start.At, start.Setup, kind, task))
		return nil
	})
}

// startUnder is a set of a task as the student's book notes it: training has
// none, and leaves what is being tried as it is.
func startUnder(id SetID, at time.Time, setup drill.Setup, k table.Kind, task Task) coaching.SetStart {
	begun := coaching.SetStart{
		Set: coaching.ID(id.UUID), Lineage: coaching.ID(task.Drill.Lineage.UUID), Kind: k, Setup: setup, At: at.UTC(),
	}
	if todo := task.InstructionOn(k); setup.Rounded() == todo.Setup.Rounded() {
		begun.Under = coaching.ID(todo.Prescription.UUID)
	}
	return begun
}

// loadTask returns an assignment of the student that was open at a moment: a
// phone out of reach begins sets of a drill that has ended since.
func (t *tx) loadTask(ctx context.Context, student Person, id AssignmentID, at time.Time) (Task, error) {
	row, err := t.GetTask(ctx, query.GetTaskParams{AssignmentID: id.UUID, StudentID: student.ID.UUID})
	if err != nil {
		return Task{}, err
	}
	if ended := row.Assignment.EndedAt; ended != nil && !at.Before(*ended) {
		return Task{}, newRefusal(ErrConflict, "this drill is over: look at today's page")
	}
	d, err := drillFromRow(row.Drill, row.Setup, true)
	if err != nil {
		return Task{}, err
	}
	changes, err := t.loadChangeRecords(ctx, []PersonID{student.ID})
	return Task{Assignment: id, Drill: d, Side: table.Side(valueOrZero(row.Assignment.Side)), studentSide: student.Side, changes: changes[student.ID]}, err
}

// ensureStartSetup returns the row of the setup to be broken under.
func (t *tx) ensureStartSetup(ctx context.Context, setup drill.Setup, k table.Kind) (id uuid.UUID, err error) {
	if err := setup.CheckPossible(k); err != nil {
		return uuid.Nil, err
	}
	err = t.asAdviser(ctx, t.actor.Person, func() error {
		id, err = t.ensureSetup(ctx, setup)
		return err
	})
	return id, err
}

func (t *tx) insertStarted(ctx context.Context, start NewSet, d DrillID, judged Instruction, setup uuid.UUID) error {
	name, err := t.freeSetName(ctx, start.At)
	if err != nil {
		return err
	}
	set := query.InsertSetParams{
		ClubID: t.actor.Club.UUID, ID: start.ID.UUID, StudentID: t.actor.Person.UUID,
		AssignmentID: uuidOrNull(start.Assignment), DrillID: uuidOrNull(d), TableID: start.Table.UUID, SetupID: setup,
		Name: name, Planned: judged.Breaks, StartedAt: start.At, Training: start.Training,
	}
	rows, err := t.InsertSet(ctx, set)
	if err != nil {
		return err
	}
	if rows == 0 {
		return newRefusal(ErrConflict, "there is another set of this id")
	}
	t.queueEvent(SetStarted, t.actor.Person, start.ID)
	return t.createTally(ctx, set, judged.Window)
}

// nameLayout is how a set is named by its beginning.
const nameLayout = "2006-01-02 15:04"

// freeSetName names a set by the club's clock, and tells those of one minute
// apart.
func (t *tx) freeSetName(ctx context.Context, at time.Time) (string, error) {
	club, err := t.loadClub(ctx)
	if err != nil {
		return "", err
	}
	base := at.In(club.Location()).Format(nameLayout)
	taken, err := t.ListSetNames(ctx, query.ListSetNamesParams{StudentID: t.actor.Person.UUID, Beginning: base})
	if err != nil {
		return "", err
	}
	return freeName(base, func(name string) bool { return slices.Contains(taken, name) }), nil
}

// freeName adds " (2)", " (3)" and so on to a name that is taken.
func freeName(base string, taken func(string) bool) string {
	name := base
	for n := 2; taken(name); n++ {
		name = fmt.Sprintf("%s (%d)", base, n)
	}
	return name
}
