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

// Today is a student's first page.
type Today struct {
	Student Person
	// Tasks are the open assignments for them, the most urgent first.
	Tasks []Task
	// Open are their sets that are not closed, newest first.
	Open []OpenSet
	// Tables are the club's; LastTable is where they broke last, zero before.
	Tables    []Table
	LastTable TableID
	// Answers counts what coaches wrote that they have not read.
	Answers int
}

// Task is an assignment as one student has it.
type Task struct {
	Assignment AssignmentID
	Due        time.Time // midnight UTC of the day; zero for none
	Note       string
	// Drill is as its coach wrote it; what this student is to do is On.
	Drill Drill
	// Side is the break side it was given for; "" is the student's own.
	Side table.Side
	// Closed counts the student's closed sets of it.
	Closed int

	studentSide    table.Side // the student's side
	decidedChanges []decidedChange
}

// Name is the drill's, with the side where the assignment says one.
func (t Task) Name() string { return Assignment{Side: t.Side}.Name(t.Drill.Name) }

// OpenSet is a set that can be gone on with.
type OpenSet struct {
	ID              SetID
	Name            string
	Assignment      AssignmentID
	Planned, Breaks int
	Started         time.Time
}

// Instruction is what a student is to do on a kind of table, the right way round.
type Instruction struct {
	Setup   drill.Setup
	Window  table.Window
	Targets drill.Targets
	Breaks  int
	// Prescription is the decided change that the setup comes from, zero when
	// it is the drill's own.
	Prescription PrescriptionID
}

// InstructionOn gives what the student is to do on this kind of table: the change that a
// coach decided on last for this drill, or one that it replaced, on the same
// kind of table; else the drill's own setup, carried to the table. Proposals
// change nothing until they are decided, and a change that was decided stays
// until another is.
func (t Task) InstructionOn(k table.Kind) Instruction {
	n := t.Drill.UndecidedInstruction(t.breakSide(), k)
	if change := t.findDecidedChange(n.Setup.Side, k); change != nil {
		n.Setup, n.Prescription = change.setup.ForSide(n.Setup.Side), change.id
	}
	return n
}

// breakSide is the one that the task is broken from; "" is the drill's own.
func (t Task) breakSide() table.Side {
	if t.Side != "" {
		return t.Side
	}
	return t.studentSide
}

// findDecidedChange is the decided one for this drill on this kind of table: that of the
// same side or, for a student who has changed sides, of the other. A drill given
// for one side learns nothing from the other.
func (t Task) findDecidedChange(side table.Side, k table.Kind) (found *decidedChange) {
	for i, c := range t.decidedChanges {
		if c.lineage != t.Drill.Lineage || c.kind != k {
			continue
		}
		if c.setup.Side == side || t.Side == "" && found == nil {
			found = &t.decidedChanges[i]
		}
	}
	return found
}

// decidedChange is the latest decided change of one drill lineage on one kind of table
// from one side.
type decidedChange struct {
	id      PrescriptionID
	lineage DrillID
	kind    table.Kind
	state   State
	setup   drill.Setup
}

// UndecidedInstruction gives what the drill itself asks of a student who breaks from side, on
// this kind of table, whatever was decided for them; "" is the drill's own side.
func (d Drill) UndecidedInstruction(side table.Side, k table.Kind) Instruction {
	if side == "" {
		side = d.Setup.Side
	}
	on := d.Drill.ForSide(side).CarryToKind(k)
	return Instruction{Setup: on.Setup, Window: on.Window, Targets: on.Targets, Breaks: on.Breaks}
}

// GetToday gives the viewer's own page; [ErrNotFound] for a coach.
func (s *Store) GetToday(ctx context.Context, v Actor) (Today, error) {
	return readInTransaction(ctx, s, v, "get today's page", func(t *tx) (today Today, err error) {
		if today.Student, err = t.loadStudent(ctx, v.Person); err != nil {
			return Today{}, err
		}
		if today.Tasks, err = t.loadTasks(ctx, today.Student); err != nil {
			return Today{}, err
		}
		return today, t.loadTodayDetails(ctx, &today)
	})
}

func (t *tx) loadTasks(ctx context.Context, student Person) ([]Task, error) {
	decided, err := t.loadDecidedChanges(ctx, student.ID)
	if err != nil {
		return nil, err
	}
	rows, err := t.ListTasks(ctx, student.ID.UUID)
	if err != nil {
		return nil, err
	}
	tasks := make([]Task, 0, len(rows))
	for _, r := range rows {
		d, err := drillFromRow(r.Drill, r.Setup, true)
		if err != nil {
			return nil, err
		}
		tasks = append(tasks, Task{
			Assignment: AssignmentID{r.Assignment.ID}, Due: utcOrZero(r.Assignment.DueOn), Note: r.Assignment.Note,
			Drill: d, Side: table.Side(valueOrZero(r.Assignment.Side)), Closed: r.SetsClosed, studentSide: student.Side, decidedChanges: decided,
		})
	}
	return tasks, nil
}

func (t *tx) loadTodayDetails(ctx context.Context, today *Today) error {
	student := today.Student.ID.UUID
	open, err := t.ListOpenSets(ctx, student)
	if err != nil {
		return err
	}
	today.Open = mapRows(open, openSetFromRow)
	tables, err := t.Queries.ListTables(ctx, bool(ActiveOnly))
	if err != nil {
		return err
	}
	today.Tables = mapRows(tables, tableFromRow)
	last, err := t.GetLastTableID(ctx, student)
	if err != nil && !errors.Is(err, pgx.ErrNoRows) {
		return err
	}
	today.LastTable = TableID{last}
	today.Answers, err = t.CountUnreadAnswers(ctx, student)
	return err
}

func openSetFromRow(r query.ListOpenSetsRow) OpenSet {
	return OpenSet{
		ID: SetID{r.ID}, Name: r.Name, Assignment: idOrZero[AssignmentID](r.AssignmentID),
		Planned: r.Planned, Breaks: r.Breaks, Started: r.StartedAt.UTC(),
	}
}

func (t *tx) loadDecidedChanges(ctx context.Context, student PersonID) ([]decidedChange, error) {
	rows, err := t.ListDecidedChanges(ctx, student.UUID)
	if err != nil {
		return nil, err
	}
	all := make([]decidedChange, 0, len(rows))
	for _, r := range rows {
		setup, err := setupFromRow(r.Setup)
		if err != nil {
			return nil, err
		}
		all = append(all, decidedChange{
			id: PrescriptionID{r.ID}, lineage: DrillID{r.Lineage}, state: State(r.State), setup: setup,
			kind: table.Kind{Feet: r.Feet, CornerMouth: table.Inches(r.CornerIn), SideMouth: table.Inches(r.SideIn)},
		})
	}
	return all, nil
}
