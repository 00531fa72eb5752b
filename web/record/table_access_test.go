//go:build !quick

package record_test

import (
	"fmt"
	"net/url"
	"strings"
	"testing"

	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"

	"breakwright/internal/drill"
	"breakwright/web/browser"
	"breakwright/web/webtest"
)

// axe-core finds nothing on any page of a student's, light and dark.
func TestStudentPages_Axe(t *testing.T) {
	t.Parallel()
	site := webtest.New(t)
	h := newPhoneUser(t, site, site.URL, 0, browser.Phone)
	h.start()
	looked := 0
	look := func(name string) {
		t.Helper()
		for _, dark := range []bool{false, true} {
			h.SetDark(dark)
			h.CheckAccessibility(t)
			h.SaveScreenshot(fmt.Sprintf("axe-%s-%v", name, dark))
			looked++
		}
		h.SetDark(false)
	}
	look("entry")
	h.wing("side-rail")
	h.tapAt(3, 41)
	look("ready")
	h.touch("#open-balls")
	h.touch(`[data-ball="2"]`)
	look("balls")
	h.touch("#close-balls")
	h.touch("#open-details")
	browser.Evaluate[bool](h.Window, `(document.querySelectorAll("#details details").forEach((d) => { d.open = true; }), true)`)
	look("details")
	h.touch("#details [data-close]")
	h.breaks(4)
	h.touch("#open-list")
	browser.Evaluate[bool](h.Window, `(document.querySelectorAll("#list details").forEach((d) => { d.open = true; }), true)`)
	look("list")
	h.touch("#list-breaks li button")
	look("edit")
	h.touch("#leave-edit")
	h.sent()
	for name, address := range map[string]string{
		"today": "/today", "drill": "/today/" + site.Assignment.String(), "sets": "/my/sets",
		"plain": "/my/sets/" + h.set + "/next?plain", "plain-edit": "/my/sets/" + h.set + "/breaks/" + h.kept().Breaks[0].ID.String(),
		"open-set": "/my/sets/" + h.set + "?review", "nowhere": "/table",
	} {
		h.Navigate(h.url + address)
		h.WaitFor(`document.readyState === "complete"`)
		look(name)
	}
	h.back()
	h.breaks(10)
	look("review")
	h.SetOffline(true)
	h.touch("#close-set")
	h.says("#unseen", "not seen this yet")
	look("closed")
	h.SetOffline(false)
	h.readable()
	h.Navigate(h.url + "/my/sets/" + h.set)
	look("says")
	if looked != 32 {
		t.Errorf("looked %d times", looked)
	}
}

// A break from the first key to the last, and nothing but keys.
func TestTable_KeyboardOnly(t *testing.T) {
	t.Parallel()
	site := webtest.New(t)
	h := newPhoneUser(t, site, site.URL, 0, browser.Laptop)
	h.start()
	press := func(keys ...string) {
		for _, key := range keys {
			h.RunActions(chromedp.KeyEvent(key))
		}
	}
	// to moves on with the tab key until a control has the focus.
	to := func(what string) {
		t.Helper()
		for range 60 {
			if browser.Evaluate[bool](h.Window, `document.activeElement.matches(`+browser.QuoteScript(what)+`)`) {
				return
			}
			press(kb.Tab)
		}
		t.Fatalf("the tab key does not come to %s", what)
	}
	to("#cloth")
	press(kb.Enter, kb.ArrowRight, kb.ArrowUp)
	to(`[data-wing="jaws"]`)
	press(kb.Enter)
	to("#open-balls")
	press(kb.Enter)
	to(`[data-ball="2"]`)
	press(kb.Enter) // where it went is said in the drawer
	to("#close-balls")
	press(kb.Enter)
	to("#open-details")
	press(kb.Enter)
	to("#note")
	press("l")
	browser.Evaluate[bool](h.Window, `(bw.entry.show(""), true)`) // as when the server answers meanwhile
	press("o", "w")
	to("#details > details:nth-of-type(2) > summary")
	press(kb.Enter)
	to("#fate-2")
	press(kb.ArrowDown)
	press(kb.Escape)
	h.says("#summary", "The 8 stayed up, rattled in the jaws; also down: the 2 in the left head corner; the cue ball")
	to("#save")
	press(kb.Enter)
	h.says("#number", "Break 2")
	h.sent()
	b := h.kept().Breaks[0]
	if b.WingMiss != drill.MissJaws || b.Note != "low" || b.Cue.Place.X != 1 || b.Cue.Place.Y != 38.5 || len(b.Pocketed) != 1 {
		t.Errorf("%+v", b)
	}
	to("#undo")
	press(kb.Enter)
	h.says("#number", "Break 1")
}

// Everything that can be pressed has a name; nothing moves for who wants no
// motion.
func TestTable_NamesAndMotion(t *testing.T) {
	t.Parallel()
	site := webtest.New(t)
	h := newPhoneUser(t, site, site.URL, 0, browser.Phone)
	h.ReduceMotion()
	h.start()
	nameless := browser.Evaluate[[]string](h.Window, `Array.from(document.querySelectorAll("#table button, #table input:not([type=hidden]), #table select, #table textarea"))
		.filter((e) => !(e.ariaLabel || e.textContent.trim() || e.labels?.length)).map((e) => e.outerHTML)`)
	if len(nameless) > 0 {
		t.Errorf("without a name: %s", strings.Join(nameless, "\n"))
	}
	h.touch("#save") // too early: the line above asks, and would shake
	h.says("#summary", "Tap what the 8 did")
	if moves := browser.Evaluate[int](h.Window, `document.getAnimations().length`); moves != 0 {
		t.Errorf("%d things move", moves)
	}
}

// The pages can be installed like a program, and the screen stays awake while a
// set is recorded.
func TestTable_InstalledAndAwake(t *testing.T) {
	t.Parallel()
	site := webtest.New(t)
	h := newPhoneUser(t, site, site.URL, 0, browser.Phone)
	if wrong := h.ListInstallErrors(); len(wrong) > 0 {
		t.Errorf("not to be installed: %v", wrong)
	}
	h.RunOnEveryPage(`navigator.wakeLock.request = async (what) => { window.awake = what; }`)
	h.start()
	h.WaitFor(`window.awake === "screen"`)
	h.sent()
	h.Navigate(h.url + "/my/sets/" + h.set + "/next") // an old link to the plain form
	h.ready()
	h.Navigate(h.url + "/my/sets/" + h.set + "/next?plain")
	h.WaitFor(`document.querySelector("form.break")`)
}

// Without scripts the same set is recorded on plain forms: start, taps on the
// picture, what is saved read back, undo, close.
func TestTable_WithoutScripts(t *testing.T) {
	t.Parallel()
	site := webtest.New(t)
	site.SignInStudent(t, site.Students[0])
	w := browser.OpenWindow(t, browser.SmallPhone)
	w.WithoutScripts()
	w.Navigate(site.URL + "/sign-in")
	click := func(selector string) { w.RunActions(chromedp.Click(chromedp.CSS(selector))) }
	fill := func(selector, value string) { w.RunActions(chromedp.SendKeys(chromedp.CSS(selector), value)) }
	at := func(part string) {
		t.Helper()
		w.WaitForAddress(func(address string) bool { return strings.Contains(address, part) })
	}
	fill("#who", site.Students[0].Code)
	fill("#secret", webtest.PIN)
	click("main form button")
	at("/today")
	click(".rows a.button")
	at("/today/")
	click("form[data-start] button")
	at("/next")
	address := w.Address()
	id := strings.Split(address, "/")[5]
	click(`label:has([name=wing][value=made])`)
	click(`label:has([name=cue][value=stopped])`)
	click(`.tap input[type=image]`) // sends the pixel, and the page comes back with the mark
	w.RunActions(chromedp.WaitVisible(chromedp.CSS(`.tap input[src*="?x="]`)))
	click(".save button") // reads it back first
	w.RunActions(chromedp.WaitVisible(chromedp.CSS("#read-back")))
	click(".save button")
	w.RunActions(chromedp.WaitVisible(chromedp.CSS(`form[action$="/undo"] button`)))
	set := (&phoneUser{t: t, site: site, set: id}).kept()
	if len(set.Breaks) != 1 || !set.Breaks[0].WingMade(set.Setup) || set.Breaks[0].Cue.How != drill.Stopped {
		t.Fatalf("%+v", set.Breaks)
	}
	// The page at the table leads here.
	w.Navigate(site.URL + "/table?set=" + url.QueryEscape(id))
	at("/my/sets/" + id + "/next")
}
