package store

import (
	"context"
	"errors"
	"time"

	"github.com/google/uuid"
	"github.com/jackc/pgx/v5"

	"breakwright/internal/coaching"
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
	// Tables are the club's; LastTable and LastStart are where and when they
	// began their last set, zero before.
	Tables    []Table
	LastTable TableID
	LastStart time.Time
	// Answers counts what coaches wrote beside their sets that they have not read, Messages
	// is what they wrote beside none.
	Answers  int
	Messages []Message
	// Hurt is the set after which they said that it hurts, zero when they said nothing,
	// took it back or closed a later one.
	Hurt SetID
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
	// Closed counts the student's closed sets of it; LastSet is the latest and LastClosed
	// when they closed it, zero for none.
	Closed     int
	LastSet    SetID
	LastClosed time.Time
	// CheckRack says that the advice on the last set of the drill asks for the
	// rack to be checked. Only Today's tasks have it.
	CheckRack bool

	studentSide table.Side // the student's side
	changes     changeRecords
}

// Name is the drill's, with the side where the assignment says one.
func (t Task) Name() string { return Assignment{Side: t.Side}.Name(t.Drill.Name) }

// OpenSet is a set that can be gone on with.
type OpenSet struct {
	ID   SetID
	Name string
	// Title is the drill's name, or what is trained; "" for neither.
	Title           string
	Assignment      AssignmentID
	Planned, Breaks int
	Started         time.Time
}

// Instruction is what a student is to do on a kind of table, the right way round.
type Instruction struct {
	Setup   drill.Setup
	Window  table.Window
	Targets drill.Targets
	House   drill.HouseRules
	Breaks  int
	// Prescription is the decided change that the setup comes from, zero when
	// it is the drill's own.
	Prescription PrescriptionID
}

// InstructionOn returns what the student is to do on this kind of table: the change that a
// coach decided on last of those that the drill follows, or one that it replaced, on the
// same kind of table; else the drill's own setup, carried to the table. Proposals
// change nothing until they are decided, and a change that was decided stays
// until another is.
func (t Task) InstructionOn(k table.Kind) Instruction {
	n := t.Drill.UndecidedInstruction(t.breakSide(), k)
	if c := t.changes.Standing(t.assignedOn(k)); c != nil {
		n.Setup, n.Prescription = c.After().ForSide(n.Setup.Side), PrescriptionID{uuid.UUID(c.ID)}
	}
	return n
}

// ChangeOn returns the latest change that this task's drill follows on a kind of table, in
// whatever state, nil when there is none.
func (t Task) ChangeOn(k table.Kind) *Prescription {
	c := t.changes.Latest(t.assignedOn(k))
	if c == nil {
		return nil
	}
	p := t.changes.records[c.ID]
	return &p
}

// assignedOn is the task as the student's changes know it.
func (t Task) assignedOn(k table.Kind) coaching.AssignedDrill {
	return coaching.AssignedDrill{Lineage: coaching.ID(t.Drill.Lineage.UUID), Kind: k, Setup: t.UndecidedSetup(k), AnySide: t.Side == ""}
}

// breakSide is the one that the task is broken from; "" is the drill's own.
func (t Task) breakSide() table.Side {
	if t.Side != "" {
		return t.Side
	}
	return t.studentSide
}

// UndecidedInstruction returns what the drill itself asks of a student who breaks from side, on
// this kind of table, whatever was decided for them; "" is the drill's own side.
func (d Drill) UndecidedInstruction(side table.Side, k table.Kind) Instruction {
	if side == "" {
		side = d.Setup.Side
	}
	on := d.Drill.ForSide(side).CarryToKind(k)
	return Instruction{Setup: on.Setup, Window: on.Window, Targets: on.Targets, House: on.House, Breaks: on.Breaks}
}

// GetToday returns the actor's own page; [ErrNotFound] for a coach.
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
	changes, err := t.loadChangeRecords(ctx, []PersonID{student.ID})
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
			Drill: d, Side: table.Side(valueOrZero(r.Assignment.Side)), Closed: r.SetsClosed, LastSet: SetID{r.LastSetID}, LastClosed: utcOrZero(r.LastClosedAt),
			CheckRack: r.CheckRack, studentSide: student.Side, changes: changes[student.ID],
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
	last, err := t.GetLastSet(ctx, student)
	if err != nil && !errors.Is(err, pgx.ErrNoRows) {
		return err
	}
	today.LastTable, today.LastStart = TableID{last.TableID}, utcOrZero(pointerOrNil(last.StartedAt))
	if today.Answers, err = t.CountUnreadAnswers(ctx, student); err != nil {
		return err
	}
	messages, err := t.ListUnreadWithoutSet(ctx, student)
	if err != nil {
		return err
	}
	today.Messages = mapRows(messages, messageFromRow)
	today.Hurt, err = t.findStandingHurt(ctx, today.Student.ID)
	return err
}

func openSetFromRow(r query.ListOpenSetsRow) OpenSet {
	title := r.DrillName
	if title == "" {
		title = r.Training
	}
	return OpenSet{
		ID: SetID{r.ID}, Name: r.Name, Title: title, Assignment: idOrZero[AssignmentID](r.AssignmentID),
		Planned: r.Planned, Breaks: r.Breaks, Started: r.StartedAt.UTC(),
	}
}
