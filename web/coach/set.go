package coach

import (
	"cmp"
	"net/http"
	"slices"
	"time"

	"breakwright/internal/drill"
	"breakwright/internal/leave"
	"breakwright/internal/say"
	"breakwright/internal/setreview"
	"breakwright/internal/store"
	"breakwright/web/component"
	"breakwright/web/page"
	"breakwright/web/picture"
	"breakwright/web/route"
	"breakwright/web/session"
)

// recordedSetView is a set as a coach reads it.
type recordedSetView struct {
	Frame  page.Frame
	Form   *page.Form // of a correction or an answer that was refused
	Set    store.Set
	Breaks []drill.Break
	// Struck are what was taken out and what was changed, as it was.
	Struck []store.StruckBreak
	When   string
	Advice *component.AdviceView
	// Decide is the address of the decision, "" when there is none to make.
	Decide string
	// Decided is the address of the coach's own change, "" while a proposal waits
	// or there is nothing to change; Undo takes the last decision back.
	Decided  string
	Undo     *page.UndoForm
	Messages component.MessageThreadView
}

func (v recordedSetView) tablePicture() picture.TableView {
	t := picture.BreaksTable("breaks", v.Breaks, v.Set.Window, v.Set.Table.Kind)
	t.Cue = &picture.CueBall{Place: v.Set.Setup.Cue}
	return t
}

// title says that training was nobody's assignment.
func (v recordedSetView) title() string {
	if v.Set.Training != "" {
		return "training of their own: " + v.Set.Training
	}
	return v.Set.Title()
}

func (v recordedSetView) breakLines() []component.BreakLine {
	lines := component.ListBreakLines(v.Breaks, v.Set.Setup, v.Set.Table.Kind, nil)
	component.JudgeByHouse(lines, v.Breaks, v.Set.Setup, v.Set.House)
	for i, b := range v.Set.Breaks {
		wasIt := func(s store.StruckBreak) bool { return s.ID == b.ID }
		if !slices.ContainsFunc(v.Struck, wasIt) { // else what it was stands above it
			lines[i].Changed = changedWords(b)
		}
	}
	var all []component.BreakLine
	for _, b := range v.Struck {
		line := component.ListBreakLines([]drill.Break{b.Break.Break}, v.Set.Setup, v.Set.Table.Kind, nil)[0]
		line.Struck = component.StruckWords(b, "the student", "a coach")
		line.Action = v.putBackAction(b)
		all = append(all, line)
	}
	all = append(all, lines...) // what a break was stands before what it is
	slices.SortStableFunc(all, func(a, b component.BreakLine) int { return cmp.Compare(a.Number, b.Number) })
	return all
}

// changedWords say that a break is not as it was first saved, though what it was was not
// kept; "" when it is.
func changedWords(b store.Break) string {
	who := "the student"
	switch {
	case b.Revision <= 1:
		return ""
	case !store.IsZero(b.EditedBy):
		who = "a coach"
	}
	return "Changed by " + who + " after it was saved, or carried to another table or number."
}

// leaves are what the breaks left, for a club player.
func (v recordedSetView) leaves() component.LeaveList {
	return component.ListLeaves("leave", v.Breaks, v.Set.Setup, v.Set.Table.Kind, leave.PlayerAt(leave.Club), v.Set.Targets)
}

func (p *Pages) showSet(w http.ResponseWriter, r *http.Request) error {
	set, err := p.findSet(r)
	if err != nil {
		return err
	}
	return p.renderSet(w, r, http.StatusOK, set, page.NewForm(nil))
}

func (p *Pages) renderSet(w http.ResponseWriter, r *http.Request, status int, set store.Set, form *page.Form) error {
	user := session.MustUser(r)
	v := recordedSetView{Frame: p.sessions.TakeFrame(w, r), Form: form, Set: set, When: formatTime(set.Started, user.Zone)}
	for _, b := range set.Breaks {
		v.Breaks = append(v.Breaks, b.Break)
	}
	var err error
	if v.Struck, err = p.store.ListStruckBreaks(r.Context(), user.Actor, set.ID); err != nil {
		return err
	}
	if set.Advice != nil {
		a, err := setreview.ReadAdvice(set.Advice)
		if err != nil {
			return err
		}
		v.Advice = &component.AdviceView{
			ID: "advice", Advice: a, Setup: set.Setup, Kind: set.Table.Kind, Reader: user.Reader().BreakingFrom(set.Setup.Side),
			Change: newChangeView(set.Prescription, user.Reader()), Under: newChangeView(set.Under, user.Reader()),
			First: newChangeView(set.ComesFirst, user.Reader()), SettledBefore: set.SettledBefore,
		}
	}
	if p := set.Prescription; p != nil && p.State == store.Proposed {
		v.Decide = route.PrescriptionPath(p.ID)
	}
	if v.Decide == "" && !set.Closed.IsZero() && !store.IsZero(set.Drill.ID) {
		v.Decided = route.SetChangePath(set.ID)
	}
	if set.Prescription != nil {
		if v.Undo, err = p.findUndo(r, set, *set.Prescription); err != nil {
			return err
		}
	}
	v.Messages = newMessageThread(set, user, form)
	return page.Render(w, r, status, recordedSetPage(v))
}

// newChangeView is a change as the coach reads it; nil for none.
func newChangeView(p *store.Prescription, coach say.Reader) *component.ChangeView {
	if p == nil {
		return nil
	}
	v := component.NewChangeView(p.Change(), p.Wording, coach)
	return &v
}

func newMessageThread(set store.Set, user session.User, form *page.Form) component.MessageThreadView {
	t := component.MessageThreadView{
		PostPath: route.SetPath(set.ID) + "/messages", MessageID: store.NewID[store.MessageID]().String(), Form: form,
		Heading: "Questions and answers", Label: "Your answer to " + set.StudentName,
	}
	for _, m := range set.Messages {
		who := set.StudentName
		if m.FromCoach {
			who = "Coach"
		}
		t.Messages = append(t.Messages, component.MessageLine{Who: who, Body: m.Body, At: m.At, IsOwn: m.FromCoach, When: formatTime(m.At, user.Zone)})
	}
	return t
}

// refusedQuestion is the line of the desk on which an answer was refused: the latest
// question, with what was typed.
func refusedQuestion(set store.Set, zone *time.Location, form *page.Form) questionLine {
	asked := store.Message{Set: set.ID}
	for _, m := range set.Messages {
		if !m.FromCoach {
			asked = m
		}
	}
	asked.Student = set.Student
	q := newQuestionLine(asked, set.StudentName, zone)
	q.Typed, q.Wrong = form.RawText("body"), form.ErrorFor("body")
	return q
}

func (p *Pages) postMessage(w http.ResponseWriter, r *http.Request) error {
	set, form, err := page.ReadFormOf(w, r, p.findSet)
	if err != nil {
		return err
	}
	id, err := store.ParseID[store.MessageID](form.Text("message_id"))
	if err != nil {
		return err
	}
	if form.Has("undo") {
		return p.takeMessageBack(w, r, set.ID, id)
	}
	err = p.store.PostMessage(r.Context(), session.MustUser(r).Actor, id, set.ID, form.Text("body"))
	if form.AddProblems(err) {
		if page.IsPartial(r) {
			return page.Render(w, r, http.StatusUnprocessableEntity, questionRow(refusedQuestion(set, session.MustUser(r).Zone, form)))
		}
		return p.renderSet(w, r, http.StatusUnprocessableEntity, set, form)
	}
	if err != nil {
		return err
	}
	undo := messageUndo(set.ID, id, set.StudentName)
	if page.IsPartial(r) { // from the desk
		return page.Render(w, r, http.StatusOK, settledRow("Sent to "+set.StudentName+".", undo))
	}
	p.sessions.SetFlashWithUndo(w, r, "Sent to "+set.StudentName+".", undo)
	return page.Redirect(w, r, route.SetPath(set.ID))
}

// messageUndo takes a message to a student back.
func messageUndo(set store.SetID, id store.MessageID, student string) *page.UndoForm {
	return &page.UndoForm{
		Path: route.SetPath(set) + "/messages", About: "the message to " + student,
		Fields: []page.HiddenField{{Name: "message_id", Value: id.String()}, {Name: "undo", Value: "yes"}},
	}
}

// takeMessageBack takes a message away that the student has not read.
func (p *Pages) takeMessageBack(w http.ResponseWriter, r *http.Request, set store.SetID, id store.MessageID) error {
	_, kept, err := p.store.TakeBackMessage(r.Context(), session.MustUser(r).Actor, id)
	if err != nil {
		return err
	}
	says := "The message is taken back. What it answered waits again."
	if kept > 0 {
		says = "They have read it already: it stays."
	}
	p.sessions.SetFlash(w, r, says)
	return page.Redirect(w, r, route.SetPath(set)+"#talk")
}
