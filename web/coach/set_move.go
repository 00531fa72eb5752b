package coach

import (
	"net/http"

	"breakwright/internal/setreview"
	"breakwright/internal/store"
	"breakwright/web/page"
	"breakwright/web/session"
)

// The fields in which a coach says where a set was really broken. An empty drill
// leaves the drill as it is.
const (
	fieldReallyTable = "table"
	fieldReallyDrill = "assignment"
)

// setMoveView is a set with the places where it may really have been broken.
type setMoveView struct {
	Frame          page.Frame
	Form           *page.Form
	Set            store.Set
	When           string
	Tables, Drills []page.Option
}

func (v setMoveView) setPath() string { return "/sets/" + v.Set.ID.String() }

// showSetMove asks where a set belongs that was begun on the wrong table or drill.
func (p *Pages) showSetMove(w http.ResponseWriter, r *http.Request) error {
	set, err := p.findSet(r)
	if err != nil {
		return err
	}
	form := page.NewForm(nil)
	form.Values.Set(fieldReallyTable, set.Table.ID.String())
	return p.renderSetMove(w, r, http.StatusOK, set, form)
}

func (p *Pages) renderSetMove(w http.ResponseWriter, r *http.Request, status int, set store.Set, form *page.Form) error {
	visitor := session.MustUser(r)
	v := setMoveView{Frame: p.sessions.TakeFrame(w, r), Form: form, Set: set, When: formatTime(set.Started, visitor.Zone)}
	tables, err := p.store.ListTables(r.Context(), visitor.Actor, store.ActiveOnly)
	if err != nil {
		return err
	}
	for _, t := range tables {
		v.Tables = append(v.Tables, page.Option{Value: t.ID.String(), Words: t.Label()})
	}
	tasks, err := p.store.ListTasksOf(r.Context(), visitor.Actor, set.Student)
	if err != nil {
		return err
	}
	v.Drills = []page.Option{{Value: "", Words: "As it is: " + set.Title()}}
	for _, task := range tasks {
		if task.Assignment != set.Assignment {
			v.Drills = append(v.Drills, page.Option{Value: task.Assignment.String(), Words: task.Name()})
		}
	}
	return page.Render(w, r, status, setMovePage(v))
}

// moveSet moves it, and what it says is worked out anew.
func (p *Pages) moveSet(w http.ResponseWriter, r *http.Request) error {
	set, form, err := page.ReadFormOf(w, r, p.findSet)
	if err != nil {
		return err
	}
	to, err := readSetMove(form)
	if err != nil {
		return err
	}
	err = p.store.MoveSet(r.Context(), session.MustUser(r).Actor, set.ID, to, setreview.JudgeCase)
	if words := store.SentenceOf(err); words != "" {
		form.Reject(fieldReallyTable, words)
		return p.renderSetMove(w, r, http.StatusConflict, set, form)
	}
	if err != nil {
		return err
	}
	p.sessions.SetFlash(w, r, "The set is where it was broken; what it says is worked out anew.")
	return page.Redirect(w, r, "/sets/"+set.ID.String())
}

func readSetMove(form *page.Form) (to store.SetMove, err error) {
	if to.Table, err = store.ParseID[store.TableID](form.Text(fieldReallyTable)); err != nil {
		return to, err
	}
	if drill := form.Text(fieldReallyDrill); drill != "" {
		to.Assignment, err = store.ParseID[store.AssignmentID](drill)
	}
	return to, err
}
