package progress_test

import (
	"testing"

	"breakwright/internal/drill"
	"breakwright/internal/store"
	"breakwright/web/webtest"
)

// The bars of a stint have the target of the drill that it was broken for, on the
// class's page and in the story, and the keys name it.
func TestTargets_AreThoseOfTheDrill(t *testing.T) {
	site := webtest.New(t)
	hard := site.Drill.Drill
	hard.Name, hard.Targets = "Hard", drill.Targets{Wing: 0.35, Window: 0.8, Shot: 0.6}
	saved, err := site.Store.SaveDrill(t.Context(), site.Coach, store.DrillID{}, hard)
	if err != nil {
		t.Fatal(err)
	}
	assigned, err := site.Store.AssignDrill(t.Context(), site.Coach, store.Assignment{Drill: saved.ID, Class: site.Class})
	if err != nil {
		t.Fatal(err)
	}
	usual, harder := site.StudentActor(0), site.StudentActor(1)
	set := site.RecordBreaks(t, usual, 10)
	site.CloseSet(t, usual, set, site.Drill.Setup.Cue.X)
	site.Assignment = assigned
	set = site.RecordBreaks(t, harder, 10)
	site.CloseSet(t, harder, set, site.Drill.Setup.Cue.X)

	coach := site.SignInCoach(t)
	class := coach.Get(t, classPath(site)+"/progress").RequireText(t, ".pic-key", "the drill’s target")
	for who, want := range map[store.PersonID]float64{usual.Person: site.Drill.Targets.Wing, harder.Person: 0.35} {
		if at := percents(t, class.AttributeOf(t, "tr:has(a[href$='"+who.String()+"']) [href='#row-goal']", "x")); at != want {
			t.Errorf("the class's page draws the target at %v, want %v", at, want)
		}
	}
	coach.Get(t, classPath(site)+"/progress?q=bram").RequireText(t, ".pic-key", "target, 3.5 of 10")
	story := coach.Get(t, "/students/"+harder.Person.String())
	if at := percents(t, story.AttributeOf(t, "#now-wing .pic-goal", "x")); at != 0.35 {
		t.Errorf("the wing ball's target is drawn at %v", at)
	}
	if at := percents(t, story.AttributeOf(t, "#now-window .pic-goal", "x")); at != 0.8 {
		t.Errorf("the window's target is drawn at %v", at)
	}
	if at := percents(t, story.AttributeOf(t, "#leave-share .pic-goal", "x")); at != 0.6 {
		t.Errorf("the shot's target is drawn at %v", at)
	}
	if at := percents(t, story.AttributeOf(t, "ol.story .pic-goal", "x")); at != 0.35 {
		t.Errorf("the stint's target is drawn at %v", at)
	}
	story.RequireText(t, "section[aria-labelledby=way] .pic-key", "target, 3.5 of 10").RequireText(t, "#now-wing desc", "The target is 35 percent")
}
