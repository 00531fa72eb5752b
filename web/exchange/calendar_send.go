package exchange

import (
	"bytes"
	"net/http"

	"breakwright/internal/calendar"
	"breakwright/internal/say"
	"breakwright/internal/store"
	"breakwright/web/session"
)

// sendCalendar sends the due days: a coach all open ones of the club, a student
// those that are for them.
func (p *Pages) sendCalendar(w http.ResponseWriter, r *http.Request) error {
	user := session.MustUser(r)
	var c calendar.Calendar
	var err error
	if user.IsCoach() {
		c, err = p.coachCalendar(r, user)
	} else {
		c, err = p.studentCalendar(r, user)
	}
	if err != nil {
		return err
	}
	var file bytes.Buffer
	if err := calendar.Write(&file, c); err != nil {
		return err
	}
	h := w.Header()
	h.Set("Content-Type", "text/calendar; charset=utf-8")
	h.Set("Content-Disposition", `attachment; filename="breakwright.ics"`)
	h.Set("Cache-Control", "no-store")
	_, err = w.Write(file.Bytes())
	return abortOnWriteError(err)
}

func (p *Pages) coachCalendar(r *http.Request, user session.User) (calendar.Calendar, error) {
	c := calendar.Calendar{Name: user.Club + ", due days"}
	open, err := p.store.ListAssignments(r.Context(), user.Actor, store.ActiveOnly)
	for _, a := range open {
		if a.Due.IsZero() {
			continue
		}
		who := a.ClassName
		if who == "" {
			who = say.CountFromOne(a.For, "student", "students")
		}
		c.Days = append(c.Days, calendar.Day{
			ID: calendarDayID(a.ID), Date: a.Due, StampedAt: p.now(), Title: "Due: " + a.DrillName + ", " + who, Details: a.Note,
		})
	}
	return c, err
}

func (p *Pages) studentCalendar(r *http.Request, user session.User) (calendar.Calendar, error) {
	c := calendar.Calendar{Name: user.Club + ", my drills"}
	today, err := p.store.GetToday(r.Context(), user.Actor)
	for _, task := range today.Tasks {
		if !task.Due.IsZero() {
			c.Days = append(c.Days, calendar.Day{
				ID: calendarDayID(task.Assignment), Date: task.Due, StampedAt: p.now(), Title: "Break drill: " + task.Name(), Details: task.Note,
			})
		}
	}
	return c, err
}

// calendarDayID is the same for an assignment in every file.
func calendarDayID(id store.AssignmentID) string { return id.String() + "@breakwright" }
