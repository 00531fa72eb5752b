package browser

import (
	"fmt"

	"github.com/chromedp/cdproto/input"
	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"
)

// ClickText presses the first thing in the page's main part that says words at its
// beginning and, where more is given, those anywhere: a link, a button or a
// label.
func (w *Window) ClickText(begins string, and ...string) {
	w.t.Helper()
	also := ""
	if len(and) > 0 {
		also = and[0]
	}
	find := fmt.Sprintf(`[...document.querySelectorAll("main a, main button, main label, main summary")].find((e) => {
		const words = e.textContent.replace(/\s+/g, " ").trim();
		return e.getClientRects().length && words.startsWith(%s) && words.includes(%s);
	})`, QuoteScript(begins), QuoteScript(also))
	w.WaitFor(find)
	at := Evaluate[Point](w, `(() => {
		const e = `+find+`;
		e.scrollIntoView({ block: "center", behavior: "instant" });
		const box = e.getBoundingClientRect();
		return { X: box.x + box.width / 2, Y: box.y + box.height / 2 };
	})()`)
	w.RunActions(chromedp.MouseClickXY(at.X, at.Y))
}

// WaitForNavigation takes a step that leads to another page, by whatever way, and waits
// until that page is there.
func (w *Window) WaitForNavigation(step func()) {
	w.t.Helper()
	Evaluate[bool](w, `window.leaving = true`)
	step()
	w.WaitFor(`!window.leaving && document.readyState === "complete"`)
}

// TypeInto fills a field of that id as if it had been typed.
func (w *Window) TypeInto(id, words string) {
	w.t.Helper()
	Evaluate[bool](w, fmt.Sprintf(`(() => {
		const field = document.getElementById(%s);
		field.focus();
		field.value = %s;
		field.dispatchEvent(new Event("input", { bubbles: true }));
		field.dispatchEvent(new Event("change", { bubbles: true }));
		return true;
	})()`, QuoteScript(id), QuoteScript(words)))
}

// DragMouse presses the mouse's button at one place, moves to the other by way of the
// middle, and lets go there.
func (w *Window) DragMouse(from, to Point) {
	w.t.Helper()
	dispatch := func(kind input.DispatchMouseEventType, at Point, held int64) chromedp.Action[chromedp.Void] {
		return runCommand(input.DispatchMouseEvent, input.DispatchMouseEventParams{
			Type: kind, X: at.X, Y: at.Y, Button: input.MouseButtonLeft, Buttons: held, ClickCount: 1,
		})
	}
	w.RunActions(
		dispatch(input.DispatchMouseEventTypeMouseMoved, from, 0),
		dispatch(input.DispatchMouseEventTypeMousePressed, from, 1),
		dispatch(input.DispatchMouseEventTypeMouseMoved, Point{(from.X + to.X) / 2, (from.Y + to.Y) / 2}, 1),
		dispatch(input.DispatchMouseEventTypeMouseMoved, to, 1),
		dispatch(input.DispatchMouseEventTypeMouseReleased, to, 0),
	)
}

// TabTo presses Tab until what the selector finds has the focus: the way there of who
// has no mouse.
func (w *Window) TabTo(selector string) {
	w.t.Helper()
	const most = 150
	for range most {
		w.RunActions(chromedp.KeyEvent(kb.Tab))
		if Evaluate[bool](w, "document.activeElement.matches("+QuoteScript(selector)+")") {
			return
		}
	}
	w.t.Fatalf("%s is not reached by %d tabs", selector, most)
}
