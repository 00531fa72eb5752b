//go:build !quick

package record_test

import (
	"fmt"
	"testing"

	"breakwright/web/browser"
	"breakwright/web/webtest"
)

// Breaks belong to whoever recorded them: signing out keeps them, another
// person neither sees nor sends them, and they go after signing in again.
func TestTable_SigningOutKeepsWhatIsNotSent(t *testing.T) {
	t.Parallel()
	site := webtest.New(t)
	l := newFaultyProxy(t, site.URL)
	h := newPhoneUser(t, site, l.URL, 0, browser.Phone)
	bram := site.Students[1]
	site.SignInStudent(t, bram)
	h.start()
	h.sent()
	l.set(half) // pages get through, breaks do not
	h.breaks(3)
	tapped := h.contents()
	h.Navigate(h.url + "/my/sets")
	h.says("#phone", "3 breaks to send")
	h.signOut()
	l.set(good)

	h.SignIn(h.url, bram.Code, webtest.PIN)
	h.WaitFor(`document.querySelector("#phone") && bw.exchange().then(() => bw.state.trouble === "")`)
	if n := len(h.kept().Breaks); n != 0 {
		t.Fatalf("another person's phone page sent %d breaks", n)
	}
	h.Navigate(h.url + "/table?set=" + h.set)
	h.says("#home", "This set is not on this phone")
	h.says("#home", "3 unsent breaks of somebody else")

	h.Navigate(h.url + "/today")
	h.signOut()
	h.signIn()
	h.sent()
	h.sameBytes(tapped)
}

// Signing out where there is no signal is no dead end and no pretence: the phone holds
// nothing more, fetches nothing again, and the server hears of it as soon as it can.
func TestTable_SigningOutWithoutASignal(t *testing.T) {
	t.Parallel()
	site := webtest.New(t)
	l := newFaultyProxy(t, site.URL)
	h := newPhoneUser(t, site, l.URL, 0, browser.Phone)
	h.Navigate(h.url + "/today")
	h.WaitFor(`bw.exchange().then(() => !bw.state.trouble)`)
	l.set(dead)
	h.touch(`form[action="/sign-out"] button`)
	h.WaitFor(`location.pathname === "/table" && !document.querySelector("#home").hidden`)
	h.says("#home", "Signed out on this phone")
	if state := h.shown("#state"); state != "" {
		t.Errorf("with nobody signed in the page says %q", state)
	}
	h.CheckAccessibility(t)
	h.SaveScreenshot("signed-out-offline")
	l.set(good)
	h.WaitFor(`bw.exchange().then(() => bw.kept("signing-out")).then((still) => !still)`)
	h.WaitFor(`bw.person().then((person) => !person)`)
	h.WaitFor(`bw.state.trouble === "signed-out"`)
	h.WaitFor(`document.querySelector("#home h2").textContent === "Signed out."`)
	if h.isSeen("#word") {
		t.Errorf("beside what it says of signing out, the page says %q", h.shown("#word p"))
	}
	h.Navigate(h.url + "/today")
	h.WaitFor(`location.pathname === "/sign-in"`)

	// The page is opened anew, with a signal, before the phone has told the server.
	h.signIn()
	h.Navigate(h.url + "/today")
	l.set(dead)
	h.touch(`form[action="/sign-out"] button`)
	h.WaitFor(`location.pathname === "/table"`)
	h.Navigate("about:blank")
	l.set(good)
	h.Navigate(h.url + "/today")
	h.WaitFor(`location.pathname === "/sign-in"`)
	h.WaitFor(`bw.person().then((person) => !person)`)
}

// A form that cannot be sent says so, and not that it went.
func TestTable_AFormWithoutASignal(t *testing.T) {
	t.Parallel()
	site := webtest.New(t)
	l := newFaultyProxy(t, site.URL)
	h := newPhoneUser(t, site, l.URL, 0, browser.Phone)
	set := site.RecordBreaks(t, site.StudentActor(0), 10)
	site.CloseSet(t, site.StudentActor(0), set, -20)
	h.Navigate(h.url + "/my/sets/" + set.String())
	l.set(dead)
	h.touch(`[value="hurts"]`)
	h.WaitFor(`location.pathname === "/table" && !document.querySelector("#home").hidden`)
	h.says("#home", "what you sent did not go. Go back and send it again")
}

// What was out of reach comes by itself when there is a connection again.
func TestTable_ASetComesWithTheConnection(t *testing.T) {
	t.Parallel()
	site := webtest.New(t)
	l := newFaultyProxy(t, site.URL)
	h := newPhoneUser(t, site, l.URL, 0, browser.Phone)
	h.Navigate(h.url + "/today")
	l.set(dead)
	h.set = site.StartSet(t, site.StudentActor(0)).ID.String()
	h.Navigate(h.url + "/table?set=" + h.set)
	h.says("#home", "No connection just now")
	l.set(good)
	h.ready()
	h.says("#number", "Break 1")
}

func TestTable_ALapsedSessionWaits(t *testing.T) {
	t.Parallel()
	site := webtest.New(t)
	h := newPhoneUser(t, site, site.URL, 0, browser.Phone)
	h.start()
	h.sent()
	h.ClearCookies()
	h.breaks(1) // what is said of it moves the keys: no tap meanwhile
	h.WaitFor(`bw.exchange().then(() => bw.state.trouble === "signed-out")`)
	h.says("#state", "Sign in again to send")
	h.breaks(4) // recording goes on
	h.WaitForNavigation(func() { h.touch("#to-sign-in") })
	if next := browser.Evaluate[string](h.Window, `document.querySelector("[name=next]").value`); next != "/table?set="+h.set {
		t.Errorf("signing in leads to %q", next)
	}
	h.signIn()
	h.sent()
	h.back()
	h.sameBytes(h.contents())
	if n := len(h.kept().Breaks); n != 4 {
		t.Errorf("%d breaks", n)
	}
}

// full makes every write to the phone's store of breaks fail as a full phone
// does.
const full = `(() => {
	IDBObjectStore.prototype.put = function () { throw new DOMException("no room", "QuotaExceededError"); };
	return true;
})()`

func TestTable_StorageFull(t *testing.T) {
	t.Parallel()
	site := webtest.New(t)
	l := newFaultyProxy(t, site.URL)
	h := newPhoneUser(t, site, l.URL, 0, browser.Phone)
	h.start()
	h.breaks(1)
	h.sent()
	browser.Evaluate[bool](h.Window, full)
	l.set(dead)
	h.wing("made")
	h.tapAt(2, 40)
	h.touch("#save")
	h.says("#summary", "Not saved: this phone’s storage is full")
	l.set(good)
	h.touch("#save") // the server is there again: it goes straight
	h.says("#summary", "went straight to your coach")
	if n := len(h.kept().Breaks); n != 2 {
		t.Errorf("the server keeps %d breaks", n)
	}
}

// A clock that is wrong by a day is said, and does no harm.
func TestTable_AClockADayOff(t *testing.T) {
	t.Parallel()
	site := webtest.New(t)
	for i, hours := range []int{26, -26} {
		h := newPhoneUser(t, site, site.URL, i, browser.Phone)
		h.RunOnEveryPage(fmt.Sprintf(`(() => {
			const off = %d * 3600_000, Real = Date;
			Date = class extends Real {
				constructor(...a) { if (a.length) super(...a); else super(Real.now() + off); }
				static now() { return Real.now() + off; }
			};
		})()`, hours))
		h.start()
		h.breaks(3)
		h.sent()
		h.says("#state", "clock is off by a day")
		h.sameBytes(h.contents())
		for n, b := range h.kept().Breaks {
			if b.Number != n+1 {
				t.Errorf("break %d stands as number %d", n+1, b.Number)
			}
		}
		if got := h.kept(); got.Breaks[0].At.Sub(got.Started).Abs().Hours() < 20 {
			t.Errorf("started %v, the first break %v: the start was not put right", got.Started, got.Breaks[0].At)
		}
	}
}
