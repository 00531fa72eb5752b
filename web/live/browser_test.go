//go:build !quick

package live_test

import (
	"testing"

	"breakwright/internal/store"
	"breakwright/internal/store/storetest"
	"breakwright/web/browser"
	"breakwright/web/webtest"
)

func TestBoard_InTheBrowser(t *testing.T) {
	site := webtest.New(t)
	w := browser.OpenWindow(t, browser.Laptop)
	w.SignIn(site.URL, site.Login, storetest.Passphrase)
	w.Navigate(site.URL + "/classes/" + site.Class.String() + "/live")
	w.WaitFor(`document.getElementById("board-state").textContent === "Live."`)
	for i, student := range site.Students {
		site.RecordBreaks(t, store.Actor{Club: site.Coach.Club, Person: student.ID, Role: store.Student}, 4+i)
	}
	// Thirty breaks are planned; fifteen of them are still to come.
	w.WaitFor(`document.querySelectorAll(".signs .to-come").length === 15`)
	for _, dark := range []bool{false, true} {
		w.SetDark(dark)
		w.CheckAccessibility(t)
		w.SaveScreenshot(map[bool]string{false: "live", true: "live-dark"}[dark])
	}
}
