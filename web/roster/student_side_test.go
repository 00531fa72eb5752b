package roster_test

import (
	"net/http"
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
	row := s.get(t, s.class()).Form(t, "form[action='"+s.student(0)+"/side']")
	row.Set("side", "right")

	part := s.coach.Do(t, http.MethodPost, s.student(0)+"/side", row, map[string]string{"HX-Request": "true"}).Status(t, http.StatusOK)
	part.Count(t, "main", 0).Has(t, "li a.name", "Odile").Has(t, "button[aria-pressed=true]", "Right").Count(t, "button[aria-pressed=true]", 1)
	if got := s.side(t, 0); got != table.Right {
		t.Errorf("side %q", got)
	}

	row.Set("side", "")
	whole := s.post(t, s.student(0)+"/side", row).Status(t, http.StatusOK)
	whole.Has(t, "h1", "Thursday evening").Has(t, ".notice.good", "Odile: break side not known yet.")
	if got := s.side(t, 0); got != "" {
		t.Errorf("side %q", got)
	}
}

func TestSideIsSetOnTheStudentsPage(t *testing.T) {
	s := newSite(t)
	s.post(t, s.student(0)+"/side", fields("side", "right")).Status(t, http.StatusOK).
		Has(t, "h1", "Odile").Has(t, ".answer", "Breaks from the right")
	s.post(t, s.student(0)+"/side", fields("side", "middle")).Status(t, http.StatusUnprocessableEntity).
		Has(t, "#side-error", "left or right")
	if got := s.side(t, 0); got != table.Right {
		t.Errorf("side %q", got)
	}
}
