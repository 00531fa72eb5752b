//go:build !quick

package record_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"breakwright/internal/drill"
	"breakwright/internal/library"
	"breakwright/internal/store"
	"breakwright/internal/table"
	"breakwright/web/browser"
	"breakwright/web/webtest"
)

// handSizes are small and common phones, upright and on their side.
var handSizes = []browser.Size{
	{Width: 320, Height: 568, Phone: true}, {Width: 360, Height: 640, Phone: true}, {Width: 375, Height: 667, Phone: true},
	{Width: 390, Height: 664, Phone: true}, {Width: 568, Height: 320, Phone: true}, {Width: 667, Height: 375, Phone: true},
}

// startLesson begins a set of a lesson of the library.
func startLesson(t *testing.T, site *webtest.Site, l library.Lesson) store.Set {
	t.Helper()
	ctx := t.Context()
	d, err := site.Store.SaveDrill(ctx, site.Coach, store.DrillID{}, l.DrillFor(l.Games[0], site.Table.Kind))
	if err != nil {
		t.Fatal(err)
	}
	assigned, err := site.Store.AssignDrill(ctx, site.Coach, store.Assignment{Drill: d.ID, Class: site.Class})
	if err != nil {
		t.Fatal(err)
	}
	set, err := site.Store.StartSet(ctx, site.StudentActor(0), store.NewSet{Assignment: assigned, Table: site.Table.ID})
	if err != nil {
		t.Fatal(err)
	}
	return set
}

// Every lesson of the library can be recorded on every phone: all of the page in
// one screen, no target covered, small, near another or larger than a thumb needs; with
// text at 130 % likewise. Only what the lesson asks for is there to tap.
func TestTable_EveryLessonFits(t *testing.T) {
	t.Parallel()
	site := webtest.New(t)
	h := newPhoneUser(t, site, site.URL, 0, browser.SmallPhone)
	for i, l := range library.AllLessons() {
		h.set = startLesson(t, site, l).ID.String()
		h.Navigate(h.url + "/table?set=" + h.set)
		h.WaitFor(`document.querySelector("#ask-racked").checkVisibility()`)
		if i == 0 {
			h.rackFits()
		}
		h.ready()
		h.asksOnly(l)
		for _, size := range handSizes {
			h.Resize(size)
			name := fmt.Sprintf("%s at %d by %d", l.Key, size.Width, size.Height)
			h.fits(name)
			h.reachable(name)
			still := h.spot(table.Place{X: 10, Y: 30})
			h.wing("unknown")
			h.tapAt(10, 30)
			if moved := h.spot(table.Place{X: 10, Y: 30}); moved != still {
				t.Errorf("%s: the picture moved from %v to %v while a break was tapped in", name, still, moved)
			}
			h.fits(name + ", ready to save")
			if h.isCutShort() {
				t.Errorf("%s: what will be saved is cut short: %s", name, h.shown("#summary"))
			}
			h.readBackFits(name+", a long break read back", h.fits)
			h.textSize("130%")
			h.readBackFits(name+", a long break read back, text at 130 %", h.reachable)
			h.textSize("")
			h.clear()
			h.SaveScreenshot(fmt.Sprintf("lesson-%s-%d-%d", l.Key, size.Width, size.Height))
			if i == 0 {
				h.panelsFit(name)
			}
			h.textSize("130%")
			if i == 0 {
				h.panelsFit(name + ", text at 130 %")
			}
			h.reachable(name + ", text at 130 %")
			h.fits(name + ", text at 130 %")
			h.textSize("")
		}
		h.Resize(browser.SmallPhone)
	}
}

// rackFits looks at the question before the first break.
func (h *phoneUser) rackFits() {
	h.t.Helper()
	for _, size := range handSizes {
		h.Resize(size)
		for _, percent := range []string{"100%", "130%"} {
			h.textSize(percent)
			state := fmt.Sprintf("the rack at %d by %d, text at %s", size.Width, size.Height, percent)
			h.fits(state)
			h.reachable(state)
			h.SaveScreenshot(fmt.Sprintf("rack-%d-%d-%s", size.Width, size.Height, strings.TrimSuffix(percent, "%")))
		}
	}
	h.textSize("")
}

func (h *phoneUser) panelsFit(state string) {
	h.t.Helper()
	h.panelFits("#open-balls", "#close-balls", state)
	h.panelFits("#scratch", "#pockets [data-back]", state)
}

// panelFits opens what stands in the place of the wing ball's buttons.
func (h *phoneUser) panelFits(open, shut, state string) {
	h.t.Helper()
	h.touch(open)
	h.fits(state + ", " + open)
	h.reachable(state + ", " + open)
	h.touch(shut)
}

// longReadBack is a break of which all that can be recorded was.
const longReadBack = "Cue ball near the head end, left, after 3 rails, off the side rail first. Wing ball: foot rail first. The 1 in the right side pocket, the 4 and the 7 in the left head corner, the 9 off the table; 5 balls to rails. Shot of the 2: long, thin. Note: the rack was loose at the head ball."

// readBackFits shows a long break as the page reads it back before it is saved, with
// the rest between breaks beside it: what is folded away says so, and a tap brings all of
// it into sight, over no button. holds is what must be true of the page meanwhile. The
// next tap shows the break again.
func (h *phoneUser) readBackFits(state string, holds func(string)) {
	h.t.Helper()
	show := func(words, rest string) {
		browser.Evaluate[bool](h.Window, `(bw.entry.say(`+browser.QuoteScript(words)+`, true), (document.querySelector("#rest").textContent = `+browser.QuoteScript(rest)+`), true)`)
	}
	short := h.shown("#summary")
	show(longReadBack, "Rest 1:59")
	holds(state)
	if h.isCutShort() {
		h.readBackOpens(state)
		holds(state + ", folded again")
	}
	show(short, "")
}

// readBackOpens taps the line that is cut short, and again.
func (h *phoneUser) readBackOpens(state string) {
	h.t.Helper()
	const line = `document.querySelector("#summary")`
	if sign := browser.Evaluate[string](h.Window, `getComputedStyle(`+line+`, "::after").content`); sign != `"▾"` {
		h.t.Errorf("%s: nothing but %s says that there is more", state, sign)
	}
	at := h.spot(table.Place{X: 10, Y: 30})
	h.touch("#summary")
	seen := browser.Evaluate[[2]float64](h.Window, `[`+line+`.getBoundingClientRect().top, innerHeight - document.querySelector("#save").getBoundingClientRect().bottom]`)
	if h.isCutShort() || seen[0] < 0 || seen[1] < -1 {
		h.t.Errorf("%s: opened, it stands %.0f px from the top and Save %.0f px from the bottom, cut short: %v", state, seen[0], seen[1], h.isCutShort())
	}
	h.SaveScreenshot("read-back-" + strings.ReplaceAll(state, " ", "-"))
	h.reachable(state + ", opened")
	h.touch("#summary")
	if again := h.spot(table.Place{X: 10, Y: 30}); again != at {
		h.t.Errorf("%s: the picture went from %v to %v", state, at, again)
	}
}

// isCutShort reports whether a part of what will be saved is out of sight.
func (h *phoneUser) isCutShort() bool {
	h.t.Helper()
	return browser.Evaluate[bool](h.Window, `((e) => e.scrollHeight > e.clientHeight + 1)(document.querySelector("#summary"))`)
}

// textSize sets the size of text as a browser's setting does.
func (h *phoneUser) textSize(percent string) {
	h.t.Helper()
	browser.Evaluate[bool](h.Window, `(document.documentElement.style.fontSize = `+browser.QuoteScript(percent)+`, dispatchEvent(new Event("resize")))`)
}

// reachable fails the test unless every target is on top where it is seen, once
// scrolled to, and nothing is wider than the screen.
func (h *phoneUser) reachable(state string) {
	h.t.Helper()
	covered := browser.Evaluate[[]string](h.Window, `Array.from(document.querySelectorAll("#table button, #table summary"))
		.filter((e) => e.checkVisibility() && !e.closest("dialog")).filter((e) => {
			e.scrollIntoView({ block: "nearest" });
			const b = e.getBoundingClientRect();
			return [[0.5, 0.5], [0.1, 0.15], [0.9, 0.85]].some(([x, y]) => !e.contains(document.elementFromPoint(b.x + b.width * x, b.y + b.height * y)));
		}).map((e) => e.id || e.textContent)`)
	wide := browser.Evaluate[float64](h.Window, `document.documentElement.scrollWidth - innerWidth`)
	cut := browser.Evaluate[[]string](h.Window, `Array.from(document.querySelectorAll("#table .chip")).filter((e) => e.checkVisibility() && e.scrollWidth > e.clientWidth + 1).map((e) => e.textContent)`)
	if len(covered) > 0 || wide > 0 || len(cut) > 0 {
		h.t.Errorf("%s: covered %q, cut off %q, %v px too wide", state, covered, cut, wide)
	}
	browser.Evaluate[bool](h.Window, `(scrollTo(0, 0), true)`)
}

// asksOnly fails the test unless the page offers what the lesson asks, and
// nothing else.
func (h *phoneUser) asksOnly(l library.Lesson) {
	h.t.Helper()
	shown := browser.Evaluate[[]string](h.Window, `Array.from(document.querySelectorAll("[data-wing]")).filter((e) => e.checkVisibility()).map((e) => e.dataset.wing)`)
	if seen := slices.Contains(shown, string(drill.MissSideRail)); seen != l.List.WingPath {
		h.t.Errorf("%s: the wing ball's first rail is asked: %v", l.Key, seen)
	}
	if asked := len(shown) > 0; asked == l.List.CueOnly {
		h.t.Errorf("%s: the wing ball is asked for: %q", l.Key, shown)
	}
	h.wing("made")
	h.tapAt(9, 92) // past the window, at the foot end
	asked := func(what string) bool {
		return browser.Evaluate[bool](h.Window, `document.querySelector("#ask-`+what+`").checkVisibility()`)
	}
	if asked("cue_path") != l.List.CuePath {
		h.t.Errorf("%s: how the cue ball got there is asked: %v", l.Key, asked("cue_path"))
	}
	if l.List.CuePath {
		h.reachable(l.Key + ", asked for the cue ball's path")
		h.SaveScreenshot("asked-" + l.Key)
		h.touch(`#ask-cue_path [data-value="forward"]`)
	}
	h.clear()
}

// clear takes all taps of a begun break back, and passes over the rack again.
func (h *phoneUser) clear() {
	h.t.Helper()
	for range browser.Evaluate[int](h.Window, `bw.entry.draft.past.length`) {
		h.touch("#undo")
	}
	h.leaveRackOpen()
}
