package report_test

import (
	"fmt"
	"net/http"
	"regexp"
	"strings"
	"testing"
	"time"

	"breakwright/internal/drill"
	"breakwright/internal/setreview"
	"breakwright/internal/store"
	"breakwright/internal/store/storetest"
	"breakwright/internal/table"
	"breakwright/web/webtest"
)

// A student's report has the counts that are stored, the latest five stints each
// once, the oldest first, and the coach's is the same as their own.
func TestStudent_SaysWhatIsStored(t *testing.T) {
	site, students := webtest.NewWithHistory(t, storetest.SimulatedHistory{Students: 1, Sets: 60, Seed: 5, Until: time.Now()})
	who := students[0]
	story, err := site.Store.GetStudentProgress(t.Context(), site.Coach, who.ID, store.ProgressFilter{})
	if err != nil {
		t.Fatal(err)
	}
	theirs := site.SignInCoach(t).Get(t, studentReport(who)).RequireStatus(t, http.StatusOK).RequireText(t, "h1", who.Name)
	ours := site.SignInStudent(t, who).Get(t, "/my/report").RequireStatus(t, http.StatusOK).RequireText(t, "h2", "Where you stand")
	theirs.RequireText(t, "h2", "How it stands").RequireText(t, ".answer", "600 breaks in 60 sets")
	if a, b := theirs.TextOf(t, ".report-way"), ours.TextOf(t, ".report-way"); a != b || a == "" {
		t.Errorf("the coach reads %q, the student %q", a, b)
	}
	x := story.Stints[0]
	theirs.RequireText(t, ".report-now", "Wing ball in its corner "+of(x.WingMade, x.Breaks), "Cue ball in the window "+of(x.InWindow, x.Breaks),
		"Scratches "+of(x.Scratches(), x.Breaks)+", dry breaks "+of(x.Dry, x.Breaks))
	latest := story.Stints[:5]
	oldest := latest[4]
	theirs.RequireText(t, "section[aria-labelledby=way]", fmt.Sprintf("Before this: %d sets with %d breaks.", oldest.SetsBefore, oldest.BreaksBefore))
	theirs.RequireCount(t, ".report-way > li:not(.change)", 5)
	for i, n := range theirs.FindAll(t, ".report-way .pic-rate > svg") {
		stint, id := latest[4-i], ""
		for _, a := range n.Attr {
			if a.Key == "id" {
				id = a.Val
			}
		}
		if got := theirs.TextOf(t, "figure:has(#"+id+") .pic-count"); id != "wing-"+stint.ID.String() || got != of(stint.WingMade, stint.Breaks) {
			t.Errorf("stint %d is %s with %s, not %s with %s", i, id, got, stint.ID, of(stint.WingMade, stint.Breaks))
		}
	}
	stopped := 0
	for _, b := range story.Shown.Breaks {
		if b.Cue.How == drill.Stopped {
			stopped++
		}
	}
	if drawn := strings.Count(theirs.AttributeOf(t, "#cloud .pic-dots", "d"), "M"); drawn != stopped || drawn == 0 {
		t.Errorf("%d cue balls are drawn, %d stopped", drawn, stopped)
	}
	theirs.RequireCount(t, "#curve", 1).RequireCount(t, "#control", 1)
}

func of(made, tried int) string { return fmt.Sprintf("%d of %d", made, tried) }

// proposal closes a set of ten with a proposal and gives it.
func proposal(t *testing.T, site *webtest.Site) store.PrescriptionID {
	t.Helper()
	site.CloseSet(t, site.StudentActor(0), site.RecordBreaks(t, site.StudentActor(0), 10), -16)
	waiting, err := site.Store.ListPendingPrescriptions(t.Context(), site.Coach)
	if err != nil || len(waiting) != 1 {
		t.Fatalf("%d proposals wait (%v)", len(waiting), err)
	}
	return waiting[0].ID
}

// What to practise next is what was decided, and nothing before it is.
func TestStudent_PractisesWhatWasDecided(t *testing.T) {
	t.Parallel()
	own := func(s drill.Setup) drill.Setup { s.Cue.X = -15; return s }
	for name, c := range map[string]struct {
		answer store.State
		note   string
		want   []string
		no     string
	}{
		"proposed": {"", "", []string{"The same setup, until", "cue ball 16 in out (about 1¼ diamonds) instead of 18"}, "Change one thing"},
		"approved": {store.Approved, "", []string{"cue ball 16 in out (about 1¼ diamonds) instead of 18", "(18 in) left of the middle", "→ about 1¼ diamonds (16 in) left of the middle", "The wing ball meets both rails"}, "The same setup"},
		"changed":  {store.Changed, "Half of it first.", []string{"coach’s change: cue ball 15 in out (about 1¼ diamonds) instead of 18", "→ about 1¼ diamonds (15 in) left of the middle", "Half of it first."}, "(16 in)"},
		"declined": {store.Declined, "Again, please.", []string{"The same setup again", "left the setup as it was", "Again, please."}, "(16 in)"},
	} {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			site := webtest.New(t)
			id := proposal(t, site)
			if c.answer != "" {
				d := store.Decision{Answer: c.answer, Note: c.note, Setup: own(site.Drill.Setup)}
				if err := site.Store.DecidePrescription(t.Context(), site.Coach, id, d); err != nil {
					t.Fatal(err)
				}
			}
			coach, student := site.SignInCoach(t), site.SignInStudent(t, site.Students[0])
			for _, ended := range []bool{false, true} {
				if ended {
					if err := site.Store.EndAssignment(t.Context(), site.Coach, site.Assignment); err != nil {
						t.Fatal(err)
					}
				}
				waits := ended && (c.answer == store.Approved || c.answer == store.Changed)
				for _, p := range []*webtest.Page{coach.Get(t, studentReport(site.Students[0])), student.Get(t, "/my/report")} {
					p.RequireStatus(t, http.StatusOK).RequireText(t, ".report-next", c.want...)
					if says := p.TextOf(t, ".report-next"); strings.Contains(says, c.no) || strings.Contains(says, "No drill of this setup is assigned now") != waits {
						t.Errorf("its drill ended %v, it is said %q", ended, says)
					}
				}
			}
		})
	}
}

// A change and what it did stand between its two stints; a proposal that a newer
// one replaced is not told.
func TestStudent_TellsWhatAChangeDid(t *testing.T) {
	t.Parallel()
	site := webtest.New(t)
	site.CloseSet(t, site.StudentActor(0), site.RecordBreaks(t, site.StudentActor(0), 10), -14)
	id := proposal(t, site)
	if err := site.Store.DecidePrescription(t.Context(), site.Coach, id, store.Decision{Answer: store.Approved}); err != nil {
		t.Fatal(err)
	}
	after := site.RecordBreaks(t, site.StudentActor(0), 7)
	site.CloseSet(t, site.StudentActor(0), after, -16)
	p := site.SignInCoach(t).Get(t, studentReport(site.Students[0])).RequireCount(t, ".report-way > li", 3).RequireCount(t, ".report-way > li.change", 1)
	p.RequireText(t, ".report-way > li.change", "Being tried out.", "cue ball 18 → 16 in out", "Wing ball in its corner: 10 of 20 before, then 3 of 7.")
	if says := p.TextOf(t, ".report-way > li:last-child"); strings.Contains(says, "→") || !strings.Contains(says, "3 of 7") {
		t.Errorf("the change is said again: %q", says)
	}
}

var spoken = regexp.MustCompile(`(?i)\b(you|your|yours)\b`)

// What the adviser says to the student is said of them in the coach's copy, and
// to nobody; in their own it speaks to them.
func TestStudent_SpeaksToTheirOwnAlone(t *testing.T) {
	t.Parallel()
	site := webtest.New(t)
	loose := site.Drill.Drill
	loose.Setup.Speed = 0
	d, err := site.Store.SaveDrill(t.Context(), site.Coach, store.DrillID{}, loose)
	if err != nil {
		t.Fatal(err)
	}
	if site.Assignment, err = site.Store.AssignDrill(t.Context(), site.Coach, store.Assignment{Drill: d.ID, Class: site.Class}); err != nil {
		t.Fatal(err)
	}
	set := site.StartSet(t, site.StudentActor(0))
	for n := range 10 {
		b := storetest.NewBreak(n + 1)
		b.Pocketed, b.WingMiss, b.Rails, b.PastString = nil, drill.MissSideRail, drill.ObservedCount(2), drill.ObservedCount(0)
		b.Cue, b.CuePath = drill.CueEnd{How: drill.Stopped, Place: table.Place{X: 2, Y: 40}}, drill.PathBack
		if _, err := site.Store.SaveBreak(t.Context(), site.StudentActor(0), set.ID, b); err != nil {
			t.Fatal(err)
		}
	}
	if err := site.Store.CloseSet(t.Context(), site.StudentActor(0), set.ID, setreview.JudgeCase); err != nil {
		t.Fatal(err)
	}
	theirs := site.SignInCoach(t).Get(t, studentReport(site.Students[0])).RequireText(t, ".facts", "own controlled speed")
	if phrase := spoken.FindString(theirs.TextOf(t, "article section")); phrase != "" {
		t.Errorf("the coach's copy says %q: %s", phrase, theirs.TextOf(t, "article section"))
	}
	ours := site.SignInStudent(t, site.Students[0]).Get(t, "/my/report").RequireText(t, ".facts", "own controlled speed")
	if phrase := spoken.FindAllString(ours.TextOf(t, ".report-next"), -1); len(phrase) == 0 {
		t.Errorf("the student's own says %s", ours.TextOf(t, ".report-next"))
	}
}

// Cards that are issued are on it, in the coach's copy and the student's; the
// setup is told where it is not the present one.
func TestStudent_HasTheirBreakCard(t *testing.T) {
	t.Parallel()
	site := webtest.New(t)
	set := site.RecordBreaks(t, site.StudentActor(0), 10)
	site.CloseSet(t, site.StudentActor(0), set, -18)
	coach, mine := site.SignInCoach(t), site.SignInStudent(t, site.Students[0])
	coach.Get(t, studentReport(site.Students[0])).RequireCount(t, ".report-card", 0)
	if err := site.Store.IssueCard(t.Context(), site.Coach, store.CardID{}, set); err != nil {
		t.Fatal(err)
	}
	says := []string{"North 2", "Wing ball in its corner 5 of 10", "cue ball in the window 10 of 10"}
	for _, p := range []*webtest.Page{coach.Get(t, studentReport(site.Students[0])), mine.Get(t, "/my/report")} {
		p.RequireCount(t, ".report-card", 1).RequireText(t, ".report-card", append(says, "the present setup")...).RequireCount(t, ".report-card dl", 0)
	}
	if err := site.Store.DecidePrescription(t.Context(), site.Coach, proposal(t, site), store.Decision{Answer: store.Approved}); err != nil {
		t.Fatal(err)
	}
	site.CloseSet(t, site.StudentActor(0), site.RecordBreaks(t, site.StudentActor(0), 4), -16)
	for _, p := range []*webtest.Page{coach.Get(t, studentReport(site.Students[0])), mine.Get(t, "/my/report")} {
		p.RequireCount(t, ".report-card", 1).RequireText(t, ".report-card", append(says, "(18 in) left of the middle", "1-3-2-8-9-5-6-4-7")...)
	}
}

// Before the first closed set there is a page, and others' are not there.
func TestStudent_EmptyAndOthers(t *testing.T) {
	t.Parallel()
	site := webtest.New(t)
	coach := site.SignInCoach(t)
	name := "<script>alert(1)</script> 🎱 " + strings.Repeat("W", 90)
	if err := site.Store.RenamePerson(t.Context(), site.Coach, site.Students[1].ID, name); err != nil {
		t.Fatal(err)
	}
	p := coach.Get(t, studentReport(site.Students[1])).RequireStatus(t, http.StatusOK).RequireText(t, "h1", name).RequireCount(t, "article script", 0)
	p.RequireText(t, ".answer", "No set done yet").RequireCount(t, "svg", 0).RequireText(t, ".notice", "Before you break")
	site.RecordBreaks(t, site.StudentActor(1), 3)
	coach.Get(t, studentReport(site.Students[1])).RequireText(t, ".report-when", "1 set is open and not counted.")
	site.SignInStudent(t, site.Students[1]).Get(t, "/my/report").RequireStatus(t, http.StatusOK).RequireText(t, ".answer", "from your first set on")

	other := storetest.AddScene(t, site.Store)
	coach.Get(t, studentReport(other.Students[0])).RequireStatus(t, http.StatusNotFound)
	coach.Get(t, "/classes/"+other.Class.String()+"/report").RequireStatus(t, http.StatusNotFound)
	coach.Get(t, "/students/"+site.Coach.Person.String()+"/report").RequireStatus(t, http.StatusNotFound)
	student := site.SignInStudent(t, site.Students[0])
	for _, path := range []string{classReport(site), studentReport(site.Students[0])} {
		student.Get(t, path).RequireStatus(t, http.StatusForbidden)
		if got := site.NewClient(t).WithoutRedirects().Get(t, path); got.Code != http.StatusSeeOther {
			t.Errorf("%s answers nobody with %d", path, got.Code)
		}
	}
	coach.Get(t, "/my/report").RequireStatus(t, http.StatusForbidden)
}
