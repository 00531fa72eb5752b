//go:build !quick

package record_test

import (
	"testing"

	"breakwright/internal/store"
	"breakwright/web/browser"
	"breakwright/web/webtest"
)

// The break card is on the phone: it opens in a hall without a signal, with its
// pictures and its own styles.
func TestBreakCard_WithoutASignal(t *testing.T) {
	t.Parallel()
	site := webtest.New(t)
	odile := site.StudentActor(0)
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
	h.SaveScreenshot("card-offline")
}
