package store

import (
	"context"
	"math"

	"github.com/google/uuid"

	"breakwright/internal/drill"
	"breakwright/internal/store/internal/query"
	"breakwright/internal/table"
)

// SetMove says where a set really was broken.
type SetMove struct {
	Table TableID
	// Assignment is the drill that was broken; zero leaves the drill as it is.
	Assignment AssignmentID
}

// MoveSet puts a set right that was begun on the wrong table or for the wrong
// drill: a student's own until it is closed, a coach's any. On another table
// the setup and the places are carried in proportion, as they were read off the
// diamonds; for another drill the setup is what that told the student to do.
// What a closed set says is said anew. [ErrClosed] for a student's closed set,
// [ErrConflict] when the table was put away, a break does not fit, or a coach
// has decided on what the set says.
func (s *Store) MoveSet(ctx context.Context, v Actor, id SetID, to SetMove, judge Judge) error {
	return s.inTransaction(ctx, v, "move the set", func(t *tx) error {
		set, err := t.lockStudentsSet(ctx, id)
		if err != nil {
			return err
		}
		if !set.Closed.IsZero() && !v.IsCoach() {
			return newRefusal(ErrClosed, "this set is closed: ask your coach to move it")
		}
		if to.Table == set.Table.ID && (IsZero(to.Assignment) || to.Assignment == set.Assignment) {
			return nil
		}
		return t.moveSet(ctx, set, to, judge)
	})
}

func (t *tx) moveSet(ctx context.Context, set Set, to SetMove, judge Judge) error {
	closed := set.Closed
	if !closed.IsZero() {
		if err := t.reopenClosed(ctx, set); err != nil {
			return err
		}
	}
	moved, err := t.applyMove(ctx, set, to)
	if err != nil {
		return err
	}
	if err := t.moveInBook(ctx, set, moved); err != nil {
		return err
	}
	if err := t.writeMove(ctx, moved); err != nil {
		return err
	}
	if err := t.carryBreaksOut(ctx, set.Table.Kind, moved); err != nil {
		return err
	}
	if closed.IsZero() {
		t.queueEvent(BreakSaved, set.Student, set.ID)
		return nil
	}
	again, err := t.loadSet(ctx, set.ID)
	if err != nil {
		return err
	}
	return t.closeLockedSet(ctx, again, &closed, judge)
}

// moveInBook lets the student's book hear where the set really was begun. Once a
// later set has begun, what that changed stays.
func (t *tx) moveInBook(ctx context.Context, from, to Set) error {
	later, err := t.HasLaterSet(ctx, query.HasLaterSetParams{StudentID: from.Student.UUID, StartedAt: from.Started})
	if err != nil || later {
		return err
	}
	if err := t.takeBackStart(ctx, from); err != nil || IsZero(to.Assignment) {
		return err
	}
	student, err := t.loadStudent(ctx, to.Student)
	if err != nil {
		return err
	}
	task, err := t.loadTask(ctx, student, to.Assignment, to.Started)
	if isNoRow(err) { // the student has left the class since
		return nil
	}
	if err != nil {
		return err
	}
	return t.inBook(ctx, to.Student, func(b *changeBook) error {
		b.StartSet(startUnder(to.ID, to.Started, to.Setup, to.Table.Kind, task))
		return nil
	})
}

// applyMove returns the set as it is on the other table or for the other drill.
func (t *tx) applyMove(ctx context.Context, set Set, to SetMove) (Set, error) {
	row, err := t.GetTable(ctx, to.Table.UUID)
	if err != nil {
		return Set{}, err
	}
	if row.ArchivedAt != nil {
		return Set{}, newRefusal(ErrConflict, "this table was put away: choose another")
	}
	from := set.Table.Kind
	set.Table = tableFromRow(row)
	scale := set.Table.Kind.Length() / from.Length()
	set.Setup = set.Setup.CarryToKind(from, set.Table.Kind)
	if IsZero(set.Drill.ID) {
		set.Window = set.Window.Scale(scale)
	} else {
		set.applyDrill(set.Drill)
	}
	if !IsZero(to.Assignment) && to.Assignment != set.Assignment {
		if err := t.applyAssignment(ctx, &set, to.Assignment); err != nil {
			return Set{}, err
		}
	}
	for i := range set.Breaks {
		b := &set.Breaks[i]
		if scale != 1 {
			carryBreak(&b.Break, scale, set.Table.Kind)
			b.Revision, b.EditedBy = b.Revision+1, t.actor.editorID()
		}
		if err := b.Check(set.Setup, set.Table.Kind); err != nil {
			return Set{}, newRefusal(ErrConflict, "break %d does not fit there: %s", b.Number, err)
		}
	}
	return set, nil
}

// applyAssignment makes the set one of another assignment.
func (t *tx) applyAssignment(ctx context.Context, set *Set, id AssignmentID) error {
	student, err := t.loadStudent(ctx, set.Student)
	if err != nil {
		return err
	}
	task, err := t.loadTask(ctx, student, id, set.Started)
	if err != nil {
		return err
	}
	set.Assignment, set.Training = id, ""
	set.Setup = task.InstructionOn(set.Table.Kind).Setup
	set.applyDrill(task.Drill)
	return nil
}

// carryBreak carries the places of a break in proportion, onto the cloth and to a
// tenth of an inch, as a phone carries what it has still to send.
func carryBreak(b *drill.Break, scale table.Inches, k table.Kind) {
	tenth := func(v table.Inches) table.Inches { return table.Inches(math.Round(float64(v)*10)/10) + 0 } // + 0 turns -0 into 0
	carry := func(p table.Place) table.Place {
		p = k.SettleBall(table.Place{X: p.X * scale, Y: p.Y * scale})
		return table.Place{X: tenth(p.X), Y: tenth(p.Y)}
	}
	if b.Cue.How == drill.Stopped {
		b.Cue.Place = carry(b.Cue.Place)
	}
	for i := range b.Rest {
		b.Rest[i].Place = carry(b.Rest[i].Place)
	}
}

// writeMove writes a set as applyMove gave it, with its counts.
func (t *tx) writeMove(ctx context.Context, set Set) error {
	var setup uuid.UUID
	err := t.asAdviser(ctx, set.Student, func() (err error) {
		setup, err = t.ensureSetup(ctx, set.Setup)
		return err
	})
	if err != nil {
		return err
	}
	err = t.Queries.MoveSet(ctx, query.MoveSetParams{
		ID: set.ID.UUID, AssignmentID: uuidOrNull(set.Assignment), DrillID: uuidOrNull(set.Drill.ID),
		TableID: set.Table.ID.UUID, SetupID: setup, Training: set.Training,
	})
	if err != nil {
		return err
	}
	var n Tally
	for _, b := range set.Breaks {
		row := breakRow(b.Break)
		if err := t.upsertBreak(ctx, set, row, b); err != nil {
			return err
		}
		kept, err := drillBreak(row)
		if err != nil {
			return err
		}
		n = n.Plus(TallyOf(kept, set.Setup.Rounded(), set.Window))
	}
	err = t.ChangeTallyWindow(ctx, query.ChangeTallyWindowParams{
		SetID: set.ID.UUID, WindowLeft: float64(set.Window.Left), WindowRight: float64(set.Window.Right),
		WindowHead: float64(set.Window.Head), WindowFoot: float64(set.Window.Foot),
	})
	if err != nil {
		return err
	}
	return t.saveTally(ctx, set.ID.UUID, n)
}

// carryBreaksOut carries what does not count of a set from a table to the one that it was
// moved to, so that a break that is put back lies as those that were in.
func (t *tx) carryBreaksOut(ctx context.Context, from table.Kind, to Set) error {
	scale := to.Table.Kind.Length() / from.Length()
	if scale == 1 {
		return nil
	}
	rows, err := t.ListBreaksOut(ctx, to.ID.UUID)
	if err != nil {
		return err
	}
	for _, row := range rows {
		b, err := drillBreak(row)
		if err != nil {
			return err
		}
		carryBreak(&b, scale, to.Table.Kind)
		carried := breakRow(b)
		err = t.CarryBreakOut(ctx, query.CarryBreakOutParams{ID: row.ID, CueX: carried.CueX, CueY: carried.CueY, Balls: carried.Balls})
		if err != nil {
			return err
		}
	}
	return nil
}
