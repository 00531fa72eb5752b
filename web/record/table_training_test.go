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

// Out of reach a student trains what they had before: the list and what it leads to are
// on the phone without having been looked at, are renewed when a set came, leave nothing
// behind that the list no longer names, and go at sign-out.
func TestTable_TrainingOutOfReach(t *testing.T) {
	t.Parallel()
	site := webtest.New(t)
	l := newFaultyProxy(t, site.URL)
	h := newPhoneUser(t, site, l.URL, 0, browser.Phone)
	h.WaitFor(`caches.match("/my/training").then(Boolean)`)
	old := "/my/training/set-" + store.NewID[store.SetID]().String()
	browser.Evaluate[bool](h.Window, `caches.keys().then((names) => caches.open(names.find((n) => n.startsWith("breakwright-pages-")))).then((c) => c.put("`+old+`", new Response("old"))).then(() => true)`)
	had := site.RecordBreaks(t, site.StudentActor(0), 10)
	site.CloseSet(t, site.StudentActor(0), had, -20)
	h.Navigate(h.url + "/today")
	again := "/my/training/set-" + had.String()
	for _, path := range []string{again, "/my/training/lesson-" + library.AllLessons()[1].Key} {
		h.WaitFor(`caches.match("` + path + `").then(Boolean)`)
	}
	h.WaitFor(`caches.match("` + old + `").then((found) => !found)`)

	l.set(dead)
	h.touch(`a[href="/my/training"]`)
	h.WaitFor(`document.querySelector('a[href="` + again + `"]')`)
	h.touch(`a[href="` + again + `"]`)
	h.Navigate(h.url + again + "?table=" + site.Table.ID.String())
	h.says("#home", "that table’s page is not on this phone. Go back and start on the table shown")
	h.Navigate(h.url + again)
	h.WaitFor(`document.querySelector("form[data-start]") && bw.held()`)
	browser.Evaluate[bool](h.Window, `(document.querySelector("form[data-start] button").click(), true)`)
	h.ready()
	h.set = browser.Evaluate[string](h.Window, `new URLSearchParams(location.search).get("set")`)
	h.breaks(2)
	l.set(good)
	h.sent()
	if set := h.kept(); set.Training == "" || len(set.Breaks) != 2 {
		t.Errorf("the server keeps %d breaks of training %q", len(set.Breaks), set.Training)
	}
	h.Navigate(h.url + "/today")
	h.signOut()
	h.WaitFor(`Promise.all(["/my/training", "` + again + `"].map((path) => caches.match(path))).then((found) => !found.some(Boolean))`)
}
