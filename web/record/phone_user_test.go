//go:build !quick

package record_test

import (
	"encoding/json"
	"fmt"
	"strings"
	"testing"

	"breakwright/internal/drill"
	"breakwright/internal/store"
	"breakwright/internal/table"
	"breakwright/web/browser"
	"breakwright/web/picture"
	"breakwright/web/sync"
	"breakwright/web/webtest"
)

// phoneUser is a student's: it holds a phone, and counts its taps.
type phoneUser struct {
	*browser.Window
	t    testing.TB
	site *webtest.Site
	url  string // of the site, by the line in between
	who  store.Person
	set  string
	taps int
}

// newPhoneUser signs a student of a site in on a phone of that size and waits until
// the phone is ready to go without a signal. url is the site, or a line to it.
func newPhoneUser(t testing.TB, site *webtest.Site, url string, i int, size browser.Size) *phoneUser {
	t.Helper()
	h := &phoneUser{Window: browser.OpenWindow(t, size), t: t, site: site, url: url, who: site.Students[i]}
	site.SignInStudent(t, h.who)
	h.signIn()
	h.WaitFor(`navigator.serviceWorker.controller && bw.held()`)
	h.WaitFor(`caches.match("/today/` + site.Assignment.String() + `")`)
	return h
}

func (h *phoneUser) signIn() {
	h.t.Helper()
	h.SignIn(h.url, h.who.Code, webtest.PIN)
	h.WaitFor(`document.querySelector("#phone") && bw.person().then((p) => p === document.querySelector("#phone").dataset.person)`)
}

// signOut signs out from a page with a frame.
func (h *phoneUser) signOut() {
	h.t.Helper()
	h.touch(`form[action="/sign-out"] button`)
	h.WaitFor(`document.querySelector("#secret")`)
}

// start begins a set from today's page.
func (h *phoneUser) start() {
	h.t.Helper()
	h.Navigate(h.url + "/today/" + h.site.Assignment.String())
	h.WaitFor(`bw.held() && document.querySelector("form[data-start] button")`)
	// Not a tap: what the page finds to say about the connection moves the button.
	browser.Evaluate[bool](h.Window, `(document.querySelector("form[data-start] button").click(), true)`)
	h.ready()
	h.set = browser.Evaluate[string](h.Window, `new URLSearchParams(location.search).get("set")`)
	h.taps = 0
}

// ready waits for the page at the table.
func (h *phoneUser) ready() {
	h.t.Helper()
	h.WaitFor(`location.pathname === "/table" && document.querySelector("#table") && !document.querySelector("#table").hidden && (!document.querySelector("#entry").hidden || !document.querySelector("#review").hidden)`)
	h.leaveRackOpen()
}

// leaveRackOpen answers the question before the first break, where it is asked,
// so that what a test counts is the break.
func (h *phoneUser) leaveRackOpen() {
	h.t.Helper()
	browser.Evaluate[bool](h.Window, `((b) => (b.checkVisibility() && b.click(), true))(document.querySelector("#ask-racked [data-back]"))`)
}

// back opens the set's page again.
func (h *phoneUser) back() {
	h.t.Helper()
	h.Navigate(h.url + "/table?set=" + h.set)
	h.ready()
}

// touch taps an element that is seen.
func (h *phoneUser) touch(selector string) {
	h.t.Helper()
	if !h.isSeen(selector) {
		h.t.Fatalf("there is no %s to tap", selector)
	}
	h.Tap(h.CenterOf(selector))
	h.taps++
}

// isSeen reports whether an element is there and shown.
func (h *phoneUser) isSeen(selector string) bool {
	h.t.Helper()
	return browser.Evaluate[bool](h.Window, `Boolean(document.querySelector(`+browser.QuoteScript(selector)+`)?.checkVisibility())`)
}

// spot is where a place on the cloth is seen.
func (h *phoneUser) spot(at table.Place) browser.Point {
	h.t.Helper()
	return browser.Evaluate[browser.Point](h.Window, fmt.Sprintf(`(() => {
		if (document.documentElement.scrollHeight > innerHeight) document.querySelector("#cloth").scrollIntoView();
		const m = document.querySelector("#picture svg").getScreenCTM();
		return { X: m.e + m.a * %v, Y: m.f - m.d * %v };
	})()`, float64(at.X)*picture.UnitsPerInch, float64(at.Y)*picture.UnitsPerInch))
}

// tapAt taps the picture at a place.
func (h *phoneUser) tapAt(x, y table.Inches) {
	h.t.Helper()
	h.Tap(h.spot(table.Place{X: x, Y: y}))
	h.taps++
}

// wing taps what the wing ball did, where the drill asks for it.
func (h *phoneUser) wing(what string) {
	h.t.Helper()
	if browser.Evaluate[bool](h.Window, `document.querySelector("#wing").classList.contains("only-cue")`) {
		return
	}
	h.touch(`[data-wing="` + what + `"]`)
}

// save saves the break and waits until the page says so.
func (h *phoneUser) save() {
	h.t.Helper()
	n := h.recorded()
	h.touch("#save")
	h.WaitFor(fmt.Sprintf(`bw.getSet(%s).then((s) => bw.live(s.breaks).length === %d && !document.querySelector("#save").disabled)`, browser.QuoteScript(h.set), n+1))
	h.WaitFor(fmt.Sprintf(`document.querySelector("#list-name").textContent.startsWith("So far: %d ")`, n+1))
}

// recorded counts the breaks on the phone.
func (h *phoneUser) recorded() int {
	h.t.Helper()
	return browser.Evaluate[int](h.Window, fmt.Sprintf(`bw.getSet(%s).then((s) => s ? bw.live(s.breaks).length : 0)`, browser.QuoteScript(h.set)))
}

// breaks records breaks, up to a number of them, each different.
func (h *phoneUser) breaks(upTo int) {
	h.t.Helper()
	for n := h.recorded() + 1; n <= upTo; n++ {
		h.wing([]string{"made", "side-rail", "foot-rail", "kissed", "jaws", "unknown"}[n%6])
		h.tapAt(table.Inches(n*3-15), table.Inches(n*7+12))
		h.save()
	}
}

// contents are the breaks on the phone, byte for byte, in the order of their
// numbers.
func (h *phoneUser) contents() []string {
	h.t.Helper()
	return browser.Evaluate[[]string](h.Window, fmt.Sprintf(`bw.getSet(%s).then((s) => bw.live(s.breaks).map((b) => b.content))`, browser.QuoteScript(h.set)))
}

// sent waits until the phone has sent everything.
func (h *phoneUser) sent() {
	h.t.Helper()
	h.WaitFor(`bw.exchange().then(() => !bw.state.waiting && !bw.state.trouble)`)
	if clashes := browser.Evaluate[string](h.Window, `JSON.stringify(bw.state.clashes)`); clashes != "[]" {
		h.t.Fatalf("not everything was taken: %s", clashes)
	}
}

// readable waits until the server has closed the set and the page leads to what
// it says.
func (h *phoneUser) readable() {
	h.t.Helper()
	h.WaitFor(`location.pathname.startsWith("/my/sets/") || document.querySelector("#to-set").checkVisibility()`)
}

// kept is the set on the server.
func (h *phoneUser) kept() store.Set {
	h.t.Helper()
	id, err := store.ParseID[store.SetID](h.set)
	if err != nil {
		h.t.Fatal(err)
	}
	set, err := h.site.Store.GetSet(h.t.Context(), h.site.Coach, id)
	if err != nil {
		h.t.Fatal(err)
	}
	return set
}

// sameBytes fails the test unless the server keeps exactly these breaks.
func (h *phoneUser) sameBytes(want []string) {
	h.t.Helper()
	set := h.kept()
	if len(set.Breaks) != len(want) {
		h.t.Fatalf("the server keeps %d breaks, not %d", len(set.Breaks), len(want))
	}
	for i, b := range set.Breaks {
		got, err := sync.WriteBreak(b.Break)
		if err != nil || string(got) != want[i] {
			h.t.Errorf("break %d\nkept   %s (%v)\ntapped %s", b.Number, got, err, want[i])
		}
	}
}

// entered is the last break on the phone as package drill knows it.
func (h *phoneUser) entered(number int) drill.Break {
	h.t.Helper()
	for _, text := range h.contents() {
		var j struct{ Number int }
		if err := json.Unmarshal([]byte(text), &j); err != nil {
			h.t.Fatal(err)
		}
		if j.Number == number {
			b, err := sync.ReadBreak([]byte(text))
			if err != nil {
				h.t.Fatal(err)
			}
			return b
		}
	}
	h.t.Fatalf("there is no break %d on the phone", number)
	return drill.Break{}
}

// says fails the test unless an element says the words.
func (h *phoneUser) says(selector, words string) {
	h.t.Helper()
	h.WaitFor(fmt.Sprintf(`((e) => e.checkVisibility() && e.textContent.includes(%s))(document.querySelector(%s))`, browser.QuoteScript(words), browser.QuoteScript(selector)))
}

func (h *phoneUser) shown(selector string) string {
	h.t.Helper()
	return strings.TrimSpace(browser.Evaluate[string](h.Window, `document.querySelector(`+browser.QuoteScript(selector)+`).textContent`))
}
