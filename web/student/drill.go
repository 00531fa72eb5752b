package student

import (
	"errors"
	"fmt"
	"net/http"

	"github.com/go-chi/chi/v5"

	"breakwright/internal/drill"
	"breakwright/internal/store"
	"breakwright/web/component"
	"breakwright/web/page"
	"breakwright/web/route"
	"breakwright/web/session"
	"breakwright/web/sync"
)

// drillView is one drill before the first break.
type drillView struct {
	Frame  page.Frame
	Person store.PersonID
	Path   string
	Task   store.Task
	Next   store.Instruction
	Table  store.Table
	// Tables are those to choose from.
	Tables []page.Option
	Form   *page.Form
	SetID  string
	// Status says whether it is done, and when it is due.
	Status string
	// Change is the latest change for this drill on this kind of table; nil for
	// none.
	Change *component.ChangeView
	// Done is what came of it; nil while it, or a change for it, is still to be broken.
	Done *drillDone
	// Plan is how to break, as the page shows it, for the form that starts.
	Plan string
	// Begin says where the student's own breaks would have them begin on this kind of
	// table, when that is elsewhere; BeginPath is where they can train it.
	Begin, BeginPath string
	// Hurt is where the student said that it hurts, "" for nowhere.
	Hurt string
}

// carriedWords say that the places below are not as the coach wrote them, but carried to a
// table of another size; "" where they are, or where a change says them.
func (v drillView) carriedWords() string {
	wrote := v.Task.Drill.Kind
	if wrote.Size() == v.Table.Kind.Size() || !store.IsZero(v.Next.Prescription) {
		return ""
	}
	return "Your coach wrote the drill for " + wrote.Size() + " ft: its places are carried to " + v.Table.Kind.Size() + " ft in proportion."
}

// goalWords say what counts as good, the right way round.
func (v drillView) goalWords() string {
	d := v.Task.Drill.Drill
	d.Setup, d.Targets, d.Breaks = v.Next.Setup, v.Next.Targets, v.Next.Breaks
	return component.GoalWords(d)
}

// changeWords say where the change stands; "" where there is none.
func (v drillView) changeWords() string {
	if v.Change == nil {
		return ""
	}
	return v.Change.NextHereWords()
}

// setupBefore is drawn as a ghost while the change is new to the student.
func (v drillView) setupBefore() *drill.Setup {
	if v.Change == nil || v.Change.State.IsOutcome() || v.Next.Setup.Rounded() != v.Change.After().ForSide(v.Next.Setup.Side).Rounded() {
		return nil
	}
	before := v.Change.SetupBefore()
	if before == nil {
		return nil
	}
	turned := before.ForSide(v.Next.Setup.Side)
	return &turned
}

func (p *Pages) showDrill(w http.ResponseWriter, r *http.Request) error {
	v, err := p.loadDrill(r)
	if err != nil {
		return err
	}
	return p.renderDrill(w, r, http.StatusOK, v)
}

func (p *Pages) renderDrill(w http.ResponseWriter, r *http.Request, status int, v drillView) error {
	v.Frame, v.SetID = p.sessions.TakeFrame(w, r), store.NewID[store.SetID]().String()
	return page.Render(w, r, status, drillPage(v))
}

// loadDrill fills the page for the table that was asked for, else the one the
// student broke on last, else one of the drill's own kind, else any.
func (p *Pages) loadDrill(r *http.Request) (drillView, error) {
	user := session.MustUser(r)
	today, err := p.store.GetToday(r.Context(), user.Actor)
	if err != nil {
		return drillView{}, err
	}
	id := chi.URLParam(r, "assignment")
	for _, task := range today.Tasks {
		if task.Assignment.String() != id {
			continue
		}
		v := drillView{Person: user.Person, Path: route.TaskPath(task.Assignment), Task: task, Status: component.TaskWords(task, p.now().In(user.Zone)), Hurt: hurtPath(today)}
		v.Table = chooseTable(today, task, r.FormValue("table"))
		v.Next = task.InstructionOn(v.Table.Kind)
		change := task.ChangeOn(v.Table.Kind)
		v.Change = newChangeView(change, user.Reader())
		if v.Done, err = p.loadDone(r, v); err != nil {
			return drillView{}, err
		}
		if v.Plan, err = sync.WriteShownPlan(v.Next, v.Table.Kind, change, user.Units); err != nil {
			return drillView{}, err
		}
		v.Form = page.NewForm(map[string]string{"table": v.Table.ID.String()})
		v.Tables = tableOptions(today)
		return v, p.loadBeginning(r, user, &v)
	}
	return drillView{}, store.ErrNotFound
}

// tableOptions are the club's tables to choose from.
func tableOptions(today store.Today) []page.Option {
	var options []page.Option
	for _, t := range today.Tables {
		options = append(options, page.Option{Value: t.ID.String(), Words: fmt.Sprintf("%s, %s ft", t.Label(), t.Kind.Size())})
	}
	return options
}

// chooseTable returns the table to show; without any it is the drill's kind, with
// no id.
func chooseTable(today store.Today, task store.Task, asked string) store.Table {
	best, bestRank := store.Table{Kind: task.Drill.Kind}, 0
	for _, t := range today.Tables {
		rank := 1
		switch {
		case t.ID.String() == asked:
			rank = 4
		case t.ID == today.LastTable:
			rank = 3
		case t.Kind.SameSize(task.Drill.Kind):
			rank = 2
		}
		if rank > bestRank {
			best, bestRank = t, rank
		}
	}
	return best
}

func (p *Pages) startSet(w http.ResponseWriter, r *http.Request) error {
	form, err := page.ReadForm(w, r)
	if err != nil {
		return err
	}
	today, err := p.store.GetToday(r.Context(), session.MustUser(r).Actor)
	if err != nil {
		return err
	}
	if asksToStop(hurtPath(today), form) {
		return p.refuseDrill(w, r)
	}
	var start store.NewSet
	if start.Assignment, err = store.ParseID[store.AssignmentID](chi.URLParam(r, "assignment")); err != nil {
		return err
	}
	if start.Table, err = store.ParseID[store.TableID](form.Text("table")); err != nil {
		return err
	}
	return p.startShownSet(w, r, form, start)
}

// refuseDrill shows the drill again to who has not said that it no longer hurts.
func (p *Pages) refuseDrill(w http.ResponseWriter, r *http.Request) error {
	v, err := p.loadDrill(r)
	if err != nil {
		return err
	}
	v.Form.Reject(fieldOver, sayStillHurts)
	return p.renderDrill(w, r, http.StatusUnprocessableEntity, v)
}

// startShownSet starts a set under the identity and the setup that the form's page
// showed, and goes to it.
func (p *Pages) startShownSet(w http.ResponseWriter, r *http.Request, form *page.Form, start store.NewSet) (err error) {
	if start.ID, err = store.ParseID[store.SetID](form.Text("set_id")); err != nil {
		return err
	}
	if plan := form.Text("plan"); plan != "" {
		if start.Setup, err = sync.ReadShownSetup(plan); err != nil {
			return errors.Join(page.ErrUnreadableForm, err)
		}
	}
	set, err := p.store.StartSet(r.Context(), session.MustUser(r).Actor, start)
	if err != nil {
		return err
	}
	return page.Redirect(w, r, route.OwnSetPath(set.ID))
}
