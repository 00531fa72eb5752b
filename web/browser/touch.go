package browser

import (
	"context"
	"encoding/json"
	"fmt"

	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/input"
	"github.com/chromedp/chromedp"
)

// Point is a place in the window, in CSS pixels from its top left corner.
type Point struct{ X, Y float64 }

// Tap touches a place and lets go, as a quick finger does.
func (w *Window) Tap(at Point) {
	w.t.Helper()
	w.RunActions(dispatchTouch(input.DispatchTouchEventTypeTouchStart, &at), dispatchTouch(input.DispatchTouchEventTypeTouchEnd, nil))
}

// Drag puts a finger down, moves it over the places, and lets go.
func (w *Window) Drag(way ...Point) {
	w.t.Helper()
	w.Press(way...)
	w.RunActions(dispatchTouch(input.DispatchTouchEventTypeTouchEnd, nil))
}

// Press is Drag without letting go.
func (w *Window) Press(way ...Point) {
	w.t.Helper()
	w.RunActions(dispatchTouch(input.DispatchTouchEventTypeTouchStart, &way[0]))
	for _, at := range way[1:] {
		w.RunActions(dispatchTouch(input.DispatchTouchEventTypeTouchMove, &at))
	}
}

func dispatchTouch(kind input.DispatchTouchEventType, at *Point) chromedp.Action[chromedp.Void] {
	points := []*input.TouchPoint{}
	if at != nil {
		points = append(points, &input.TouchPoint{X: at.X, Y: at.Y})
	}
	return chromedp.Func(func(ctx context.Context, target *chromedp.Target) error {
		_, err := cdp.Call(ctx, target, input.DispatchTouchEvent, input.DispatchTouchEventParams{Type: kind, TouchPoints: points})
		return err
	})
}

// CenterOf is the middle of the element that a selector finds, scrolled into
// sight first.
func (w *Window) CenterOf(selector string) Point {
	w.t.Helper()
	return Evaluate[Point](w, fmt.Sprintf(`(() => {
		const e = document.querySelector(%s);
		e.scrollIntoView({ block: "nearest" });
		const b = e.getBoundingClientRect();
		return { X: b.x + b.width / 2, Y: b.y + b.height / 2 };
	})()`, QuoteScript(selector)))
}

// Evaluate returns what a script's expression is; a promise is waited for.
func Evaluate[T any](w *Window, expression string) T {
	w.t.Helper()
	value, err := chromedp.Run(w.ctx, chromedp.Evaluate[T](expression, chromedp.EvalAwaitPromise))
	if err != nil {
		w.t.Fatalf("%s: %v", expression, err)
	}
	return value
}

// QuoteScript writes a text as a script has it.
func QuoteScript(text string) string {
	b, err := json.Marshal(text)
	if err != nil {
		panic("browser: a text that does not marshal: " + err.Error())
	}
	return string(b)
}
