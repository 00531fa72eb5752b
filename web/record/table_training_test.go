//go:build !quick

package record_test

import (
	"testing"

	"breakwright/internal/library"
	"breakwright/internal/store"
	"breakwright/web/browser"
	"breakwright/web/webtest"
)

// A student who nobody assigned anything picks a lesson, trains it out of reach,
// and it arrives as training of their own.
func TestTable_TrainingAlone(t *testing.T) {
	t.Parallel()
	site := webtest.New(t)
	h := newPhoneUser(t, site, site.URL, 0, browser.Phone)
	lesson := library.AllLessons()[1]
	h.Navigate(h.url + "/my/training")
	h.SaveScreenshot("training")
	h.touch(`a[href="/my/training/lesson-` + lesson.Key + `"]`)
	h.WaitFor(`document.querySelector("form[data-start]") && bw.held()`)
	h.SaveScreenshot("training-lesson")
	h.SetOffline(true)
	browser.Evaluate[bool](h.Window, `(document.querySelector("form[data-start] button").click(), true)`)
	h.ready()
	h.set = browser.Evaluate[string](h.Window, `new URLSearchParams(location.search).get("set")`)
	h.breaks(10)
	tapped := h.contents()
	h.SetOffline(false)
	h.touch("#close-set")
	h.readable()
	set := h.kept()
	if set.Breaks[0].IsWatched() == lesson.List.CueOnly {
		t.Errorf("of the lesson, which asks %+v, the server keeps %+v", lesson.List, set.Breaks[0])
	}
	if set.Training != lesson.Name || !store.IsZero(set.Assignment) || set.Closed.IsZero() || set.Advice == nil {
		t.Errorf("the server keeps %q of assignment %s, closed %v, advice %v", set.Training, set.Assignment, set.Closed, set.Advice != nil)
	}
	h.sameBytes(tapped)
}
