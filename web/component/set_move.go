package component

import (
	"breakwright/internal/store"
	"breakwright/web/page"
)

// The fields in which somebody says where a set was really broken. An empty drill
// leaves the drill as it is.
const (
	fieldReallyTable = "table"
	fieldReallyDrill = "assignment"
)

// SetMoveForm asks where a set belongs that was begun on the wrong table or for the
// wrong drill.
type SetMoveForm struct {
	Form           *page.Form
	Tables, Drills []page.Option
	// Path is where it goes, Back the page that it comes from.
	Path, Back string
}

// NewSetMoveForm offers the tables in use and the drills that wait for the student,
// and begins with where the set stands.
func NewSetMoveForm(set store.Set, tables []store.Table, tasks []store.Task, setPath string) SetMoveForm {
	m := SetMoveForm{Form: page.NewForm(nil), Path: setPath + "/move", Back: setPath}
	m.Form.Values.Set(fieldReallyTable, set.Table.ID.String())
	for _, t := range tables {
		m.Tables = append(m.Tables, page.Option{Value: t.ID.String(), Words: t.Label()})
	}
	m.Drills = []page.Option{{Value: "", Words: "As it is: " + set.Title()}}
	for _, task := range tasks {
		if task.Assignment != set.Assignment {
			m.Drills = append(m.Drills, page.Option{Value: task.Assignment.String(), Words: task.Name()})
		}
	}
	return m
}

// ReadSetMove reads what was chosen.
func ReadSetMove(form *page.Form) (to store.SetMove, err error) {
	if to.Table, err = store.ParseID[store.TableID](form.Text(fieldReallyTable)); err != nil {
		return to, err
	}
	if drill := form.Text(fieldReallyDrill); drill != "" {
		to.Assignment, err = store.ParseID[store.AssignmentID](drill)
	}
	return to, err
}

// RefuseSetMove says beside the table why the set stays where it is.
func RefuseSetMove(form *page.Form, words string) { form.Reject(fieldReallyTable, words) }
