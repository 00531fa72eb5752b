package coach_test

import (
	"net/http"
	"testing"

	"breakwright/internal/drill"
	"breakwright/internal/store/storetest"
	"breakwright/internal/table"
	"breakwright/web/webtest"
)

// A coach puts one break right and strikes another, each with a reason; without one,
// or without saying what was otherwise, nothing is done and nothing typed is lost.
// The student reads what it was and why.
func TestSet_CorrectABreak(t *testing.T) {
	site := webtest.New(t)
	odile := site.StudentActor(0)
	id := site.RecordBreaks(t, odile, 10)
	site.CloseSet(t, odile, id, -16)
	coach := site.SignInCoach(t)
	path := "/sets/" + id.String()
	form := coach.Get(t, path).FormValues(t, "form[action$='/correct']")
	set, err := site.Store.GetSet(t.Context(), site.Coach, id)
	if err != nil {
		t.Fatal(err)
	}
	form.Set("break", set.Breaks[3].ID.String())
	form.Set("do", "correct")
	form.Set("reason", "I stood there.")
	coach.Post(t, path+"/correct", form).RequireStatus(t, http.StatusUnprocessableEntity).
		RequireText(t, "form[action$='/correct']", "Choose what was otherwise")
	form.Set("cue", "off-table")
	form.Set("reason", "")
	form.Set("cue_up", "41.5")
	refused := coach.Post(t, path+"/correct", form).RequireStatus(t, http.StatusUnprocessableEntity)
	refused.RequireText(t, "#reason-error", "Say why").RequireText(t, "#cue-error", "A place is written below")
	form.Del("cue_up")
	if kept := refused.FormValues(t, "form[action$='/correct']"); kept.Get("cue") != "off-table" || kept.Get("break") != set.Breaks[3].ID.String() {
		t.Errorf("of what was chosen is left: %v", kept)
	}
	form.Set("reason", "It flew off.")
	coach.Post(t, path+"/correct", form).RequireStatus(t, http.StatusOK).RequireText(t, "ol.breaks", "Changed by a coach: It flew off.", "cue ball off the table").
		RequireCount(t, ".notice.good form[action$='/put-back']", 1)
	looked := coach.Get(t, path).FormValues(t, "form[action$='/correct']")
	looked.Set("break", set.Breaks[3].ID.String())
	looked.Set("do", "correct")
	looked.Set("cue", "off-table")
	looked.Set("reason", "Once more.")
	coach.Post(t, path+"/correct", looked).RequireStatus(t, http.StatusUnprocessableEntity).
		RequireText(t, "form[action$='/correct']", "Break 4 is recorded just so already: nothing was changed")
	form.Set("cue", "stopped")
	form.Set("break", set.Breaks[5].ID.String())
	form.Set("reason", "It stood there, I looked.")
	form.Set("cue_across", "−40")
	coach.Post(t, path+"/correct", form).RequireStatus(t, http.StatusUnprocessableEntity).
		RequireText(t, "form[action$='/correct']", "to the left from −25", "from the head rail, up to 100")
	form.Set("cue_across", "−3")
	form.Set("cue_up", "41.5")
	coach.Post(t, path+"/correct", form).RequireStatus(t, http.StatusOK)
	stopped, err := site.Store.GetSet(t.Context(), site.Coach, id)
	if want := (drill.CueEnd{How: drill.Stopped, Place: table.Place{X: -3, Y: 41.5}}); err != nil || stopped.Breaks[5].Cue != want {
		t.Errorf("corrected to %v (%v), want %v", stopped.Breaks[5].Cue, err, want)
	}
	form.Set("cue", "")
	form.Set("break", set.Breaks[7].ID.String())
	form.Set("do", "strike")
	form.Set("reason", "A practice stroke.")
	coach.Post(t, path+"/correct", form).RequireStatus(t, http.StatusOK).RequireText(t, "ol.breaks", "Taken out by a coach: A practice stroke.").
		RequireCount(t, ".notice.good form[action$='/put-back']", 1)
	got, err := site.Store.GetSet(t.Context(), site.Coach, id)
	if err != nil || len(got.Breaks) != 9 {
		t.Fatalf("%d breaks are left (%v), want 9", len(got.Breaks), err)
	}
	site.SignInStudent(t, site.Students[0]).Get(t, "/my/sets/"+id.String()).
		RequireText(t, "section[aria-labelledby=corrected]", "Changed by your coach: It flew off.", "Taken out by your coach: A practice stroke.")
}

// What was struck is put back with one button, and why it was out stays to be read; where
// its number was recorded again there is no button, but the reason.
func TestSet_PutABreakBack(t *testing.T) {
	site := webtest.New(t)
	odile := site.StudentActor(0)
	id := site.RecordBreaks(t, odile, 6)
	set, err := site.Store.GetSet(t.Context(), site.Coach, id)
	if err != nil {
		t.Fatal(err)
	}
	for _, i := range []int{1, 4} {
		if err := site.Store.DeleteBreak(t.Context(), odile, id, set.Breaks[i].ID, 2, "the rack fell apart"); err != nil {
			t.Fatal(err)
		}
	}
	if _, err := site.Store.SaveBreak(t.Context(), odile, id, storetest.NewBreak(5)); err != nil {
		t.Fatal(err)
	}
	site.CloseSet(t, odile, id, -16)
	coach, path := site.SignInCoach(t), "/sets/"+id.String()
	struck := coach.Get(t, path).RequireText(t, "ol.breaks", "Taken out by the student: the rack fell apart", "Break 5 was recorded again").
		RequireCount(t, "form[action$='/put-back']", 1)
	form := struck.FormValues(t, "form[action$='/put-back']")
	back := coach.Post(t, path+"/put-back", form).RequireText(t, ".notice.good", "counts again").RequireCount(t, "form[action$='/put-back']", 0).
		RequireText(t, "ol.breaks", "Taken out by the student and put back by a coach: the rack fell apart").RequireCount(t, "ol.breaks > li", 8)
	back.RequireText(t, ".rates", "of 6")
	coach.Post(t, path+"/put-back", form).RequireStatus(t, http.StatusOK).RequireCount(t, "ol.breaks > li", 8)
	form.Set("break", set.Breaks[4].ID.String())
	coach.Post(t, path+"/put-back", form).RequireStatus(t, http.StatusConflict).RequireText(t, "main", "Break 5 is recorded already")
	site.SignInStudent(t, site.Students[0]).Get(t, "/my/sets/"+id.String()).
		RequireText(t, "section[aria-labelledby=corrected]", "Taken out by you and put back by your coach: the rack fell apart")
}

// A correction is taken back with one button, by the message or in the history: the break is
// as it was, and both ways stay to be read.
func TestSet_TakeACorrectionBack(t *testing.T) {
	site := webtest.New(t)
	odile := site.StudentActor(0)
	id := site.RecordBreaks(t, odile, 6)
	site.CloseSet(t, odile, id, -16)
	coach, path := site.SignInCoach(t), "/sets/"+id.String()
	load := func() drill.Break {
		set, err := site.Store.GetSet(t.Context(), site.Coach, id)
		if err != nil {
			t.Fatal(err)
		}
		return set.Breaks[3].Break
	}
	was := load()
	form := coach.Get(t, path).RequireCount(t, "form[action$='/put-back']", 0).FormValues(t, "form[action$='/correct']")
	set, err := site.Store.GetSet(t.Context(), site.Coach, id)
	if err != nil {
		t.Fatal(err)
	}
	form.Set("break", set.Breaks[3].ID.String())
	form.Set("do", "correct")
	form.Set("cue", "off-table")
	form.Set("reason", "It flew off.")
	right := coach.Post(t, path+"/correct", form).RequireCount(t, "ol.breaks form[action$='/put-back']", 1)
	if load().Cue.How != drill.OffTable {
		t.Fatal("nothing was corrected")
	}
	undo := right.FormValues(t, ".notice.good form")
	back := coach.Post(t, path+"/put-back", undo).RequireStatus(t, http.StatusOK).RequireText(t, ".notice.good", "counts again as it was").
		RequireText(t, "ol.breaks", "Changed by a coach: It flew off.", "Changed by a coach: set back to what was recorded").RequireCount(t, "ol.breaks > li", 8)
	if now := load(); now.Cue != was.Cue || now.CuePath != was.CuePath || now.WingMade(set.Setup) != was.WingMade(set.Setup) {
		t.Errorf("put back as %+v, recorded as %+v", now, was)
	}
	coach.Post(t, path+"/put-back", undo).RequireStatus(t, http.StatusConflict).RequireText(t, "form[action$='/correct']", "Break 4 was changed or taken out meanwhile")
	if again := back.FormValues(t, "ol.breaks form[action$='/put-back']"); again.Get("was") == undo.Get("was") {
		t.Error("what can be put back is not what was done last")
	}
}
