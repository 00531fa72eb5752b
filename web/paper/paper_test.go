package paper_test

import (
	"net/http"
	"net/url"
	"strings"
	"testing"

	"github.com/google/uuid"

	"breakwright/internal/drill"
	"breakwright/internal/store"
	"breakwright/internal/store/storetest"
	"breakwright/internal/table"
	"breakwright/web/webtest"
)

func TestMain(m *testing.M) { storetest.Main(m) }

// with returns a copy of a form with fields set, name and value by turns.
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
	coach := s.SignInCoach(t)
	odd := hostile(t, s)
	p := coach.Get(t, assignmentSheet(s, "")).RequireStatus(t, http.StatusOK)
	p.RequireCount(t, "article.paper", 4).RequireCount(t, ".paper-rows tbody tr", 40).RequireCount(t, ".paper script", 0)
	p.RequireText(t, ".paper", "Odile", "Wen", odd.Name, "Break from the left", "Break from the right").RequireText(t, ".answer", "4 sheets")
	p.RequireCount(t, ".paper svg", 12)

	one := coach.Get(t, assignmentSheet(s, "?for="+s.Students[2].ID.String())).RequireStatus(t, http.StatusOK)
	one.RequireCount(t, "article.paper", 1).RequireText(t, ".paper", "Wen", "Break from the right", "to the right foot corner", "1 in the right foot corner")
	if strings.Contains(one.TextOf(t, ".paper"), "Odile") {
		t.Error("another student's name is on it")
	}
}

func TestSheets_BlankAndOnAnyTable(t *testing.T) {
	t.Parallel()
	s := webtest.New(t)
	coach := s.SignInCoach(t)
	small, err := s.Store.SaveTable(t.Context(), s.Coach, store.Table{Name: "Bar box", Kind: table.SevenFoot()})
	if err != nil {
		t.Fatal(err)
	}
	blank := coach.Get(t, assignmentSheet(s, "?for=right&table="+small.ID.String())).RequireStatus(t, http.StatusOK)
	blank.RequireCount(t, "article.paper", 1).RequireText(t, ".paper", "Bar box", "Break from the right", "about 1½ diamonds (14 in) right of the middle")
	blank.RequireCount(t, ".blanks .open", 3) // name, date and time

	d := "/drills/" + s.Drill.ID.String() + "/sheet"
	coach.Get(t, d).RequireStatus(t, http.StatusOK).RequireText(t, ".paper", "Break from the left").RequireCount(t, ".blanks .open", 4)
	coach.Get(t, d+"?for=right").RequireText(t, ".paper", "Break from the right")
	coach.Get(t, d+"?for=%F0%9F%8E%B1&table=x").RequireStatus(t, http.StatusOK)
	nobody := coach.Get(t, assignmentSheet(s, "?for="+uuid.NewString())).RequireStatus(t, http.StatusOK)
	nobody.RequireCount(t, "article.paper", 0).RequireText(t, ".answer", "no sheet to print")
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
	coach := s.SignInCoach(t)
	q := "&table=" + s.Table.ID.String()
	coach.Get(t, assignmentSheet(s, "?for="+s.Students[0].ID.String()+q)).RequireText(t, ".facts", "about 1¼ diamonds (15 in) left of the middle")
	coach.Get(t, assignmentSheet(s, "?for="+s.Students[1].ID.String()+q)).RequireText(t, ".facts", "about 1½ diamonds (18 in) left of the middle")
}

func TestCards_AreThoseInForce(t *testing.T) {
	t.Parallel()
	s := webtest.New(t)
	coach, odile := s.SignInCoach(t), s.SignInStudent(t, s.Students[0])
	path := "/students/" + s.Students[0].ID.String() + "/card"
	coach.Get(t, path).RequireStatus(t, http.StatusOK).RequireText(t, ".answer", "Odile has no break card yet").RequireCount(t, ".pocket-card", 0)
	odile.Get(t, "/my/card").RequireStatus(t, http.StatusOK).RequireText(t, ".answer", "You have no break card yet")

	set := s.RecordBreaks(t, s.StudentActor(0), 10)
	s.CloseSet(t, s.StudentActor(0), set, -18)
	if err := s.Store.IssueCard(t.Context(), s.Coach, store.CardID{}, set); err != nil {
		t.Fatal(err)
	}
	for _, p := range []*webtest.Page{coach.Get(t, path), odile.Get(t, "/my/card")} {
		p.RequireStatus(t, http.StatusOK).RequireCount(t, ".pocket-card", 1).RequireCount(t, ".pocket-card svg", 2)
		p.RequireText(t, ".pocket-card", "Odile", "North 2", "Wing ball 5 of 10", "cue ball in the window 10 of 10", "(18 in) left of the middle", "1-3-2-8-9-5-6-4-7",
			"Window 25 to 50 in from the head rail", "Watch: "+s.Drill.Watch, "Rack plan: ", "A set order is for practice and for events that allow one", "A good leave. An open shot on the 1 into the left head corner")
	}
	if got := coach.Get(t, path).TextOf(t, ".pocket-card"); strings.Contains(got, "Computed on a table of") {
		t.Errorf("the card of a usual table: %q", got)
	}
	s.SignInStudent(t, s.Students[1]).Get(t, "/my/card").RequireCount(t, ".pocket-card", 0)
}

// Where the room plays house rules, the card says which, and draws the break box.
func TestCards_SayTheHouseRules(t *testing.T) {
	t.Parallel()
	s := webtest.New(t)
	odile := s.StudentActor(0)
	plain := s.RecordBreaks(t, odile, 10)
	s.CloseSet(t, odile, plain, -18)
	d := storetest.StandardDrill()
	d.Name, d.House, d.Setup.Cue.X = "From the box", drill.HouseRules{ThreePoints: true, BreakBox: 8}, -8
	boxed, err := s.Store.SaveDrill(t.Context(), s.Coach, store.DrillID{}, d)
	if err != nil {
		t.Fatal(err)
	}
	if s.Assignment, err = s.Store.AssignDrill(t.Context(), s.Coach, store.Assignment{Drill: boxed.ID, Class: s.Class}); err != nil {
		t.Fatal(err)
	}
	coach, path := s.SignInCoach(t), "/students/"+s.Students[0].ID.String()+"/card"
	if err := s.Store.IssueCard(t.Context(), s.Coach, store.NewID[store.CardID](), plain); err != nil {
		t.Fatal(err)
	}
	coach.Get(t, path).RequireCount(t, ".pocket-card", 1).RequireCount(t, ".pocket-house, .pic-box", 0)
	set := s.RecordBreaks(t, odile, 10)
	s.CloseSet(t, odile, set, -8)
	if err := s.Store.IssueCard(t.Context(), s.Coach, store.NewID[store.CardID](), set); err != nil {
		t.Fatal(err)
	}
	coach.Get(t, path).RequireCount(t, ".pocket-card", 1).RequireCount(t, ".pocket-card .pic-box", 1).
		RequireText(t, ".pocket-house", "House rules: three balls pocketed or past the head string; the cue ball at most 8 in from the long string.")
}

// The card of a small table says by which table its rack plan was computed.
func TestCards_OfASmallTable(t *testing.T) {
	t.Parallel()
	s := webtest.New(t)
	small := table.EightFoot()
	small.Small = true
	var err error
	if s.Table, err = s.Store.SaveTable(t.Context(), s.Coach, store.Table{Name: "South", Kind: small}); err != nil {
		t.Fatal(err)
	}
	odile := s.StudentActor(0)
	set := s.RecordBreaks(t, odile, 10)
	s.CloseSet(t, odile, set, 0)
	if err := s.Store.IssueCard(t.Context(), s.Coach, store.CardID{}, set); err != nil {
		t.Fatal(err)
	}
	s.SignInStudent(t, s.Students[0]).Get(t, "/my/card").RequireText(t, ".pocket-card", "Rack plan: ", "Computed on a table of 46 × 92 in.")
}
