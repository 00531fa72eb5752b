package progress_test

import (
	"testing"

	"breakwright/internal/drill"
	"breakwright/internal/store"
	"breakwright/internal/store/storetest"
	"breakwright/web/webtest"
)

// Where students note what their breaks left, a class's pages and the printed reports count
// it as the student's own page does; where nobody noted it they say nothing of it.
func TestLeave_IsCountedAlike(t *testing.T) {
	site := webtest.New(t)
	odile, wen := site.StudentActor(0), site.StudentActor(2)
	set := site.StartSet(t, odile)
	for i := range 8 {
		b := storetest.NewBreak(i + 1)
		b.Rest, b.RanOut = nil, drill.RanOutNo // nobody placed the ball: what was noted counts
		switch {
		case i < 3:
			b.Shot = drill.ShotOpen
		case i < 5:
			b.Shot, b.RanOut = drill.ShotHard, drill.RanOutYes
		case i < 6:
			b.Shot = drill.ShotNone
		default:
			b.RanOut = ""
		}
		if _, err := site.Store.SaveBreak(t.Context(), odile, set.ID, b); err != nil {
			t.Fatal(err)
		}
	}
	site.CloseSet(t, odile, set.ID, set.Setup.Cue.X)
	site.CloseSet(t, wen, site.RecordBreaks(t, wen, 4), set.Setup.Cue.X)
	coach := site.SignInCoach(t)
	row := func(who store.Actor) string { return "tbody tr:has(a[href$='" + who.Person.String() + "'])" }

	coach.Get(t, "/students/"+odile.Person.String()).RequireText(t, "main", "An open shot on the lowest ball 3 of 6", "Table run out 2 of 6")
	counts := []string{"open shot 3 of 6", "run out 2 of 6"}
	class := coach.Get(t, classPath(site)+"/progress").RequireText(t, row(odile), counts...)
	class.RequireCount(t, "td:nth-child(4) small", 2).RequireCount(t, row(wen)+" td:nth-child(4) small", 0)
	coach.Get(t, classPath(site)+"/report").RequireText(t, ".report-rows", counts...)
	coach.Get(t, "/students/"+odile.Person.String()+"/report").RequireText(t, ".report-now", "Open shot 3 of 6 and run out 2 of 6.")
}
