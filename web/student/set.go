package student

import (
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

// recordedSetView is a set with what it says.
type recordedSetView struct {
	Frame  page.Frame
	Person store.PersonID
	Path   string
	Set    store.Set
	Breaks []drill.Break
	// Struck are breaks that a coach took out, put back or put right, as they were.
	Struck []store.StruckBreak
	When   string
	// CanReopen says that the set was closed just now, and nothing is decided on it.
	CanReopen bool
	// Again is the drill's page, "" when there is none.
	Again    string
	Advice   *component.AdviceView
	Messages component.MessageThreadView
}

func (v recordedSetView) isClosed() bool { return !v.Set.Closed.IsZero() }

// title says that training was nobody's assignment.
func (v recordedSetView) title() string {
	if v.Set.Training != "" {
		return "Training of your own: " + v.Set.Training
	}
	return v.Set.Title()
}

func (v recordedSetView) isFull() bool { return len(v.Set.Breaks) >= v.Set.Planned }

// missingWords count the breaks that an early close leaves out.
func (v recordedSetView) missingWords() string {
	return say.Count(v.Set.Planned-len(v.Breaks), "break is", "breaks are") + " missing"
}

func (v recordedSetView) closedHeading() string {
	if len(v.Breaks) == 1 {
		return "What your one break says"
	}
	return "What your " + say.Count(len(v.Breaks), "break", "breaks") + " say"
}

// tablePicture shows where the cue ball went, break by break.
func (v recordedSetView) tablePicture() picture.TableView {
	t := picture.BreaksTable("breaks", v.Breaks, v.Set.Window, v.Set.Table.Kind)
	if b := v.Set.Setup; b.Order.IsZero() {
		return t
	}
	t.Cue = &picture.CueBall{Place: v.Set.Setup.Cue}
	return t
}

func (v recordedSetView) breakLines() []component.BreakLine {
	edit := func(i int) string { return v.Path + "/breaks/" + v.Set.Breaks[i].ID.String() }
	if v.isClosed() {
		edit = nil
	}
	lines := component.ListBreakLines(v.Breaks, v.Set.Setup, v.Set.Table.Kind, edit)
	component.JudgeByHouse(lines, v.Breaks, v.Set.Setup, v.Set.House)
	return lines
}

// correctedLines are the breaks that a coach took out, put back or put right, as they were.
func (v recordedSetView) correctedLines() []component.BreakLine {
	var all []component.BreakLine
	for _, b := range v.Struck {
		line := component.ListBreakLines([]drill.Break{b.Break.Break}, v.Set.Setup, v.Set.Table.Kind, nil)[0]
		line.Struck = component.StruckWords(b, "you", "your coach")
		all = append(all, line)
	}
	return all
}

// leaves are what the breaks left, for a club player.
func (v recordedSetView) leaves() component.LeaveList {
	return component.ListLeaves("leave", v.Breaks, v.Set.Setup, v.Set.Table.Kind, leave.PlayerAt(leave.Club), v.Set.Targets)
}

// showSet shows a set; one that still lacks breaks leads to the next, unless it is asked
// for as a whole ([record.WholeSetPath]).
func (p *Pages) showSet(w http.ResponseWriter, r *http.Request) error {
	set, err := p.findOwnSet(r)
	if err != nil {
		return err
	}
	if set.Closed.IsZero() && len(set.Breaks) < set.Planned && !r.URL.Query().Has("review") {
		return page.Redirect(w, r, route.OwnSetPath(set.ID)+"/next")
	}
	return p.renderSet(w, r, http.StatusOK, set, page.NewForm(nil))
}

func (p *Pages) renderSet(w http.ResponseWriter, r *http.Request, status int, set store.Set, form *page.Form) error {
	user := session.MustUser(r)
	v := recordedSetView{
		Frame: p.sessions.TakeFrame(w, r), Person: user.Person, Path: route.OwnSetPath(set.ID), Set: set,
		When: say.WeekdayMoment(set.Started.In(user.Zone)),
	}
	for _, b := range set.Breaks {
		v.Breaks = append(v.Breaks, b.Break)
	}
	if !store.IsZero(set.Assignment) {
		v.Again = route.TaskPath(set.Assignment)
	}
	struck, err := p.store.ListStruckBreaks(r.Context(), user.Actor, set.ID)
	if err != nil {
		return err
	}
	v.Struck = slices.DeleteFunc(struck, func(b store.StruckBreak) bool { return store.IsZero(b.By) && store.IsZero(b.BackBy) })
	if v.Advice, err = newAdviceView(set, user.Reader()); err != nil {
		return err
	}
	v.Messages = newMessageThread(set, user, v.Path+"/messages", form)
	if v.isClosed() {
		undecided := set.Prescription == nil || set.Prescription.State == store.Proposed
		v.CanReopen = undecided && p.now().Sub(set.Closed) < store.ReopenWithin
		if err := p.store.MarkRead(r.Context(), user.Actor, set.ID); err != nil {
			return err
		}
	}
	return page.Render(w, r, status, recordedSetPage(v))
}

// newAdviceView shows the advice of a set, nil when there is none.
func newAdviceView(set store.Set, reader say.Reader) (*component.AdviceView, error) {
	if set.Advice == nil {
		return nil, nil
	}
	a, err := setreview.ReadAdvice(set.Advice)
	if err != nil {
		return nil, err
	}
	return &component.AdviceView{
		ID: "advice", Advice: a, Setup: set.Setup, Kind: set.Table.Kind,
		Change: newChangeView(set.Prescription, reader), Under: newChangeView(set.Under, reader), First: newChangeView(set.ComesFirst, reader),
		SettledBefore: set.SettledBefore, Reader: reader.BreakingFrom(set.Setup.Side),
	}, nil
}

// newChangeView is a change as the student meets it; nil for none.
func newChangeView(p *store.Prescription, reader say.Reader) *component.ChangeView {
	if p == nil {
		return nil
	}
	v := component.NewChangeView(p.Change(), p.Wording, reader)
	return &v
}

func newMessageThread(set store.Set, user session.User, action string, form *page.Form) component.MessageThreadView {
	t := component.MessageThreadView{
		PostPath: action, MessageID: store.NewID[store.MessageID]().String(), Form: form,
		Heading: "Ask your coach", Label: "Your question about this set",
	}
	for _, m := range set.Messages {
		who := "You"
		if m.FromCoach {
			who = "Your coach"
		}
		t.Messages = append(t.Messages, component.MessageLine{Who: who, Body: m.Body, At: m.At, IsOwn: !m.FromCoach, When: formatTime(m.At, user.Zone)})
	}
	return t
}

func formatTime(at time.Time, zone *time.Location) string {
	return say.Moment(at.In(zone))
}

func (p *Pages) postMessage(w http.ResponseWriter, r *http.Request) error {
	set, form, err := page.ReadFormOf(w, r, p.findOwnSet)
	if err != nil {
		return err
	}
	id, err := store.ParseID[store.MessageID](form.Text("message_id"))
	if err != nil {
		return err
	}
	err = p.store.PostMessage(r.Context(), session.MustUser(r).Actor, id, set.ID, form.Text("body"))
	if form.AddProblems(err) {
		return p.renderSet(w, r, http.StatusUnprocessableEntity, set, form)
	}
	if err != nil {
		return err
	}
	p.sessions.SetFlash(w, r, "Sent to your coach.")
	return page.Redirect(w, r, route.OwnSetPath(set.ID))
}
