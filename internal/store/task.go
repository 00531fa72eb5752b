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
	// Closed counts the student's closed sets of it.
	Closed int

	side    table.Side
	decided []decided
}

// OpenSet is a set that can be gone on with.
type OpenSet struct {
	ID              SetID
	Name            string
	Assignment      AssignmentID
	Planned, Breaks int
	Started         time.Time
}

// Next is what a student is to do on a kind of table, the right way round.
type Next struct {
	Setup   drill.Setup
	Window  table.Window
	Targets drill.Targets
	Breaks  int
	// Prescription is the decided change that the setup comes from, zero when
	// it is the drill's own.
	Prescription PrescriptionID
}

// On gives what the student is to do on this kind of table: the change that a
// coach decided on last for this drill, or one that it replaced, on the same
// kind of table; else the drill's own setup, carried to the table. Proposals
// change nothing until they are decided, and a change that was decided stays
// until another is.
func (t Task) On(k table.Kind) Next {
	return next(t.Drill, t.side, k, t.decided)
}

// decided is the latest decided change of one drill lineage on one kind of table.
type decided struct {
	id      PrescriptionID
	lineage DrillID
	kind    table.Kind
	state   State
	setup   drill.Setup
}

func next(d Drill, side table.Side, k table.Kind, all []decided) Next {
	if side == "" {
		side = d.Setup.Side
	}
	mine := d.Drill.For(side)
	n := Next{
		Setup:  mine.Setup.OnKind(mine.Kind, k),
		Window: windowOn(mine.Window, mine.Kind, k), Targets: mine.Targets, Breaks: mine.Breaks,
	}
	for _, change := range all {
		if change.lineage == d.Lineage && change.kind == k {
			n.Setup, n.Prescription = change.setup.For(side), change.id
		}
	}
	return n
}

// windowOn carries a window to another kind of table, in proportion.
func windowOn(w table.Window, from, to table.Kind) table.Window {
	scale := to.Length() / from.Length()
	return table.Window{Left: w.Left * scale, Right: w.Right * scale, Head: w.Head * scale, Foot: w.Foot * scale}
}

// GetToday gives the viewer's own page; [ErrNotFound] for a coach.
func (s *Store) GetToday(ctx context.Context, v Viewer) (Today, error) {
	return read(ctx, s, v, "get today's page", func(t *tx) (today Today, err error) {
		if today.Student, err = t.student(ctx, v.Person); err != nil {
			return Today{}, err
		}
		if today.Tasks, err = t.tasks(ctx, today.Student); err != nil {
			return Today{}, err
		}
		return today, t.aroundTasks(ctx, &today)
	})
}

func (t *tx) tasks(ctx context.Context, student Person) ([]Task, error) {
	decided, err := t.decided(ctx, student.ID)
	if err != nil {
		return nil, err
	}
	rows, err := t.ListTasks(ctx, student.ID.UUID)
	if err != nil {
		return nil, err
	}
	tasks := make([]Task, 0, len(rows))
	for _, r := range rows {
		d, err := drillOf(r.Drill, r.Setup, true)
		if err != nil {
			return nil, err
		}
		tasks = append(tasks, Task{
			Assignment: AssignmentID{r.Assignment.ID}, Due: utc(r.Assignment.DueOn), Note: r.Assignment.Note,
			Drill: d, Closed: r.SetsClosed, side: student.Side, decided: decided,
		})
	}
	return tasks, nil
}

func (t *tx) aroundTasks(ctx context.Context, today *Today) error {
	student := today.Student.ID.UUID
	open, err := t.ListOpenSets(ctx, student)
	if err != nil {
		return err
	}
	today.Open = each(open, openSet)
	tables, err := t.Queries.ListTables(ctx, bool(Live))
	if err != nil {
		return err
	}
	today.Tables = each(tables, poolTable)
	last, err := t.LastTable(ctx, student)
	if err != nil && !errors.Is(err, pgx.ErrNoRows) {
		return err
	}
	today.LastTable = TableID{last}
	today.Answers, err = t.CountAnswers(ctx, student)
	return err
}

func openSet(r query.ListOpenSetsRow) OpenSet {
	return OpenSet{
		ID: SetID{r.ID}, Name: r.Name, Assignment: orNone[AssignmentID](r.AssignmentID),
		Planned: r.Planned, Breaks: r.Breaks, Started: r.StartedAt.UTC(),
	}
}

func (t *tx) decided(ctx context.Context, student PersonID) ([]decided, error) {
	rows, err := t.ListDecided(ctx, student.UUID)
	if err != nil {
		return nil, err
	}
	all := make([]decided, 0, len(rows))
	for _, r := range rows {
		setup, err := setupOf(r.Setup)
		if err != nil {
			return nil, err
		}
		all = append(all, decided{
			id: PrescriptionID{r.ID}, lineage: DrillID{r.Lineage}, state: State(r.State), setup: setup,
			kind: table.Kind{Feet: r.Feet, CornerMouth: table.Inches(r.CornerIn), SideMouth: table.Inches(r.SideIn)},
		})
	}
	return all, nil
}
