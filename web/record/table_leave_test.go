//go:build !quick

package record_test

import (
	"strings"
	"testing"

	"breakwright/internal/drill"
	"breakwright/internal/leave"
	"breakwright/internal/say"
	"breakwright/internal/store"
	"breakwright/internal/table"
	"breakwright/static"
	"breakwright/web/browser"
	"breakwright/web/webtest"
)

// assignLeaveDrill gives the class a drill of so many breaks that asks for a shot on
// the lowest ball, in the place of the site's.
func assignLeaveDrill(t *testing.T, site *webtest.Site, breaks int) {
	t.Helper()
	d := site.Drill.Drill
	d.Name, d.Breaks, d.Targets.Shot = "Leave a shot", breaks, 0.5
	saved, err := site.Store.SaveDrill(t.Context(), site.Coach, store.DrillID{}, d)
	if err != nil {
		t.Fatal(err)
	}
	given, err := site.Store.AssignDrill(t.Context(), site.Coach, store.Assignment{Drill: saved.ID, Class: site.Class})
	if err != nil {
		t.Fatal(err)
	}
	site.Assignment = given
}

// A set with leaves without a signal: a tap for each of the lowest balls, the shot
// filled in and confirmed by saving, or overruled in one tap; a scratch or a ball off
// the table asks for nothing. Closed without a signal too, and read when there is one
// again.
func TestTable_Leave(t *testing.T) {
	t.Parallel()
	site := webtest.New(t)
	assignLeaveDrill(t, site, 7)
	h := newPhoneUser(t, site, site.URL, 0, browser.SmallPhone)
	h.WaitFor(`caches.match(` + browser.QuoteScript(static.URL("js/leave.js")) + `)`)
	h.start()
	h.SetOffline(true)

	pressed := func() string {
		return browser.Evaluate[string](h.Window, `document.querySelector("#leave [aria-pressed=true]")?.dataset.shot || ""`)
	}
	breakWith := func(most int, name string, enter func()) drill.Break {
		t.Helper()
		h.taps = 0
		enter()
		h.save()
		if h.taps > most {
			t.Errorf("%s takes %d taps, more than %d", name, h.taps, most)
		}
		return h.entered(h.recorded())
	}

	b := breakWith(5, "two balls placed", func() {
		h.wing("made")
		h.tapAt(-3.5, 41)
		if says := h.shown("#leave-name"); says != "Tap where the 1 stopped" {
			t.Errorf("after the cue ball the page says %q", says)
		}
		h.fits("the leave")
		h.SaveScreenshot("table-leave")
		h.tapAt(-19, 31)
		if says := h.shown("#leave-says"); pressed() != "open" || !strings.Contains(says, "open on the 1 into the left head corner") {
			t.Errorf("the 1 is %q: %q", pressed(), says)
		}
		h.fits("a shot found")
		h.SaveScreenshot("table-leave-found")
		h.tapAt(12, 70)
	})
	found := leave.FindShots(leave.FromBreak(b, site.Drill.Setup, site.Drill.Kind), leave.PlayerAt(leave.Club))
	if len(b.Rest) != 2 || b.Rest[0].Ball != 1 || b.Rest[1].Ball != 2 || b.Shot != drill.ShotOpen || found.Shot != b.Shot || len(b.Pocketed) != 1 {
		t.Errorf("recorded %+v; the finder says %q", b, found.Shot)
	}
	b = breakWith(5, "overruled", func() {
		h.wing("side-rail")
		h.tapAt(-3.5, 41)
		h.tapAt(-19, 31)
		h.touch(`[data-shot="hard"]`)
	})
	if b.Shot != drill.ShotHard || len(b.Rest) != 1 {
		t.Errorf("overruled, it is %+v", b)
	}
	b = breakWith(3, "a scratch", func() {
		h.wing("foot-rail")
		h.tapAt(25, 50)
		if h.isSeen("#leave") {
			t.Error("after a scratch a shot is asked for")
		}
	})
	if b.Cue.How != drill.Scratched || b.Shot != "" {
		t.Errorf("the scratch is %+v", b)
	}
	b = breakWith(3, "nothing placed", func() {
		h.wing("made")
		h.tapAt(9, 63)
	})
	if b.Shot != "" || b.Rest != nil {
		t.Errorf("without a ball placed it is %+v", b)
	}
	b = breakWith(4, "the 1 off the table", func() {
		h.wing("made")
		h.tapAt(9, 63)
		h.touch("#off-table")
		if h.isSeen("#leave") {
			t.Error("after a ball off the table, which is a foul, a shot is asked for")
		}
	})
	if len(b.Off) != 1 || b.Off[0] != 1 || b.Shot != "" {
		t.Errorf("with the 1 off the table it is %+v", b)
	}
	for want, at := range map[string][2]table.Place{ // found as by the program, and told in the same words
		"Only a bank on the 1": {{X: 3, Y: 35.5}, {X: 11.2, Y: 23.3}},
		"A bank on the 1":      {{X: 19, Y: 39.6}, {X: 17.4, Y: 30.4}},
	} {
		says := ""
		b = breakWith(5, want, func() {
			h.wing("made")
			h.tapAt(-3.5, 41)
			h.tapAt(at[0].X, at[0].Y)
			h.tapAt(at[1].X, at[1].Y)
			says = h.shown("#leave-says")
		})
		l := leave.FromBreak(b, site.Drill.Setup, site.Drill.Kind)
		shots := leave.FindShots(l, leave.PlayerAt(leave.Club)).Describe(l)
		if !strings.HasPrefix(shots, want) || says != "Found: "+say.Decapitalize(shots) {
			t.Errorf("the page says %q, the program %q", says, shots)
		}
	}
	want := h.contents()
	h.touch("#close-set")
	h.WaitFor(`!document.querySelector("#unseen").hidden`)
	h.SetOffline(false)
	h.sent()
	h.readable()
	h.sameBytes(want)
	n := 0
	for range 3 { // a page that a busy machine draws slower than the worker's patience is not the set's own
		h.Navigate(site.URL + "/my/sets/" + h.set)
		if n = browser.Evaluate[int](h.Window, `document.querySelectorAll(".leaves > li").length`); n > 0 {
			break
		}
	}
	if n != 4 {
		t.Errorf("the set shows %d leaves", n)
	}
	h.SaveScreenshot("set-after-leaves")
}
