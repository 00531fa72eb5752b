package drills_test

import (
	"errors"
	"net/http"
	"net/url"
	"testing"

	"breakwright/internal/library"
	"breakwright/internal/rack"
	"breakwright/internal/store"
	"breakwright/internal/store/storetest"
	"breakwright/internal/table"
)

func TestLibrary_ShowsEveryLessonOfTheGame(t *testing.T) {
	t.Parallel()
	d := newCoachClient(t, storetest.NewScene(t))
	for _, g := range rack.Games() {
		for _, feet := range []string{"7", "8", "9"} {
			want := 0
			for _, l := range library.AllLessons() {
				if l.HasGame(g) {
					want++
				}
			}
			p := d.get(t, "/drills/library?game="+string(g)+"&feet="+feet).RequireStatus(t, http.StatusOK)
			p.RequireCount(t, ".drills > li", want).RequireCount(t, ".drills > li svg.pic-table", want)
			p.RequireText(t, ".answer", g.Words()).RequireText(t, ".drills", feet+"-foot table")
		}
	}
	d.get(t, "/drills/library?game=snooker&feet=12").RequireText(t, ".answer", "nine-ball").RequireText(t, ".drills", "9-foot table")
	d.get(t, "/drills/library").RequireCount(t, ".drills .tag", 1) // the scene's drill has the name of one
}

func TestTakeLesson_MakesADrillOnce(t *testing.T) {
	t.Parallel()
	d := newCoachClient(t, storetest.NewScene(t))
	before := len(d.drills(t))
	form := d.get(t, "/drills/library?game=ten-ball&feet=8").FormValues(t, ".drills > li:nth-child(2) form")
	taken := d.post(t, "/drills/library", form).RequireStatus(t, http.StatusOK)
	taken.RequireText(t, ".notice", "it is your drill now")
	if again := d.post(t, "/drills/library", form); again.Path != taken.Path {
		t.Errorf("a second click led to %s, not %s", again.Path, taken.Path)
	}
	drills := d.drills(t)
	if len(drills) != before+1 {
		t.Fatalf("%d drills were made", len(drills)-before)
	}
	want, _ := library.FindLesson("hold-the-cue-ball")
	for _, made := range drills {
		if "/drills/"+made.ID.String() == taken.Path && made.Drill != want.DrillFor(rack.TenBall, table.EightFoot()) {
			t.Errorf("taken was %+v", made.Drill)
		}
	}
	// Called back, and another one chosen: that is another drill.
	if other := d.post(t, "/drills/library", with(form, "lesson", "both-sides")); other.Path == taken.Path || len(d.drills(t)) != before+2 {
		t.Errorf("another lesson under the same form led to %s", other.Path)
	}
}

func TestTakeLesson_WhatIsNotThere(t *testing.T) {
	t.Parallel()
	d := newCoachClient(t, storetest.NewScene(t))
	for _, form := range []url.Values{{"lesson": {"no-such"}}, {"lesson": {"find-the-wing-ball"}, "game": {"eight-ball"}}, {}} {
		if p := d.post(t, "/drills/library", form); !errors.Is(d.failed, store.ErrNotFound) {
			t.Errorf("%v answered %d, %v", form, p.Code, d.failed)
		}
	}
	d.user.Role = store.Student
	form := url.Values{"lesson": {"both-sides"}}
	if p := d.post(t, "/drills/library", form); !errors.Is(d.failed, store.ErrNotAllowed) {
		t.Errorf("a student took a lesson: %d, %v", p.Code, d.failed)
	}
}

// A lesson is seen whole before it is taken; taken a second time it says so, also
// from a page that does not know yet.
func TestTakeLesson_SaysThatItIsThere(t *testing.T) {
	t.Parallel()
	d := newCoachClient(t, storetest.NewScene(t))
	look := d.get(t, "/drills/library/lesson?lesson=both-sides&game=ten-ball&feet=8").RequireStatus(t, http.StatusOK)
	look.RequireText(t, "h1", "Both sides").RequireText(t, ".answer", "ten-ball").RequireCount(t, ".setup svg.pic-table", 1)
	if d.get(t, "/drills/library/lesson?lesson=nothing"); !errors.Is(d.failed, store.ErrNotFound) {
		t.Errorf("a lesson that is none: %v", d.failed)
	}
	stale := d.get(t, "/drills/library/lesson?lesson=both-sides&game=ten-ball&feet=8").FormValues(t, "form[action='/drills/library']")
	d.post(t, "/drills/library", look.FormValues(t, "form[action='/drills/library']")).RequireStatus(t, http.StatusOK)
	before := len(d.drills(t))
	refused := d.post(t, "/drills/library", stale).RequireStatus(t, http.StatusConflict)
	refused.RequireText(t, "[role=alert]", "You have a drill named “Both sides, ten-ball” already")
	if now := len(d.drills(t)); now != before {
		t.Fatalf("%d drills after being told", now-before)
	}
	d.post(t, "/drills/library", with(stale, "again", "yes")).RequireStatus(t, http.StatusOK)
	if now := len(d.drills(t)); now != before+1 {
		t.Errorf("%d more drills, not one", now-before)
	}
}

func TestReadDrill_ShowsItWhole(t *testing.T) {
	t.Parallel()
	scene := storetest.NewScene(t)
	d := newCoachClient(t, scene)
	d.get(t, "/drills/"+scene.Drill.ID.String()+"/read").RequireStatus(t, http.StatusOK).
		RequireText(t, "h1", scene.Drill.Name).RequireCount(t, ".setup svg.pic-table", 1).RequireCount(t, "main input", 0)
}
