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

// GetSheets gives an assignment with what each of its students is to do, in as
// many queries for a hundred students as for one. Coaches only.
func (s *Store) GetSheets(ctx context.Context, v Viewer, id AssignmentID) (Sheets, error) {
	return read(ctx, s, v, "get the sheets", func(t *tx) (Sheets, error) {
		if err := v.mustCoach(); err != nil {
			return Sheets{}, err
		}
		sheets, err := t.sheets(ctx, id)
		if err != nil || IsZero(sheets.Assignment.Class) {
			return sheets, err
		}
		class, err := t.Queries.GetClass(ctx, sheets.Assignment.Class.UUID)
		sheets.ClassName = class.Name
		return sheets, err
	})
}

func (t *tx) sheets(ctx context.Context, id AssignmentID) (sheets Sheets, err error) {
	if sheets.Assignment, err = t.assignment(ctx, id); err != nil {
		return sheets, err
	}
	if sheets.Drill, err = t.drill(ctx, sheets.Assignment.Drill); err != nil {
		return sheets, err
	}
	rows, err := t.ListProgress(ctx, id.UUID)
	if err != nil {
		return sheets, err
	}
	students := each(rows, func(r query.ListProgressRow) PersonID { return PersonID{r.ID} })
	changes, err := t.decidedOf(ctx, students)
	for _, r := range rows {
		one := SheetStudent{ID: PersonID{r.ID}, Name: r.Name, Side: table.Side(orZero(r.Side))}
		one.Task = Task{Assignment: id, Drill: sheets.Drill, Side: sheets.Assignment.Side, own: one.Side, decided: changes[one.ID]}
		one.Side = one.Task.side()
		sheets.Students = append(sheets.Students, one)
	}
	return sheets, err
}

// decidedOf is decided for many students.
func (t *tx) decidedOf(ctx context.Context, students []PersonID) (map[PersonID][]decided, error) {
	rows, err := t.ListDecidedOf(ctx, uuids(students))
	if err != nil {
		return nil, err
	}
	all := map[PersonID][]decided{}
	for _, r := range rows {
		setup, err := setupOf(r.Setup)
		if err != nil {
			return nil, err
		}
		student := PersonID{r.StudentID}
		all[student] = append(all[student], decided{
			id: PrescriptionID{r.ID}, lineage: DrillID{r.Lineage}, state: State(r.State), setup: setup,
			kind: table.Kind{Feet: r.Feet, CornerMouth: table.Inches(r.CornerIn), SideMouth: table.Inches(r.SideIn)},
		})
	}
	return all, nil
}

// Own gives the setup that the task's drill asks of this student, whatever was
// decided since.
func (t Task) Own(k table.Kind) drill.Setup { return t.Drill.Plain(t.side(), k).Setup }
