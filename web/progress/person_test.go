package progress_test

import (
	"regexp"
	"testing"

	"breakwright/internal/drill"
	"breakwright/internal/setreview"
	"breakwright/internal/store"
	"breakwright/internal/table"
	"breakwright/web/webtest"
)

// tooCentral closes a set of ten with the real adviser: three wing balls fell,
// seven misses met the side rail first.
func tooCentral(t *testing.T, site *webtest.Site, who store.Actor) store.SetID {
	t.Helper()
	set := site.StartSet(t, who)
	for n := range 10 {
		b := drill.Break{
			Number: n + 1, Cue: drill.CueEnd{How: drill.Stopped, Place: table.Place{X: -2, Y: 40}}, CuePath: drill.PathBack,
			Rails: drill.ObservedCount(6), WingMiss: drill.MissSideRail,
			Pocketed: []drill.Pocketed{{Ball: set.Setup.HeadBall(), Pocket: table.SideRight}},
		}
		if n >= 7 {
			b.WingMiss, b.Pocketed = "", []drill.Pocketed{{Ball: set.Setup.WingBall(), Pocket: set.Setup.WingPocket()}}
		}
		if _, err := site.Store.SaveBreak(t.Context(), who, set.ID, store.Break{ID: store.NewID[store.BreakID](), Revision: 1, Break: b}); err != nil {
			t.Fatal(err)
		}
	}
	if err := site.Store.CloseSet(t.Context(), who, set.ID, setreview.JudgeCase); err != nil {
		t.Fatal(err)
	}
	return set.ID
}

var (
	yours = regexp.MustCompile(`(?i)\byours?\b`)
	met   = regexp.MustCompile(`(?i)(seven.* met the side rail first|all seven misses that were noted pointed the same way)`)
)

// A coach reads of the student, with the count, and nothing as if it were of
// themself. Package component tests the words one by one.
func TestFinding_InTheRightPerson(t *testing.T) {
	site := webtest.New(t)
	who := site.StudentActor(0)
	set := tooCentral(t, site, who)
	pending, err := site.Store.ListPendingPrescriptions(t.Context(), site.Coach)
	if err != nil || len(pending) != 1 {
		t.Fatalf("%d prescriptions wait (%v), want one", len(pending), err)
	}
	coach := site.SignInCoach(t)
	for path, where := range map[string]string{
		classPath(site) + "/progress": "td.finding",
		"/sets/" + set.String():       ".prescription",
		"/desk":                       ".pressing",
		"/prescriptions/" + pending[0].ID.String():      ".answer",
		"/students/" + who.Person.String():              "ol.story",
		classPath(site) + "/progress?show=finding&q=od": "td.finding",
	} {
		text := coach.Get(t, path).RequireStatus(t, 200).TextOf(t, where)
		if !met.MatchString(text) || yours.MatchString(text) {
			t.Errorf("on %s the coach reads %q", path, text)
		}
	}
	student := site.SignInStudent(t, site.Students[0])
	for path, where := range map[string]string{"/my/sets/" + set.String(): ".prescription", "/my/progress": "ol.story"} {
		if text := student.Get(t, path).RequireStatus(t, 200).TextOf(t, where); !met.MatchString(text) || where == ".prescription" && !yours.MatchString(text) {
			t.Errorf("on %s the student reads %q", path, text)
		}
	}
}
