//go:build !quick

package privacy_test

import (
	"fmt"
	"strings"
	"testing"

	"breakwright/internal/store"
	"breakwright/internal/store/storetest"
	"breakwright/web/browser"
	"breakwright/web/webtest"
)

// keptOnPhone gives all that the site's own database on the phone and its kept
// pages hold, as text.
const keptOnPhone = `(async () => {
	const found = [];
	for (const { name } of await indexedDB.databases()) {
		const db = await new Promise((ok, no) => { const r = indexedDB.open(name); r.onsuccess = () => ok(r.result); r.onerror = no; });
		for (const store of db.objectStoreNames) {
			const ask = db.transaction(store).objectStore(store);
			for (const what of [ask.getAll(), ask.getAllKeys()]) found.push(JSON.stringify(await new Promise((ok) => { what.onsuccess = () => ok(what.result); })));
		}
		db.close();
	}
	for (const name of await caches.keys()) {
		const cache = await caches.open(name);
		for (const key of await cache.keys()) found.push(key.url, await (await cache.match(key)).text());
	}
	return found.join("\n");
})()`

func readPhone(w *browser.Window) string { return browser.Evaluate[string](w, keptOnPhone) }

// openPhone signs a student in on a phone and waits until it holds their drills.
func openPhone(t *testing.T, site *webtest.Site, student store.Person) *browser.Window {
	t.Helper()
	site.SignInStudent(t, student)
	w := browser.OpenWindow(t, browser.Phone)
	w.SignIn(site.URL, student.Code, webtest.PIN)
	w.WaitFor(`bw.held()`)
	if kept := readPhone(w); !strings.Contains(kept, student.Name) {
		t.Fatalf("nothing of %s is on the phone before: %s", student.Name, kept)
	}
	return w
}

// Who signs out leaves nothing on the phone but what was not sent.
func TestPhone_ForgetsWhoSignsOut(t *testing.T) {
	site := webtest.New(t)
	odile := site.Students[0]
	w := openPhone(t, site, odile)
	w.WaitForNavigation(func() {
		browser.Evaluate[bool](w, `!document.querySelector('form[action="/sign-out"] button').click()`)
	})
	w.WaitFor(`document.querySelector("#secret")`)
	if kept := readPhone(w); strings.Contains(kept, odile.Name) || strings.Contains(kept, odile.ID.String()) {
		t.Errorf("signed out, the phone holds %s", kept)
	}
}

// The phone of a student who was erased forgets the next time it reaches the server, on
// the page at the table too, with what was not sent; what somebody else recorded on it and could not send waits on.
func TestPhone_ForgetsWhoWasErased(t *testing.T) {
	site := webtest.New(t)
	odile := site.Students[0]
	w := openPhone(t, site, odile)
	for person, drill := range map[string]string{odile.ID.String(): "Never sent", site.Students[1].ID.String(): "Waits on"} {
		browser.Evaluate[bool](w, fmt.Sprintf(`bw.startSet({ id: bw.newID(), person: %q, drill: %q, planned: 10, plan: {} }).then(() => true)`, person, drill))
	}
	if err := site.Store.EraseStudent(t.Context(), site.Coach, odile.ID); err != nil {
		t.Fatal(err)
	}
	w.Navigate(site.URL + "/table") // which the phone itself gives
	w.WaitFor(`document.querySelector("#erased")?.textContent.includes("nothing of them")`)
	if kept := readPhone(w); strings.Contains(kept, odile.Name) || strings.Contains(kept, odile.ID.String()) || strings.Contains(kept, "Never sent") || !strings.Contains(kept, "Waits on") {
		t.Errorf("erased, the phone holds %s", kept)
	}
	// Had it been away until its cookies ended, it would ask by itself.
	w.ClearCookies()
	browser.Evaluate[bool](w, fmt.Sprintf(`bw.keep("person", %[1]q).then(() => bw.startSet({ id: bw.newID(), person: %[1]q, drill: "Never sent", planned: 10, plan: {} })).then(() => true)`, odile.ID))
	w.Navigate(site.URL + "/today")
	w.WaitFor(`document.querySelector("#secret") && bw.person().then((person) => !person)`)
	if kept := readPhone(w); strings.Contains(kept, odile.ID.String()) || strings.Contains(kept, "Never sent") || !strings.Contains(kept, "Waits on") {
		t.Errorf("erased long ago, the phone holds %s", kept)
	}
}

// The pages are within reach of everybody, by day and by night.
func TestPagesInTheBrowser(t *testing.T) {
	site := webtest.New(t)
	student := "/students/" + site.Students[0].ID.String()
	for i := range 30 {
		who := site.Students[i%3].ID.UUID
		for _, n := range []store.Note{{Act: store.ActSaw, Place: "/students/{student}", About: who}, {Act: store.ActChanged, Place: "/students/{student}/note", About: who}, {Act: store.ActExported, Place: "/export"}, {Act: store.ActSaw, Place: "/desk"}} {
			if err := site.Store.WriteNote(t.Context(), site.Coach, n); err != nil {
				t.Fatal(err)
			}
		}
	}
	for _, size := range []browser.Size{browser.Phone, {Width: 1366, Height: 768}} {
		w := browser.OpenWindow(t, size)
		w.CheckLightAndDark(site.URL+"/privacy", "privacy")
		w.CheckLightAndDark(site.URL+"/words", "words")
		w.SignIn(site.URL, site.Login, storetest.Passphrase)
		for name, path := range map[string]string{"audit": "/audit", "erase": student + "/erase", "erase-club": "/club/erase", "club": "/club"} {
			w.CheckLightAndDark(site.URL+path, name)
		}
	}
}
