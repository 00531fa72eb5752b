package browser

import (
	"fmt"

	"github.com/chromedp/chromedp"
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
