//go:build !quick

package record_test

import (
	"fmt"
	"testing"

	"breakwright/web/browser"
	"breakwright/web/webtest"
)

// Out of reach the student still has their progress, break cards and drills. Pages
// are fetched again only when what they are made of changed, belong to one
// person, and go at sign-out.
func TestTable_PagesOfOnePerson(t *testing.T) {
	t.Parallel()
	site := webtest.New(t)
	l := newFaultyProxy(t, site.URL)
	h := newPhoneUser(t, site, l.URL, 0, browser.Phone)
	keptAll := func(person string) {
		h.WaitFor(`caches.match("/kept-pages").then((r) => r?.json()).then((n) => n?.person === "` + person + `" && n.mark !== "")`)
	}
	keptAll(h.who.ID.String())
	l.set(dead)
	for path, heading := range map[string]string{"/my/progress": "My progress", "/my/card": "Break cards", "/my/sets": "My breaks", "/today/" + site.Assignment.String(): site.Drill.Name} {
		h.Navigate(h.url + path)
		h.says("h1", heading)
	}
	l.set(good)

	// An old page stays as long as nothing changed.
	const old = `caches.keys().then((names) => caches.open(names.find((n) => n.startsWith("breakwright-pages-")))).then((c) => c.put("/my/card", new Response("old"))).then(() => true)`
	const card = `caches.match("/my/card").then((r) => r.text()).then((text) => text === "old")`
	browser.Evaluate[bool](h.Window, old)
	h.Navigate(h.url + "/my/sets")
	h.WaitFor(`bw.exchange().then(() => true)`)
	browser.Evaluate[bool](h.Window, `new Promise((done) => setTimeout(() => done(true), 300))`)
	if !browser.Evaluate[bool](h.Window, card) {
		t.Error("pages were fetched again though nothing changed")
	}
	site.StartSet(t, site.StudentActor(0))
	h.Navigate(h.url + "/my/sets")
	h.WaitFor(card + `.then((old) => !old)`)

	// Somebody else signs in here without the first having signed out.
	h.ClearCookies()
	site.SignInStudent(t, site.Students[1])
	h.SignIn(h.url, site.Students[1].Code, webtest.PIN)
	keptAll(site.Students[1].ID.String())
	if left := browser.Evaluate[bool](h.Window, fmt.Sprintf(`caches.match("/today").then((r) => r.text()).then((text) => text.includes(%q))`, site.Students[0].Name+", ")); left {
		t.Error("a page of the first student is still on the phone")
	}
	h.signOut()
	h.WaitFor(`caches.match("/today").then((today) => !today && caches.match("/my/progress")).then((progress) => !progress)`)
}
