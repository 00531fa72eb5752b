package leave_test

import (
	"net/http"
	"net/url"
	"strings"
	"testing"

	"breakwright/internal/drill"
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
	own.RequireText(t, "h1", "After the break")
	theirs.RequireText(t, "h1", "Odile after the break") // on paper nothing else says whose it is
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

// A swap leads the coach to the change's form with the order in it, once nothing else
// waits, and the student nowhere.
func TestLeave_ASwapIsPrescribedFromThePlan(t *testing.T) {
	site := webtest.New(t)
	odile := site.StudentActor(0)
	var last store.SetID
	for n := range 4 {
		set := site.StartSet(t, odile)
		for i := range 10 {
			b := storetest.NewBreak(i + 1)
			b.Rest = append(b.Rest, drill.RestingBall{Ball: 2, Place: table.Place{X: 20, Y: 60}}, drill.RestingBall{Ball: 3, Place: table.Place{X: -22, Y: 8}})
			if _, err := site.Store.SaveBreak(t.Context(), odile, set.ID, b); err != nil {
				t.Fatal(err)
			}
		}
		site.CloseSet(t, odile, set.ID, []table.Inches{-18, -18, -18, -16}[n])
		last = set.ID
	}
	coach := site.SignInCoach(t)
	page := "/students/" + odile.Person.String() + "/leave"
	const link = "section[aria-labelledby=plan] a"
	coach.Get(t, page).RequireText(t, link, "Decide first on the change that waits")
	waiting, err := site.Store.ListPendingPrescriptions(t.Context(), site.Coach)
	if err != nil || len(waiting) != 1 {
		t.Fatalf("%d prescriptions wait: %v", len(waiting), err)
	}
	coach.Post(t, "/prescriptions/"+waiting[0].ID.String(), url.Values{"answer": {"declined"}})
	plan := coach.Get(t, page).RequireText(t, "section[aria-labelledby=plan]", "Let the 3 and the 2 change places")
	path := plan.RequireText(t, link, "Prescribe this order").AttributeOf(t, link, "href")
	if path != "/sets/"+last.String()+"/change?rack=1-2-3-8-9-5-6-4-7" {
		t.Errorf("it leads to %s", path)
	}
	if got := coach.Get(t, "/sets/"+last.String()+"/change?rack=9-9-9").FormValues(t, "form.change"); got.Get("rack") != site.Drill.Setup.Order.String() {
		t.Errorf("an order that cannot be fills in %s", got.Get("rack"))
	}
	form := coach.Get(t, path).RequireStatus(t, http.StatusOK).RequireText(t, "#change-words", "1-2-3-8-9-5-6-4-7").FormValues(t, "form.change")
	form.Set("answer", "own")
	coach.Post(t, "/sets/"+last.String()+"/change", form).RequireStatus(t, http.StatusOK).RequireText(t, "body", "your change is prescribed")
	student := site.SignInStudent(t, site.Students[0])
	student.Get(t, "/today/"+site.Assignment.String()).RequireText(t, "main", "1-2-3-8-9-5-6-4-7")
	student.Get(t, "/my/leave").RequireCount(t, link, 0)
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
