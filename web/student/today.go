package student

import (
	"fmt"
	"net/http"

	"breakwright/internal/say"
	"breakwright/internal/store"
	"breakwright/web/component"
	"breakwright/web/page"
	"breakwright/web/route"
	"breakwright/web/session"
)

// todayView is the student's first page.
type todayView struct {
	Frame  page.Frame
	Person store.PersonID
	Answer string
	Open   []openSetLine
	Tasks  []assignedDrillLine
	// News are decisions that the student has not met, Standing where other
	// changes stand.
	News, Standing []changeLine
	// Waits says that a changed setup waits to be broken, Danger that nothing is to be
	// broken until a coach has decided.
	Waits, Danger bool
	// Answers counts what the coach wrote beside sets and the student has not read, Messages
	// is what they wrote beside none.
	Answers  int
	Messages []coachMessage
	// Hurt is the page of the set after which they said that it hurts, "" for none.
	Hurt string
}

// changeLine is a change of a setup, with the drills that go on from it.
type changeLine struct {
	Words, Note string
	Drills      []drillLink
}

type drillLink struct{ Path, Name string }

// coachMessage is a message beside no set, with where it is read.
type coachMessage struct{ Body, When, ReadPath string }

type openSetLine struct{ Path, Words string }

type assignedDrillLine struct {
	Path, Name, Status, Note string
	Late                     bool
}

func (p *Pages) showToday(w http.ResponseWriter, r *http.Request) error {
	v := session.MustUser(r)
	today, err := p.store.GetToday(r.Context(), v.Actor)
	if err != nil {
		return err
	}
	now := p.now().In(v.Zone)
	view := todayView{Frame: p.sessions.TakeFrame(w, r), Person: v.Person, Answers: today.Answers, Hurt: hurtPath(today)}
	for _, m := range today.Messages {
		view.Messages = append(view.Messages, coachMessage{m.Body, say.Moment(m.At.In(v.Zone)), "/my/messages/" + m.ID.String() + "/read"})
	}
	for _, open := range today.Open {
		name := open.Title
		if name == "" {
			name = open.Name
		}
		view.Open = append(view.Open, openSetLine{
			Path:  route.OwnSetPath(open.ID),
			Words: fmt.Sprintf("%s: %s breaks recorded", name, say.OfTotal(open.Breaks, open.Planned)),
		})
	}
	for _, task := range today.Tasks {
		view.Tasks = append(view.Tasks, assignedDrillLine{
			Path: route.TaskPath(task.Assignment), Name: task.Name(), Note: task.Note,
			Status: component.TaskWords(task, now), Late: component.IsTaskLate(task, now),
		})
	}
	view.addChanges(today, session.MustUser(r).Reader())
	view.Answer = view.headline(today)
	return page.Render(w, r, http.StatusOK, todayPage(view))
}

// readMessage takes a message beside no set off the page; it stays under Progress.
func (p *Pages) readMessage(w http.ResponseWriter, r *http.Request) error {
	if _, err := session.FindNamed(r, "message", p.store.ReadMessage); err != nil {
		return err
	}
	return page.Redirect(w, r, "/today")
}

// addChanges tells of each drill's latest change on the table broken on last.
func (v *todayView) addChanges(today store.Today, reader say.Reader) {
	var changes []*store.Prescription
	drills := map[store.PrescriptionID][]drillLink{}
	for _, task := range today.Tasks {
		p := task.ChangeOn(chooseTable(today, task, "").Kind)
		if p == nil {
			continue
		}
		if len(drills[p.ID]) == 0 {
			changes = append(changes, p)
		}
		drills[p.ID] = append(drills[p.ID], drillLink{route.TaskPath(task.Assignment), task.Name()})
	}
	for _, p := range changes {
		change := newChangeView(p, reader)
		v.Waits = v.Waits || change.IsToBePlayed()
		v.Danger = v.Danger || change.ForbidsBreaks()
		line := changeLine{Words: change.StudentWords(), Note: change.NoteWords(), Drills: drills[p.ID]}
		switch {
		case change.IsNews(today.LastStart):
			v.News = append(v.News, line)
		case p.State != store.Declined && p.State != store.Superseded:
			v.Standing = append(v.Standing, line)
		}
	}
}

// headline is the first line of the page.
func (v todayView) headline(today store.Today) string {
	undone := 0
	for _, task := range today.Tasks {
		if task.Closed == 0 {
			undone++
		}
	}
	switch {
	case v.Hurt != "":
		return "Stop breaking for now: you said that it hurts."
	case v.Danger:
		return component.AskCoachFirst + "."
	case len(today.Open) > 0:
		return "You have a set to go on with."
	case undone == 1 && len(today.Tasks) > 1:
		return "One of " + say.Count(len(today.Tasks), "drill", "drills") + " is still to do."
	case undone == 1:
		return "One drill is waiting for you."
	case undone > 1 && undone < len(today.Tasks):
		return say.OfTotal(undone, len(today.Tasks)) + " drills are still to do."
	case undone > 1:
		return fmt.Sprintf("%d drills are waiting for you.", undone)
	case v.Waits:
		return "All done. The changed setup below is still to be broken."
	case len(today.Tasks) > 0:
		return "All done. Another ten breaks of the same always tell more."
	}
	return "Nothing is assigned to you today."
}
