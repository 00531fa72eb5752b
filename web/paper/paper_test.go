package paper_test

import (
	"net/http"
	"net/url"
	"strings"
	"testing"

	"github.com/google/uuid"

	"breakwright/internal/store"
	"breakwright/internal/store/storetest"
	"breakwright/internal/table"
	"breakwright/web/webtest"
)

func TestMain(m *testing.M) { storetest.Main(m) }

// with gives a copy of a form with fields set, name and value by turns.
func with(form url.Values, pairs ...string) url.Values {
	changed := url.Values{}
	for name, values := range form {
		changed[name] = append([]string(nil), values...)
	}
	for i := 0; i+1 < len(pairs); i += 2 {
		changed.Set(pairs[i], pairs[i+1])
	}
	return changed
}

// hostile adds a student whose name tries everything.
func hostile(t *testing.T, s *webtest.Site) store.Person {
	t.Helper()
	name := "<script>alert(1)</script> 🎱 " + strings.Repeat("W", 90)
	added, err := s.Store.AddStudents(t.Context(), s.Coach, uuid.Nil, s.Class, []store.NewStudent{{Name: name, Side: table.Right}})
	if err != nil {
		t.Fatal(err)
	}
	return added[0]
}

func assignmentSheet(s *webtest.Site, choice string) string {
	return "/assignments/" + s.Assignment.String() + "/sheet" + choice
}

// Every student has a sheet, each the right way round, with as many rows as the
// drill has breaks.
func TestSheets_OneAStudent(t *testing.T) {
	t.Parallel()
	s := webtest.New(t)
	coach := s.CoachIn(t)
	odd := hostile(t, s)
	p := coach.Get(t, assignmentSheet(s, "")).Status(t, http.StatusOK)
	p.Count(t, "article.paper", 4).Count(t, ".paper-rows tbody tr", 40).Count(t, ".paper script", 0)
	p.Has(t, ".paper", "Odile", "Wen", odd.Name, "Break from the left", "Break from the right").Has(t, ".answer", "4 sheets")
	p.Count(t, ".paper svg", 12)

	one := coach.Get(t, assignmentSheet(s, "?for="+s.Students[2].ID.String())).Status(t, http.StatusOK)
	one.Count(t, "article.paper", 1).Has(t, ".paper", "Wen", "Break from the right", "to the right foot corner", "1 in the right foot corner")
	if strings.Contains(one.Words(t, ".paper"), "Odile") {
		t.Error("another student's name is on it")
	}
}

func TestSheets_BlankAndOnAnyTable(t *testing.T) {
	t.Parallel()
	s := webtest.New(t)
	coach := s.CoachIn(t)
	small, err := s.Store.SaveTable(t.Context(), s.Coach, store.Table{Name: "Bar box", Kind: table.SevenFoot()})
	if err != nil {
		t.Fatal(err)
	}
	blank := coach.Get(t, assignmentSheet(s, "?for=right&table="+small.ID.String())).Status(t, http.StatusOK)
	blank.Count(t, "article.paper", 1).Has(t, ".paper", "Bar box", "Break from the right", "14 inches right of the long string")
	blank.Count(t, ".blanks .open", 3) // name, date and time

	d := "/drills/" + s.Drill.ID.String() + "/sheet"
	coach.Get(t, d).Status(t, http.StatusOK).Has(t, ".paper", "Break from the left").Count(t, ".blanks .open", 4)
	coach.Get(t, d+"?for=right").Has(t, ".paper", "Break from the right")
	coach.Get(t, d+"?for=%F0%9F%8E%B1&table=x").Status(t, http.StatusOK)
	nobody := coach.Get(t, assignmentSheet(s, "?for="+uuid.NewString())).Status(t, http.StatusOK)
	nobody.Count(t, "article.paper", 0).Has(t, ".answer", "no sheet to print")
}

// A sheet says what was decided for the student, as their phone would.
func TestSheets_CarryWhatWasDecided(t *testing.T) {
	t.Parallel()
	s := webtest.New(t)
	ctx := t.Context()
	s.CloseSet(t, s.StudentActor(0), s.RecordBreaks(t, s.StudentActor(0), 10), -15)
	waiting, err := s.Store.ListPendingPrescriptions(ctx, s.Coach)
	if err != nil {
		t.Fatal(err)
	}
	if err := s.Store.DecidePrescription(ctx, s.Coach, waiting[0].ID, store.Decision{Answer: store.Approved}); err != nil {
		t.Fatal(err)
	}
	coach := s.CoachIn(t)
	q := "&table=" + s.Table.ID.String()
	coach.Get(t, assignmentSheet(s, "?for="+s.Students[0].ID.String()+q)).Has(t, ".facts", "15 inches left of the long string")
	coach.Get(t, assignmentSheet(s, "?for="+s.Students[1].ID.String()+q)).Has(t, ".facts", "18 inches left of the long string")
}

func TestCards_AreThoseInForce(t *testing.T) {
	t.Parallel()
	s := webtest.New(t)
	coach, odile := s.CoachIn(t), s.StudentIn(t, s.Students[0])
	path := "/students/" + s.Students[0].ID.String() + "/card"
	coach.Get(t, path).Status(t, http.StatusOK).Has(t, ".answer", "Odile has no break card yet").Count(t, ".pocket-card", 0)
	odile.Get(t, "/my/card").Status(t, http.StatusOK).Has(t, ".answer", "You have no break card yet")

	set := s.RecordBreaks(t, s.StudentActor(0), 10)
	s.CloseSet(t, s.StudentActor(0), set, -18)
	if err := s.Store.IssueCard(t.Context(), s.Coach, store.CardID{}, set); err != nil {
		t.Fatal(err)
	}
	for _, p := range []*webtest.Page{coach.Get(t, path), odile.Get(t, "/my/card")} {
		p.Status(t, http.StatusOK).Count(t, ".pocket-card", 1).Count(t, ".pocket-card svg", 1)
		p.Has(t, ".pocket-card", "Odile", "North 2", "Wing ball 5 of 10", "cue ball in the window 10 of 10", "18 inches left", "1-3-2-8-9-5-6-4-7")
	}
	s.StudentIn(t, s.Students[1]).Get(t, "/my/card").Count(t, ".pocket-card", 0)
}
