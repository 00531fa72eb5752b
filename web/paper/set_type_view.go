package paper

import (
	"net/http"
	"strings"
	"time"

	"breakwright/internal/drill"
	"breakwright/internal/say"
	"breakwright/internal/store"
	"breakwright/web/component"
	"breakwright/web/page"
	"breakwright/web/picture"
	"breakwright/web/route"
	"breakwright/web/session"
)

// typedSetView is the page on which a coach types a sheet in.
type typedSetView struct {
	Frame   page.Frame
	Form    *page.Form
	Student store.Person
	Path    string
	// Ready says that there is something to type for: an assignment and a table.
	Ready  bool
	Tasks  []page.Option
	Tables []page.Option
	Setups []page.Option // empty when there is only one
	Task   store.Task
	Table  store.Table
	Next   store.Instruction
	Rows   []typedBreakRow
	Zone   *time.Location
}

// typedBreakRow is one line of the page.
type typedBreakRow struct {
	Number       int
	Field, Value string
	// Says is the line read back, Wrong why it could not be read; "" for an
	// empty line.
	Says, Wrong string
	read        drill.Break
}

func (v *typedSetView) squaresPicture() picture.SquaresView {
	return paperSheet{ID: "sheet", Kind: v.Table.Kind, Next: v.Next}.squaresPicture()
}

func (v *typedSetView) setupParts(u say.Units) []component.SetupPart {
	return component.ListSetupParts(v.Next.Setup, v.Table.Kind, u)
}

func (v *typedSetView) wingLegend() []legendEntry { return paperSheet{Next: v.Next}.wingLegend() }

// typedSetView gets what the page needs for what is chosen on it.
func (p *Pages) loadTypedSet(r *http.Request, form *page.Form) (*typedSetView, error) {
	user := session.MustUser(r)
	student, err := p.findStudent(r)
	if err != nil {
		return nil, err
	}
	v := &typedSetView{Form: form, Student: student, Path: route.StudentPath(student.ID), Zone: user.Zone}
	// What the student would see of assignments and tables is their own.
	own := store.Actor{Club: user.Actor.Club, Person: student.ID, Role: store.Student}
	today, err := p.store.GetToday(r.Context(), own)
	if err != nil {
		return nil, err
	}
	v.chooseTask(today)
	if !v.Ready {
		return v, nil
	}
	v.chooseSetup()
	if form.Text(fieldDate) == "" {
		now := p.now().In(user.Zone)
		form.Values.Set(fieldDate, now.Format(time.DateOnly))
	}
	for n := 1; n <= v.Next.Breaks; n++ {
		v.Rows = append(v.Rows, v.newTypedRow(n))
	}
	return v, nil
}

// chooseTask finds assignment and table: those asked for, else the most urgent one
// and the table the student broke on last.
func (v *typedSetView) chooseTask(today store.Today) {
	for _, task := range today.Tasks {
		v.Tasks = append(v.Tasks, page.Option{Value: task.Assignment.String(), Words: task.Name()})
	}
	v.Tables = tableOptions(today.Tables, "", v.Form.Units)
	if len(today.Tasks) == 0 || len(today.Tables) == 0 {
		return
	}
	v.Ready = true
	v.Task = today.Tasks[0]
	for _, task := range today.Tasks {
		if task.Assignment.String() == v.Form.Text(fieldTask) {
			v.Task = task
		}
	}
	v.Form.Values.Set(fieldTask, v.Task.Assignment.String())
	chosen := false
	if v.Table, chosen = findTable(today.Tables, v.Form.Text(fieldTable)); !chosen {
		v.Table = defaultTable(today, v.Task)
	}
	v.Form.Values.Set(fieldTable, v.Table.ID.String())
}

func defaultTable(today store.Today, task store.Task) store.Table {
	best, bestRank := today.Tables[0], 0
	for _, t := range today.Tables {
		rank := 0
		switch {
		case t.ID == today.LastTable:
			rank = 2
		case t.Kind.SameSize(task.Drill.Kind):
			rank = 1
		}
		if rank > bestRank {
			best, bestRank = t, rank
		}
	}
	return best
}

// chooseSetup gives what the sheet told the student: what is to be done now, or
// for a sheet printed before a coach decided, what the drill itself asks.
func (v *typedSetView) chooseSetup() {
	v.Next = v.Task.InstructionOn(v.Table.Kind)
	own := v.Task.UndecidedSetup(v.Table.Kind)
	if own == v.Next.Setup {
		v.Form.Values.Set(fieldSetup, setupNow)
		return
	}
	v.Setups = []page.Option{
		{Value: setupNow, Words: "As decided since: " + setupSummary(v.Next.Setup, v.Table, v.Form.Units)},
		{Value: setupOwn, Words: "As the drill has it: " + setupSummary(own, v.Table, v.Form.Units)},
	}
	if v.Form.Text(fieldSetup) == setupOwn {
		v.Next.Setup = own
	}
}

func setupSummary(s drill.Setup, where store.Table, u say.Units) string {
	return "cue ball " + picture.CuePlaceWords(s.Cue, where.Kind, u) + ", tip " + component.TipHeightWords(s.Tip) + ", " + component.SpeedWords(s.Speed, u)
}

// shownChoice is what the page now shows, so that lines are never read for a table or
// a setup that nobody looked at.
func (v *typedSetView) shownChoice() string {
	return strings.Join([]string{v.Task.Assignment.String(), v.Table.ID.String(), v.Form.Text(fieldSetup)}, " ")
}

func (v *typedSetView) rememberShown() {
	if v.Ready {
		v.Form.Values.Set(fieldShown, v.shownChoice())
	}
}
