//go:build !quick

package drills_test

import (
	"fmt"
	"testing"

	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"

	"breakwright/internal/store/storetest"
	"breakwright/web/browser"
	"breakwright/web/webtest"
)

// A drill is changed in its pictures alone, by hand and by keys, on a laptop of
// 1366 × 768: the fields follow, the pictures stay in sight, nothing scrolls by
// itself, and leaving without saving is asked about.
func TestEditor_IsDrawn(t *testing.T) {
	site := webtest.New(t)
	w := browser.OpenWindow(t, browser.Size{Width: 1366, Height: 768})
	w.SignIn(site.URL, site.Login, storetest.Passphrase)
	w.Navigate(site.URL + "/drills/" + site.Drill.ID.String())
	drag := func(figure string, handle, x, y int) {
		browser.Evaluate[bool](w, fmt.Sprintf(`(() => {
			const at = new DOMPoint(%[3]d, %[4]d).matrixTransform(document.querySelector("#%[1]s svg").getScreenCTM());
			const send = (where, type) => where.dispatchEvent(new PointerEvent(type, { bubbles: true, button: 0, clientX: at.x, clientY: at.y }));
			send(document.querySelector('#%[1]s ~ .handle[data-at="%[2]d"]'), "pointerdown");
			send(document, "pointermove");
			send(document, "pointerup");
			return true;
		})()`, figure, handle, x, y))
	}
	browser.Evaluate[bool](w, `(scrollTo({ top: 900, behavior: "instant" }), true)`)
	drag("drawn-table", 0, -120, -200) // 12 in left, 5 behind the string at 25
	drag("drawn-table", 1, -100, -400) // the left edge, 10 in left
	drag("drawn-table", 4, 0, -600)    // the foot end, at 60
	drag("drawn-contact", 0, -18, 0)   // 0.2 in left: 18 of 100 to a radius of 1.125
	drag("drawn-tip", 0, 10, 20)       // 0.1 right, 0.2 below
	browser.Evaluate[bool](w, `(document.querySelector("#drawn-tip ~ .handle").focus({ preventScroll: true }), true)`)
	w.RunActions(chromedp.KeyEvent(kb.ArrowDown), chromedp.KeyEvent(kb.ArrowLeft))
	want := "12 5 -10 60 -0.2 -0.25 0.05"
	w.WaitFor(`["cue_x", "cue_y", "window_left", "window_foot", "contact", "tip", "spin"].map((id) => document.getElementById(id).value).join(" ") === ` + browser.QuoteScript(want))
	w.WaitFor(`document.getElementById("look-d").textContent.includes("(12 in) left of the middle") && document.querySelector("#drawn-tip figcaption").textContent.includes("half a tip")`)
	// The rack by keys: the wing's slot and its neighbour change places. What came
	// from the server has to have settled, else its buttons are plain ones still.
	const settled = `!document.querySelector(".htmx-request, .htmx-settling, .htmx-swapping, .htmx-added")`
	w.WaitFor(settled)
	for _, step := range [][2]string{{"seat-3L", "is in your hand"}, {"seat-2L", "have changed places"}} {
		browser.Evaluate[bool](w, `(document.getElementById("`+step[0]+`").focus({ preventScroll: true }), true)`)
		w.RunActions(chromedp.KeyEvent(kb.Enter))
		w.WaitFor(`document.getElementById("board-say").textContent.includes("` + step[1] + `") && ` + settled)
	}
	w.WaitFor(`document.getElementById("rack").value.startsWith("1-8-2-3-")`)
	if at := browser.Evaluate[int](w, `Math.round(scrollY)`); at != 900 {
		t.Errorf("the page was thrown from 900 to %d", at)
	}
	if out := browser.Evaluate[int](w, `[...document.querySelectorAll("#look-pictures svg[role=img]")].filter((e) => { const r = e.getBoundingClientRect(); return r.top < 0 || r.bottom > innerHeight; }).length`); out != 0 {
		t.Errorf("%d pictures are out of sight", out)
	}
	w.CheckAccessibility(t)
	w.SaveScreenshot("editor-drawn")
	asks := `(() => { const leave = new Event("beforeunload", { cancelable: true }); dispatchEvent(leave); return leave.defaultPrevented; })()`
	if !browser.Evaluate[bool](w, asks) {
		t.Error("unsaved work may be left without a question")
	}
	w.WaitForNavigation(func() { w.ClickText("Save as a new version") })
	if browser.Evaluate[bool](w, asks) {
		t.Error("saved work is asked about")
	}
	w.WaitFor(`document.querySelector("main").textContent.includes("(12 in) left of the middle")`)
}
