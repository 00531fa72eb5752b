//go:build !quick

package record_test

import (
	"testing"

	"breakwright/internal/table"
	"breakwright/web/browser"
	"breakwright/web/webtest"
)

// The main promise: a set in a hall without a signal, on a phone that is short
// of memory.
func TestTable_TenBreaksWithoutASignal(t *testing.T) {
	t.Parallel()
	site := webtest.New(t)
	h := newPhoneUser(t, site, site.URL, 0, browser.Phone)
	h.start()
	h.breaks(2)
	h.sent()
	h.says("#state", "With your coach")

	h.SetOffline(true) // from the third break on
	h.breaks(4)
	h.says("#state", "No connection")
	h.CrashPage()
	h.SetOffline(true)
	h.back() // the page itself comes from the phone
	if n := h.recorded(); n != 4 {
		t.Fatalf("after the page was killed %d breaks are on the phone", n)
	}
	h.breaks(7)
	h.CrashPage()
	h.SetOffline(true)
	h.back()
	h.breaks(10)
	tapped := h.contents()
	if len(h.kept().Breaks) != 2 {
		t.Fatalf("without a signal the server has %d breaks", len(h.kept().Breaks))
	}

	h.touch("#close-set")
	h.says("#unseen", "Your coach has not seen this yet")
	h.says("#review-counts", "Wing ball in its corner 1 of 10")
	if marks := browser.Evaluate[int](h.Window, `document.querySelectorAll("#review-picture .marks .pic-stop").length`); marks != 10 {
		t.Errorf("the picture shows %d places", marks)
	}
	h.SaveScreenshot("closed-offline")

	h.SetOffline(false)
	h.readable()
	h.sameBytes(tapped)
	if h.kept().Closed.IsZero() || h.kept().Advice == nil {
		t.Error("the set is not closed, or says nothing")
	}
}

// A whole set, begun too, while the server is out of reach.
func TestTable_AWholeSetWithoutTheServer(t *testing.T) {
	t.Parallel()
	site := webtest.New(t)
	l := newFaultyProxy(t, site.URL)
	h := newPhoneUser(t, site, l.URL, 0, browser.SmallPhone)
	l.set(dead)
	h.Navigate(h.url + "/today")
	h.WaitFor(`document.querySelector(".rows a.button")`)
	h.touch(".rows a.button")
	h.WaitFor(`document.querySelector("form[data-start]") && bw.held()`)
	h.start()
	still := h.spot(table.Place{X: 10, Y: 30})
	h.breaks(9)
	h.says("#state", "No connection: 9 breaks to send")
	if moved := h.spot(table.Place{X: 10, Y: 30}); moved != still {
		t.Errorf("what is said of the connection moves the table from %v to %v", still, moved)
	}
	h.breaks(10)
	tapped := h.contents()
	h.touch("#close-set")
	h.says("#unseen", "has not seen this yet")
	h.Navigate(h.url + "/today")
	h.says("#waiting", "10 of 10 breaks, on this phone")
	h.says("#phone", "Saved on this phone")

	l.set(good)
	h.sent()
	h.sameBytes(tapped)
	if h.kept().Closed.IsZero() {
		t.Error("the set is not closed")
	}
}

// The server goes away in mid-sync: before it heard, half-way, and after it
// kept but before it answered.
func TestTable_ServerStoppedInMidSync(t *testing.T) {
	t.Parallel()
	site := webtest.New(t)
	l := newFaultyProxy(t, site.URL)
	h := newPhoneUser(t, site, l.URL, 0, browser.Phone)
	h.start()
	for i, w := range []proxyMode{deaf, half, dead, deaf, half} {
		l.set(w)
		h.breaks(2 * (i + 1))
		h.says("#state", "to send")
		l.awaitFailure(t)
		if i == 2 {
			h.CrashPage()
			h.back()
		}
	}
	tapped := h.contents()
	l.set(good)
	h.sent()
	h.sameBytes(tapped)
}

func TestTable_TwoPagesOfOnePhone(t *testing.T) {
	t.Parallel()
	site := webtest.New(t)
	h := newPhoneUser(t, site, site.URL, 0, browser.Phone)
	h.start()
	h.breaks(3)
	h.OpenNewPage() // the first page stays open
	h.back()
	h.breaks(6)
	browser.Evaluate[bool](h.Window, `Promise.all([bw.exchange(), bw.exchange(), bw.exchange()]).then(() => true)`)
	h.sent()
	h.sameBytes(h.contents())
}

func TestTable_KilledBetweenTapAndSave(t *testing.T) {
	t.Parallel()
	site := webtest.New(t)
	h := newPhoneUser(t, site, site.URL, 0, browser.Phone)
	h.start()
	h.breaks(1)
	h.wing("jaws")
	h.tapAt(5, 60)
	h.WaitFor(`bw.draft("` + h.set + `").then((d) => d && d.entry.cue)`)
	h.CrashPage()
	h.back()
	h.says("#summary", "The 8 stayed up, rattled in the jaws")
	h.save()
	h.sent()
	h.sameBytes(h.contents())
}

// What is written while a page is killed is there or is not: never half.
func TestTable_KilledWhileSaving(t *testing.T) {
	t.Parallel()
	site := webtest.New(t)
	h := newPhoneUser(t, site, site.URL, 0, browser.Phone)
	h.start()
	for n := 1; n <= 3; n++ {
		h.wing("made")
		h.tapAt(0, 40)
		h.touch("#save") // and nobody waits
		h.CrashPage()
		h.back()
		if h.recorded() == n-1 { // the last taps did not make it: the page asks again
			h.wing("made")
			h.tapAt(0, 40)
			h.save()
		}
	}
	h.sent()
	h.sameBytes(h.contents())
}
