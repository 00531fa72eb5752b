package exchange_test

import (
	"net/http"
	"strings"
	"testing"
	"time"

	"breakwright/internal/store"
	"breakwright/web/webtest"
)

// assign gives the scene's drill to somebody, due on a day.
func assign(t *testing.T, s *webtest.Site, a store.Assignment) store.AssignmentID {
	t.Helper()
	a.Drill = s.Drill.ID
	id, err := s.Store.AssignDrill(t.Context(), s.Coach, a)
	if err != nil {
		t.Fatal(err)
	}
	return id
}

func TestCalendar_IsOnesOwn(t *testing.T) {
	t.Parallel()
	s := webtest.New(t)
	friday := time.Date(2026, 3, 6, 0, 0, 0, 0, time.UTC)
	class := assign(t, s, store.Assignment{Class: s.Class, Due: friday, Note: "Ten, no more; rest.\nThen ten."})
	alone := assign(t, s, store.Assignment{Students: []store.PersonID{s.Students[1].ID}, Due: friday.AddDate(0, 0, 1)})
	over := assign(t, s, store.Assignment{Class: s.Class, Due: friday})
	if err := s.Store.EndAssignment(t.Context(), s.Coach, over); err != nil {
		t.Fatal(err)
	}
	coach, odile, bram := s.SignInCoach(t), s.SignInStudent(t, s.Students[0]), s.SignInStudent(t, s.Students[1])
	stranger := webtest.New(t).SignInCoach(t)
	for name, c := range map[string]struct {
		who  *webtest.Client
		days int
		says []string
	}{
		"coach":    {coach, 2, []string{"UID:" + class.String() + "@breakwright", "UID:" + alone.String() + "@breakwright", "Thursday evening", "one student", "DTSTART;VALUE=DATE:20260307"}},
		"odile":    {odile, 1, []string{"UID:" + class.String() + "@breakwright", "DTSTART;VALUE=DATE:20260306", `Ten\, no more\; rest.\nThen ten.`}},
		"bram":     {bram, 2, []string{"UID:" + alone.String() + "@breakwright"}},
		"stranger": {stranger, 0, []string{"BEGIN:VCALENDAR\r\n"}},
	} {
		p := c.who.Get(t, "/calendar.ics").RequireStatus(t, http.StatusOK)
		unfolded := strings.ReplaceAll(p.Text, "\r\n ", "")
		if got := strings.Count(unfolded, "BEGIN:VEVENT"); got != c.days {
			t.Errorf("%s has %d days, want %d", name, got, c.days)
		}
		for _, want := range c.says {
			if !strings.Contains(unfolded, want) {
				t.Errorf("%s: no %s in\n%s", name, want, unfolded)
			}
		}
		if p.Header.Get("Content-Type") != "text/calendar; charset=utf-8" || !strings.HasPrefix(p.Header.Get("Content-Disposition"), "attachment") {
			t.Errorf("headers %v", p.Header)
		}
	}
}
