//go:build !quick

package record_test

import (
	"fmt"
	"testing"

	"breakwright/internal/drill"
	"breakwright/web/browser"
	"breakwright/web/webtest"
)

// Before the first break one tap says how the rack stood; later breaks ask for it
// only where the advice wants the rack checked. Passed over, it is asked once
// more, and saving never waits for it.
func TestTable_WasTheRackTight(t *testing.T) {
	t.Parallel()
	site := webtest.New(t)
	h := newPhoneUser(t, site, site.URL, 0, browser.SmallPhone)
	h.start()
	h.Navigate(h.url + "/table?set=" + h.set)
	h.says("#ask-racked", "Was the rack tight?")
	h.fits("the rack is asked for")
	h.SaveScreenshot("rack")
	h.CheckAccessibility(t)
	h.touch(`#ask-racked [data-value="tight"]`)
	h.wing("made")
	h.tapAt(-3, 41)
	h.says("#summary", "the rack tight")
	h.save()
	h.wing("made") // the second break asks nothing
	h.tapAt(-3, 41)
	h.save()
	h.says("#rest", "Rest 0:5") // a minute after every second break
	h.fits("resting")
	h.SaveScreenshot("rest")
	h.touch("#open-list")
	h.touch("#swap-rest")
	h.WaitFor(`document.querySelector("#rest").textContent === ""`)
	h.touch("#open-list")
	h.says("#swap-rest", "Switch the rest timer on")
	h.touch("#list [data-close]")

	browser.Evaluate[bool](h.Window, fmt.Sprintf(`bw.write(async (sets) => { const s = await sets.get(%q); await sets.put({ ...s, ask: { ...s.ask, rack: true } }); }).then(() => true)`, h.set))
	h.SetOffline(true) // or the server's plan, which asks for nothing, takes its place
	h.Navigate(h.url + "/table?set=" + h.set)
	h.says("#ask-racked", "Was the rack tight?")
	h.tapAt(-3, 41)
	h.wing("made")
	h.touch(`#ask-racked [data-value="loose"]`)
	h.says("#summary", "a gap in the rack")
	h.save()
	h.tapAt(-3, 41)
	h.wing("made")
	h.save()
	for number, want := range map[int]drill.Racked{1: drill.RackedTight, 2: "", 3: drill.RackedLoose, 4: ""} {
		if got := h.entered(number).Racked; got != want {
			t.Errorf("break %d: the rack was %q, not %q", number, got, want)
		}
	}
	h.SetOffline(false)
	h.sent()
	h.sameBytes(h.contents())
}
