//go:build !quick

package drills_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"

	"breakwright/internal/store"
	"breakwright/internal/store/storetest"
	"breakwright/web/browser"
	"breakwright/web/webtest"
)

// editorWindow is a coach at a laptop of 1366 × 768 who writes a drill.
type editorWindow struct {
	*browser.Window
	t    *testing.T
	site *webtest.Site
}

// drawnFields are those that the pictures write, and what both drills come to: the cue
// ball 16 in to its side and 2 behind the string, a window from 10 in left and to 53 from
// the head rail, the contact 0.1 in left of full, the tip 0.25 below and 0.1 right.
const (
	drawnFields = `["cue_x", "cue_y", "window_left", "window_foot", "contact", "tip", "spin"].map((id) => document.getElementById(id).value).join(" ")`
	drawnValues = "16 2 -10 53 -0.1 -0.25 0.1"
)

// isSettled is true when nothing is on its way and what came has its handles.
const isSettled = `!document.querySelector(".htmx-request, .htmx-settling, .htmx-swapping, .htmx-added")`

// Two drills are made from their pictures, one with the mouse alone and one by keys
// alone, but for their names. Both are the same drill in the end; nothing scrolls by
// itself, the pictures stay in sight, and leaving without saving is asked about.
func TestEditor_DrawnByMouseAndByKeys(t *testing.T) {
	site := webtest.New(t)
	w := editorWindow{browser.OpenWindow(t, browser.Size{Width: 1366, Height: 768}), t, site}
	w.SignIn(site.URL, site.Login, storetest.Passphrase)
	byMouse, byKeys := w.drawByMouse("By mouse"), w.drawByKeys("By keys")
	byMouse.Name, byKeys.Name = "", ""
	if fmt.Sprint(byMouse.Drill) != fmt.Sprint(byKeys.Drill) {
		t.Errorf("by mouse:\n%+v\nby keys:\n%+v", byMouse.Drill, byKeys.Drill)
	}
}

// The two fields of a pair stand in line, however long the words above them are.
func TestEditor_PairsStandInLine(t *testing.T) {
	site := webtest.New(t)
	w := browser.OpenWindow(t, browser.Size{Width: 1366, Height: 768})
	w.SignIn(site.URL, site.Login, storetest.Passphrase)
	w.Navigate(site.URL + "/drills/new")
	tops := browser.Evaluate[[][]float64](w, `[...document.querySelectorAll(".editor-fields .pair")].map((pair) =>
		[...pair.querySelectorAll("input:not([type=range]), select")].map((field) => Math.round(field.getBoundingClientRect().top)))`)
	if len(tops) < 5 {
		t.Fatalf("%d pairs", len(tops))
	}
	for i, pair := range tops {
		if len(pair) != 2 || pair[0] != pair[1] {
			t.Errorf("the fields of pair %d begin at %v px", i+1, pair)
		}
	}
}

// drawByMouse drags everything into its place.
func (w editorWindow) drawByMouse(name string) store.Drill {
	w.t.Helper()
	w.Navigate(w.site.URL + "/drills/new")
	w.TypeInto("name", name)
	browser.Evaluate[bool](w.Window, `(scrollTo({ top: 900, behavior: "instant" }), true)`)
	w.WaitFor(isSettled)
	before := w.rack()
	w.drag("table", 0, -160, -230) // 16 in left, 2 behind the string at 25
	w.drag("table", 1, -100, -400) // the left edge, 10 in left
	w.drag("table", 4, 0, -530)    // the foot end, at 53
	w.drag("contact", 0, -9, 0)    // 0.1 in left: 9 of 100 to a radius of 1.125
	w.drag("tip", 0, 10, 25)       // 0.1 right, 0.25 below
	w.WaitFor(drawnFields + " === " + browser.QuoteScript(drawnValues) + " && " + isSettled)
	w.DragMouse(w.at(`#seat-2L`), w.at(`#seat-3L`))
	w.waitForSwap(before)
	if at := browser.Evaluate[int](w.Window, `Math.round(scrollY)`); at != 900 {
		w.t.Errorf("the page was thrown from 900 to %d", at)
	}
	if out := browser.Evaluate[int](w.Window, `[...document.querySelectorAll("#look-pictures svg[role=img]")].filter((e) => { const r = e.getBoundingClientRect(); return r.top < 0 || r.bottom > innerHeight; }).length`); out != 0 {
		w.t.Errorf("%d pictures are out of sight", out)
	}
	w.CheckAccessibility(w.t)
	w.SaveScreenshot("editor-drawn")
	asks := `(() => { const leave = new Event("beforeunload", { cancelable: true }); dispatchEvent(leave); return leave.defaultPrevented; })()`
	if !browser.Evaluate[bool](w.Window, asks) {
		w.t.Error("unsaved work may be left without a question")
	}
	w.WaitForNavigation(func() { w.ClickText("Save the drill") })
	if browser.Evaluate[bool](w.Window, asks) {
		w.t.Error("saved work is asked about")
	}
	return w.find(name)
}

// drawByKeys comes from the list of drills and uses Tab, the arrows and Enter.
func (w editorWindow) drawByKeys(name string) store.Drill {
	w.t.Helper()
	w.Navigate(w.site.URL + "/drills")
	w.TabTo(`a[href="/drills/new"]`)
	w.RunToNextPage(chromedp.KeyEvent(kb.Enter))
	w.WaitFor(isSettled)
	before := w.rack()
	w.TabTo(`#drawn-table ~ [data-at="0"]`)
	w.pressUntil("cue_x", "16", kb.ArrowLeft, kb.ArrowRight)
	w.pressUntil("cue_y", "2", kb.ArrowUp, kb.ArrowDown)
	w.TabTo(`#drawn-table ~ [data-at="1"]`)
	w.pressUntil("window_left", "-10", kb.ArrowLeft, kb.ArrowRight)
	w.TabTo(`#drawn-table ~ [data-at="4"]`)
	w.pressUntil("window_foot", "53", kb.ArrowUp, kb.ArrowDown)
	for _, seat := range []string{"#seat-2L", "#seat-3L"} {
		w.WaitFor(isSettled)
		w.TabTo(seat)
		w.RunActions(chromedp.KeyEvent(kb.Enter))
		w.WaitFor(`document.querySelector("#seat-2L[aria-pressed=true]") || document.getElementById("rack").value !== ` + browser.QuoteScript(before))
	}
	w.waitForSwap(before)
	w.TabTo(`#drawn-contact ~ .handle`)
	w.pressUntil("contact", "-0.1", kb.ArrowLeft, kb.ArrowRight)
	w.TabTo(`#drawn-tip ~ .handle`)
	w.pressUntil("tip", "-0.25", kb.ArrowUp, kb.ArrowDown)
	w.pressUntil("spin", "0.1", kb.ArrowLeft, kb.ArrowRight)
	w.TabTo("#name")
	w.RunActions(chromedp.KeyEvent(name))
	w.WaitFor(isSettled)
	w.TabTo(`.editor-fields > .actions button`)
	w.RunToNextPage(chromedp.KeyEvent(kb.Enter))
	return w.find(name)
}

// pressUntil presses an arrow until the field has its value, and the other one when the
// first comes no nearer.
func (w editorWindow) pressUntil(field, value, one, other string) {
	w.t.Helper()
	distance := func() float64 {
		return browser.Evaluate[float64](w.Window, fmt.Sprintf(`Math.abs(Number(document.getElementById(%q).value) - %s)`, field, value))
	}
	const most = 30
	arrow, left := one, distance()
	for range most {
		if left < 1e-9 {
			return
		}
		w.RunActions(chromedp.KeyEvent(arrow))
		now := distance()
		if now >= left {
			arrow = other
		}
		left = now
	}
	w.t.Fatalf("%s is not %s after %d arrows", field, value, most)
}

// drag takes a handle of a picture by the mouse to a place in the picture's own units.
func (w editorWindow) drag(picture string, handle, x, y int) {
	w.t.Helper()
	to := browser.Evaluate[browser.Point](w.Window, fmt.Sprintf(`(() => {
		const at = new DOMPoint(%d, %d).matrixTransform(document.querySelector("#drawn-%s svg").getScreenCTM());
		return { X: at.x, Y: at.y };
	})()`, x, y, picture))
	w.DragMouse(w.at(fmt.Sprintf(`#drawn-%s ~ [data-at="%d"]`, picture, handle)), to)
}

// at is the middle of what a selector finds, where it is in sight; nothing is scrolled.
func (w editorWindow) at(selector string) browser.Point {
	w.t.Helper()
	return browser.Evaluate[browser.Point](w.Window, fmt.Sprintf(`(() => {
		const box = document.querySelector(%s).getBoundingClientRect();
		return { X: box.x + box.width / 2, Y: box.y + box.height / 2 };
	})()`, browser.QuoteScript(selector)))
}

func (w editorWindow) rack() string {
	return browser.Evaluate[string](w.Window, `document.getElementById("rack").value`)
}

// waitForSwap waits until the balls of slots 2L and 3L have changed places.
func (w editorWindow) waitForSwap(before string) {
	w.t.Helper()
	balls := strings.Split(before, "-")
	balls[1], balls[3] = balls[3], balls[1]
	w.WaitFor(`document.getElementById("rack").value === ` + browser.QuoteScript(strings.Join(balls, "-")) + ` &&
		document.getElementById("board-say").textContent.includes("have changed places") && ` + isSettled)
}

func (w editorWindow) find(name string) store.Drill {
	w.t.Helper()
	all, err := w.site.Store.ListDrills(w.t.Context(), w.site.Coach, store.ActiveOnly)
	i := slices.IndexFunc(all, func(d store.Drill) bool { return d.Name == name })
	if err != nil || i < 0 {
		w.t.Fatalf("%q is not among %d drills (%v)", name, len(all), err)
	}
	return all[i]
}
