package coach

import (
	"fmt"
	"net/http"
	"time"

	"breakwright/internal/say"
	"breakwright/internal/store"
	"breakwright/web/component"
	"breakwright/web/page"
	"breakwright/web/route"
	"breakwright/web/session"
)

// deskView is the coach's first page: what needs a decision, the most pressing
// first.
type deskView struct {
	Frame  page.Frame
	Answer string
	// Hurts and Off come first, since somebody is or may be hurt; then what a
	// student waits for; then what only the coach can see.
	Hurts     lineGroup
	Off       lineGroup
	Proposals []proposalLine
	// ApproveTogether says that several may be approved at once.
	ApproveTogether bool
	Questions       []questionLine
	Locked          []lockedLine
	Stuck           lineGroup
	Unanswered      lineGroup
	Slump           lineGroup
	Cards           lineGroup
	Idle            lineGroup
	Week            string
	Assignments     []assignmentLine
	More            int // assignments that are not listed
	// Begin are the first steps that are still to do in a new club.
	Begin []firstStepLine
	// Gaps are what is not known of students yet; NobodyJoined is said above all.
	Gaps         []rosterGap
	NobodyJoined bool
}

// lineGroup is a list of lines of one reason.
type lineGroup struct {
	// Key is the group's id on the page.
	Key, Heading string
	Lines        []deskLine
}

// proposalLine is a prescription to decide on.
type proposalLine struct {
	// Path is the change's page, Set the set's.
	ID, Path, Student, Set, Where, When string
	Who                                 store.PersonID
	Reason, Expect, Caution             string
	// Note was written with a decision that was taken back.
	Note string
	// Changes are said in words where the reason does not say them all.
	Changes []string
	Thumb   component.SetupView
	// IsUsual says that it may be approved with others, without a closer look.
	IsUsual bool
}

// questionLine is a question; Message makes a second click of its answer
// harmless. Typed and Wrong are of an answer that was refused.
type questionLine struct {
	ID, Path, Student, Body, When, Message, Typed, Wrong string
	Who                                                  store.PersonID
}

type assignmentLine struct {
	Path, Name, For, Done, Due string
	Late                       bool
}

type firstStepLine struct{ Path, Words, Button string }

func (p *Pages) showDesk(w http.ResponseWriter, r *http.Request) error {
	v, err := p.loadDesk(r)
	if err != nil {
		return err
	}
	v.Frame = p.sessions.TakeFrame(w, r)
	return page.Render(w, r, http.StatusOK, deskPage(v))
}

// assignmentsShown is how many drills under way the desk lists.
const assignmentsShown = 12

func (p *Pages) loadDesk(r *http.Request) (deskView, error) {
	user := session.MustUser(r)
	now := p.now().In(user.Zone)
	today := time.Date(now.Year(), now.Month(), now.Day(), 0, 0, 0, 0, time.UTC)
	d, err := p.store.GetDesk(r.Context(), user.Actor, now, today)
	if err != nil {
		return deskView{}, err
	}
	open, err := p.store.PageAssignments(r.Context(), user.Actor, store.AssignmentFilter{Most: assignmentsShown})
	if err != nil {
		return deskView{}, err
	}
	v := deskView{
		Locked: lockedLines(d, user.Zone),
		Hurts:  hurtLines(d, user.Zone),
		Off:    offTableLines(d, user.Zone), Stuck: stuckLines(d, user.Zone, user.Units), Slump: slumpLines(d), Cards: breakCardLines(d), Idle: overdueLines(d),
		Week: weekTotalsWords(d.Week),
	}
	if v.Unanswered, err = unansweredLines(d, v.Stuck, user.Reader()); err != nil {
		return v, err
	}
	for _, one := range d.Proposals {
		v.Proposals = append(v.Proposals, newProposalLine(one, user))
	}
	for _, q := range d.Questions {
		v.Questions = append(v.Questions, newQuestionLine(q.Message, q.StudentName, user.Zone))
	}
	for _, a := range open.List {
		v.Assignments = append(v.Assignments, newAssignmentLine(a, now))
	}
	v.More = open.Total - len(open.List)
	v.markUsual()
	if err = p.loadRosterGaps(r, &v); err != nil {
		return v, err
	}
	v.Answer = deskHeadline(d, v)
	v.Begin, err = p.firstSteps(r, open.Total > 0)
	return v, err
}

// deskHeadline says how many students need the coach.
func deskHeadline(d store.Desk, v deskView) string {
	students := map[store.PersonID]bool{}
	for _, one := range d.Proposals {
		students[one.Student] = true
	}
	for _, q := range d.Questions {
		students[q.Student] = true
	}
	for _, locked := range v.Locked {
		students[locked.ID] = true
	}
	for _, g := range []lineGroup{v.Hurts, v.Off, v.Stuck, v.Unanswered, v.Slump, v.Cards, v.Idle} {
		for _, line := range g.Lines {
			for _, who := range line.Students {
				students[who.ID] = true
			}
		}
	}
	switch n := len(students); n {
	case 0:
		if v.NobodyJoined {
			return "Nobody is waiting for you: nobody has joined yet."
		}
		return "Nobody is waiting for you."
	case 1:
		return "One student needs you today."
	default:
		return fmt.Sprintf("%d students need you today.", n)
	}
}

func weekTotalsWords(w store.WeekTotals) string {
	if w.Sets == 0 {
		return "In the last seven days nobody recorded a break."
	}
	return fmt.Sprintf("In the last seven days %s recorded %s with %s.", say.Count(w.Students, "student", "students"),
		say.Count(w.Sets, "set", "sets"), say.Count(w.Breaks, "break", "breaks"))
}

func newProposalLine(one store.PendingPrescription, user session.User) proposalLine {
	to := user.Reader().BreakingFrom(one.Before.Side)
	line := proposalLine{
		ID: one.ID.String(), Path: route.PrescriptionPath(one.ID), Who: one.Student, Student: one.StudentName, Set: route.SetPath(one.Set),
		Where: one.Table.Label(), When: formatTime(one.SetStarted, user.Zone), Note: one.DecisionNote,
		Reason: one.Wording.Reason.Text(to), Expect: one.Wording.Expect.Text(to), Caution: one.Wording.Caution.Text(to),
		Thumb: component.SetupView{ID: "thumb-" + one.ID.String(), Setup: one.Setup, Kind: one.Table.Kind, From: &one.Before},
	}
	if words := component.ChangeWords(one.Before, one.Setup, one.Table.Kind, to.Units); len(words) > 1 {
		line.Changes = words // a single change is the reason's own first sentence
	}
	return line
}

func newQuestionLine(m store.Message, student string, zone *time.Location) questionLine {
	return questionLine{
		ID: "q-" + m.ID.String(), Who: m.Student, Path: route.SetPath(m.Set), Student: student, Body: m.Body,
		When: formatTime(m.At, zone), Message: store.NewID[store.MessageID]().String(),
	}
}

func newAssignmentLine(a store.ListedAssignment, now time.Time) assignmentLine {
	line := assignmentLine{
		Path: route.AssignmentPath(a.ID), Name: a.DrillName, For: a.ClassName,
		Done: fmt.Sprintf("%s have done it", say.OfTotal(a.Done, a.For)),
	}
	if line.For == "" {
		line.For = "chosen students"
	}
	if !a.Due.IsZero() {
		line.Due = say.Weekday(a.Due)
		line.Late = a.Done < a.For && a.Due.AddDate(0, 0, 1).Before(now)
	}
	return line
}

// firstSteps lists what a new club still needs before breaks can be recorded.
func (p *Pages) firstSteps(r *http.Request, assigned bool) ([]firstStepLine, error) {
	if assigned {
		return nil, nil
	}
	actor := session.MustUser(r).Actor
	classes, err := p.store.ListClasses(r.Context(), actor, store.ActiveOnly)
	if err != nil {
		return nil, err
	}
	tables, err := p.store.ListTables(r.Context(), actor, store.ActiveOnly)
	if err != nil {
		return nil, err
	}
	var steps []firstStepLine
	if len(classes) == 0 {
		steps = append(steps, firstStepLine{"/classes", "Make a class and paste your students' names.", "Classes"})
	}
	if len(tables) == 0 {
		steps = append(steps, firstStepLine{"/tables", "Enter the tables you break on.", "Tables"})
	}
	return append(steps, firstStepLine{"/drills", "Write a drill and assign it.", "Drills"}), nil
}

func formatTime(at time.Time, zone *time.Location) string {
	return say.Moment(at.In(zone))
}
