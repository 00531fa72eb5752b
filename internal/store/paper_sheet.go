package store

import (
	"context"

	"breakwright/internal/drill"
	"breakwright/internal/store/internal/query"
	"breakwright/internal/table"
)

// Sheets is what is needed to print an assignment for those without a phone.
type Sheets struct {
	Assignment Assignment
	Drill      Drill
	ClassName  string // "" when it is for single students
	// Students are those it is for, by name, archived ones left out.
	Students []SheetStudent
}

// SheetStudent is one student with their task, of which Due, Note and Closed
// are left empty.
type SheetStudent struct {
	ID   PersonID
	Name string
	Side table.Side // "" when it is not known yet
	Task Task
}

// GetSheets returns an assignment with what each of its students is to do, in as
// many queries for a hundred students as for one. Coaches only.
func (s *Store) GetSheets(ctx context.Context, v Actor, id AssignmentID) (Sheets, error) {
	return readInTransaction(ctx, s, v, "get the sheets", func(t *tx) (Sheets, error) {
		if err := v.requireCoach(); err != nil {
			return Sheets{}, err
		}
		sheets, err := t.loadSheets(ctx, id)
		if err != nil || IsZero(sheets.Assignment.Class) {
			return sheets, err
		}
		class, err := t.Queries.GetClass(ctx, sheets.Assignment.Class.UUID)
		sheets.ClassName = class.Name
		return sheets, err
	})
}

func (t *tx) loadSheets(ctx context.Context, id AssignmentID) (sheets Sheets, err error) {
	if sheets.Assignment, err = t.loadAssignment(ctx, id); err != nil {
		return sheets, err
	}
	if sheets.Drill, err = t.loadDrill(ctx, sheets.Assignment.Drill); err != nil {
		return sheets, err
	}
	rows, err := t.ListAssignmentProgress(ctx, id.UUID)
	if err != nil {
		return sheets, err
	}
	students := mapRows(rows, func(r query.ListAssignmentProgressRow) PersonID { return PersonID{r.ID} })
	changes, err := t.loadChangeRecords(ctx, students)
	for _, r := range rows {
		one := SheetStudent{ID: PersonID{r.ID}, Name: r.Name, Side: table.Side(valueOrZero(r.Side))}
		one.Task = Task{Assignment: id, Drill: sheets.Drill, Side: sheets.Assignment.Side, studentSide: one.Side, changes: changes[one.ID]}
		one.Side = one.Task.breakSide()
		sheets.Students = append(sheets.Students, one)
	}
	return sheets, err
}

// UndecidedSetup returns the setup that the task's drill asks of this student, whatever was
// decided since.
func (t Task) UndecidedSetup(k table.Kind) drill.Setup {
	return t.Drill.UndecidedInstruction(t.breakSide(), k).Setup
}
