package coach

import (
	"fmt"
	"net/http"
	"time"

	"breakwright/internal/store"
	"breakwright/web/page"
	"breakwright/web/session"
	"breakwright/web/sheet"
)

// deskView is the coach's first page: what needs a decision.
type deskView struct {
	Frame       page.Frame
	Answer      string
	Proposals   []proposalLine
	Questions   []questionLine
	Assignments []assignmentLine
	// Begin are the first steps that are still to do in a new club.
	Begin []step
}

// proposalLine is a prescription to decide on.
type proposalLine struct {
	ID, Student, Set, Where, When string
	Reason, Expect, Caution       string
	Changes                       []string
}

type questionLine struct{ Path, Student, Body, When string }

type assignmentLine struct {
	Path, Name, For, Done, Due string
	Late                       bool
}

type step struct{ Path, Words, Button string }

func (p *Pages) showDesk(w http.ResponseWriter, r *http.Request) error {
	v, err := p.desk(r)
	if err != nil {
		return err
	}
	v.Frame = p.sessions.Frame(w, r)
	return page.Render(w, r, http.StatusOK, deskPage(v))
}

func (p *Pages) desk(r *http.Request) (deskView, error) {
	visitor := session.From(r)
	pending, err := p.store.PendingPrescriptions(r.Context(), visitor.Viewer)
	if err != nil {
		return deskView{}, err
	}
	questions, err := p.store.WaitingQuestions(r.Context(), visitor.Viewer)
	if err != nil {
		return deskView{}, err
	}
	assignments, err := p.store.ListAssignments(r.Context(), visitor.Viewer, store.Live)
	if err != nil {
		return deskView{}, err
	}
	v := deskView{Answer: deskAnswer(pending, questions)}
	for _, one := range pending {
		v.Proposals = append(v.Proposals, proposal(one, visitor.Zone))
	}
	for _, q := range questions {
		v.Questions = append(v.Questions, questionLine{
			Path: "/sets/" + q.Set.String(), Student: q.StudentName, Body: q.Body, When: when(q.At, visitor.Zone),
		})
	}
	now := p.now().In(visitor.Zone)
	for _, a := range assignments {
		v.Assignments = append(v.Assignments, assignmentOf(a, now))
	}
	v.Begin, err = p.firstSteps(r, len(assignments) > 0)
	return v, err
}

// deskAnswer says how many students need the coach.
func deskAnswer(pending []store.PendingPrescription, questions []store.Question) string {
	students := map[store.PersonID]bool{}
	for _, one := range pending {
		students[one.Student] = true
	}
	for _, q := range questions {
		students[q.Student] = true
	}
	switch n := len(students); n {
	case 0:
		return "Nobody is waiting for you."
	case 1:
		return "One student needs you today."
	default:
		return fmt.Sprintf("%d students need you today.", n)
	}
}

func proposal(one store.PendingPrescription, zone *time.Location) proposalLine {
	return proposalLine{
		ID: one.ID.String(), Student: one.StudentName, Set: "/sets/" + one.Set.String(),
		Where: one.Table.Label(), When: when(one.SetClosed, zone),
		Reason: one.Reason, Expect: one.Expect, Caution: one.Caution,
		Changes: sheet.ChangeWords(one.Before, one.Setup, one.Table.Kind),
	}
}

func assignmentOf(a store.ListedAssignment, now time.Time) assignmentLine {
	line := assignmentLine{
		Path: "/assignments/" + a.ID.String(), Name: a.DrillName, For: a.ClassName,
		Done: fmt.Sprintf("%s have done it", sheet.CountWords(a.Done, a.For)),
	}
	if line.For == "" {
		line.For = "chosen students"
	}
	if !a.Due.IsZero() {
		line.Due = a.Due.Format("Monday 2 January")
		line.Late = a.Done < a.For && a.Due.AddDate(0, 0, 1).Before(now)
	}
	return line
}

// firstSteps lists what a new club still needs before breaks can be recorded.
func (p *Pages) firstSteps(r *http.Request, assigned bool) ([]step, error) {
	if assigned {
		return nil, nil
	}
	viewer := session.From(r).Viewer
	classes, err := p.store.ListClasses(r.Context(), viewer, store.Live)
	if err != nil {
		return nil, err
	}
	tables, err := p.store.ListTables(r.Context(), viewer, store.Live)
	if err != nil {
		return nil, err
	}
	var steps []step
	if len(classes) == 0 {
		steps = append(steps, step{"/classes", "Make a class and paste your students' names.", "Classes"})
	}
	if len(tables) == 0 {
		steps = append(steps, step{"/tables", "Enter the tables you break on.", "Tables"})
	}
	return append(steps, step{"/drills", "Write a drill and assign it.", "Drills"}), nil
}

func when(at time.Time, zone *time.Location) string { return at.In(zone).Format("2 January, 15:04") }
