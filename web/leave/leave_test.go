package leave_test

import (
	"net/http"
	"strings"
	"testing"

	"breakwright/internal/store"
	"breakwright/internal/store/storetest"
	"breakwright/internal/table"
	"breakwright/web/webtest"
)

func TestMain(m *testing.M) { storetest.Main(m) }

// Before the first closed set the page says what it will tell.
func TestLeave_BeforeTheFirstSet(t *testing.T) {
	site := webtest.New(t)
	page := site.SignInStudent(t, site.Students[0]).Get(t, "/my/leave").RequireStatus(t, http.StatusOK)
	page.RequireText(t, ".answer", "from the first set on").RequireCount(t, "form select", 0)
}

// Thirty breaks whose 1 was placed: the counts, the map of all of them, windows and
// a rack plan with the note about rule books; the coach reads what the student
// does.
func TestLeave_SaysTheSameToBoth(t *testing.T) {
	site := webtest.New(t)
	odile := site.StudentActor(0)
	for range 3 {
		site.CloseSet(t, odile, site.RecordBreaks(t, odile, 10), 0)
	}
	own := site.SignInStudent(t, site.Students[0]).Get(t, "/my/leave").RequireStatus(t, http.StatusOK)
	coach := site.SignInCoach(t)
	theirs := coach.Get(t, "/students/"+odile.Person.String()+"/leave").RequireStatus(t, http.StatusOK)
	for _, part := range []string{".answer", "section[aria-labelledby=shots-heading]", "section[aria-labelledby=where]", "section[aria-labelledby=plan]"} {
		if a, b := strings.ReplaceAll(own.TextOf(t, part), "your own ", "the student’s own "), theirs.TextOf(t, part); a != b || a == "" {
			t.Errorf("the student reads %q, the coach %q", a, b)
		}
	}
	own.RequireText(t, ".answer", "of 30 breaks left an open shot").RequireText(t, "section[aria-labelledby=shots-heading]", "An open shot on the lowest ball", "of 30")
	if drawn := strings.Count(own.AttributeOf(t, "#shot-map .pic-dots", "d"), "M"); drawn != 30 {
		t.Errorf("%d lowest balls are drawn", drawn)
	}
	plan := own.TextOf(t, "section[aria-labelledby=plan]")
	if !strings.Contains(plan, "Rule books ask for no purposeful order") || !strings.Contains(plan, "your own 30 breaks") {
		t.Errorf("the plan says %q", plan)
	}
	theirs.RequireCount(t, "select[name=rack] option", 1).RequireCount(t, "select[name=goal] option", 2)
	shots := coach.Get(t, "/students/"+odile.Person.String()+"/leave?goal=shot").RequireStatus(t, http.StatusOK)
	shots.RequireCount(t, "select[name=goal] option[selected][value=shot]", 1)
	coach.Get(t, "/students/"+odile.Person.String()+"/leave?rack=nonsense").RequireStatus(t, http.StatusOK).RequireText(t, ".answer", "of 30 breaks")
	coach.Get(t, "/students/"+store.NewID[store.PersonID]().String()+"/leave").RequireStatus(t, http.StatusNotFound)
}

// The plan of a small table says by which table it was computed; that of a usual one
// does not.
func TestLeave_PlanOfASmallTable(t *testing.T) {
	site := webtest.New(t)
	odile := site.StudentActor(0)
	says := func() string {
		site.CloseSet(t, odile, site.RecordBreaks(t, odile, 10), 0)
		return site.SignInCoach(t).Get(t, "/students/"+odile.Person.String()+"/leave").TextOf(t, "section[aria-labelledby=plan]")
	}
	if got := says(); strings.Contains(got, "computed breaks that are weighed") {
		t.Errorf("a usual table: %q", got)
	}
	small := table.EightFoot()
	small.Small = true
	var err error
	if site.Table, err = site.Store.SaveTable(t.Context(), site.Coach, store.Table{Name: "South", Kind: small}); err != nil {
		t.Fatal(err)
	}
	if got := says(); !strings.Contains(got, "On this one of 44 × 88 in they say less") {
		t.Errorf("a small table: %q", got)
	}
}
