//go:build !quick

package record_test

import (
	"strings"
	"testing"

	"breakwright/internal/store"
	"breakwright/web/browser"
	"breakwright/web/webtest"
)

// The break card is on the phone: it opens in a hall without a signal, with its
// pictures and its own styles, and with all of its words: only paper cuts long ones.
func TestBreakCard_WithoutASignal(t *testing.T) {
	t.Parallel()
	site := webtest.New(t)
	odile := site.StudentActor(0)
	wordy := site.Drill.Drill
	wordy.Watch = strings.Repeat("Where the wing ball goes, and what it meets first. ", 5)
	drill, err := site.Store.SaveDrill(t.Context(), site.Coach, store.DrillID{}, wordy)
	if err != nil {
		t.Fatal(err)
	}
	if site.Assignment, err = site.Store.AssignDrill(t.Context(), site.Coach, store.Assignment{Drill: drill.ID, Class: site.Class}); err != nil {
		t.Fatal(err)
	}
	set := site.RecordBreaks(t, odile, 10)
	site.CloseSet(t, odile, set, -18)
	if err := site.Store.IssueCard(t.Context(), site.Coach, store.CardID{}, set); err != nil {
		t.Fatal(err)
	}
	h := newPhoneUser(t, site, site.URL, 0, browser.Phone)
	h.WaitFor(`caches.match("/my/card")`)
	h.SetOffline(true)
	h.Navigate(site.URL + "/my/card")
	if n := browser.Evaluate[int](h.Window, `document.querySelectorAll(".pocket-card svg").length`); n != 2 {
		t.Errorf("without a signal the card has %d pictures", n)
	}
	if border := browser.Evaluate[string](h.Window, `getComputedStyle(document.querySelector(".pocket-card")).borderTopStyle`); border != "dashed" {
		t.Errorf("without a signal the card's border is %q", border)
	}
	h.says(".pocket-watch", strings.TrimSpace(wordy.Watch))
	if cut := browser.Evaluate[string](h.Window, `[...document.querySelectorAll(".pocket-card h2, .pocket-words p, .pocket-card")].filter((e) => e.scrollHeight > e.clientHeight + 1).map((e) => e.className).join()`); cut != "" {
		t.Errorf("cut short on the card: %s", cut)
	}
	h.SaveScreenshot("card-offline")
}
