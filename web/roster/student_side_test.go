package roster_test

import (
	"net/http"
	"net/url"
	"testing"

	"breakwright/internal/table"
)

func (s *site) side(t *testing.T, i int) table.Side {
	t.Helper()
	p, err := s.Store.GetPerson(t.Context(), s.Coach, s.Students[i].ID)
	if err != nil {
		t.Fatal(err)
	}
	return p.Side
}

func TestSideIsSetInTheRow(t *testing.T) {
	s := newSite(t)
	row := s.get(t, s.class()).FormValues(t, "form[action='"+s.student(0)+"/side']")
	row.Set("side", "right")

	part := s.coach.SendWithHeaders(t, http.MethodPost, s.student(0)+"/side", row, map[string]string{"HX-Request": "true"}).RequireStatus(t, http.StatusOK)
	part.RequireCount(t, "main", 0).RequireText(t, "li a.name", "Odile").RequireText(t, "button[aria-pressed=true]", "Right").RequireCount(t, "button[aria-pressed=true]", 1).RequireText(t, ".undo button", "Undo")
	if got := s.side(t, 0); got != table.Right {
		t.Errorf("side %q", got)
	}

	row.Set("side", "")
	whole := s.post(t, s.student(0)+"/side", row).RequireStatus(t, http.StatusOK)
	whole.RequireText(t, "h1", "Thursday evening").RequireText(t, ".notice.good", "Odile: break side not known yet.")
	if got := s.side(t, 0); got != "" {
		t.Errorf("side %q", got)
	}
}

// What a side was before is one press away, on the page where another was set.
func TestSideIsUndone(t *testing.T) {
	s := newSite(t)
	row := s.get(t, s.class()).FormValues(t, "form[action='"+s.student(0)+"/side']")
	for from, form := range map[string]url.Values{"class": row, "student": {}} {
		form.Set("side", "right")
		s.post(t, s.student(0)+"/side", form)
		form.Set("side", "left")
		changed := s.post(t, s.student(0)+"/side", form).RequireText(t, ".notice.good button", "Undo")
		s.post(t, s.student(0)+"/side", form).RequireCount(t, ".notice.good button", 0) // it was so already
		back := s.post(t, changed.AttributeOf(t, ".notice.good form", "action"), changed.FormValues(t, ".notice.good form")).RequireStatus(t, http.StatusOK)
		if got := s.side(t, 0); got != table.Right || back.TextOf(t, "h1") != changed.TextOf(t, "h1") {
			t.Errorf("from the page of the %s: back on %q with side %q", from, back.TextOf(t, "h1"), got)
		}
	}
}

func TestSideIsSetOnTheStudentsPage(t *testing.T) {
	s := newSite(t)
	s.post(t, s.student(0)+"/side", fields("side", "right")).RequireStatus(t, http.StatusOK).
		RequireText(t, "h1", "Odile").RequireText(t, ".answer", "Breaks from the right")
	s.post(t, s.student(0)+"/side", fields("side", "middle")).RequireStatus(t, http.StatusUnprocessableEntity).
		RequireText(t, "#side-error", "left or right")
	if got := s.side(t, 0); got != table.Right {
		t.Errorf("side %q", got)
	}
}
