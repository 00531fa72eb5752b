package browser

import (
	"context"
	"encoding/json"
	"fmt"

	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/input"
	"github.com/chromedp/chromedp"
)

// Spot is a place in the window, in CSS pixels from its top left corner.
type Spot struct{ X, Y float64 }

// Tap touches a place and lets go, as a quick finger does.
func (w *Window) Tap(at Spot) {
	w.t.Helper()
	w.Do(touch(input.DispatchTouchEventTypeTouchStart, &at), touch(input.DispatchTouchEventTypeTouchEnd, nil))
}

// Drag puts a finger down, moves it over the places, and lets go.
func (w *Window) Drag(way ...Spot) {
	w.t.Helper()
	w.Press(way...)
	w.Do(touch(input.DispatchTouchEventTypeTouchEnd, nil))
}

// Press is Drag without letting go.
func (w *Window) Press(way ...Spot) {
	w.t.Helper()
	w.Do(touch(input.DispatchTouchEventTypeTouchStart, &way[0]))
	for _, at := range way[1:] {
		w.Do(touch(input.DispatchTouchEventTypeTouchMove, &at))
	}
}

func touch(kind input.DispatchTouchEventType, at *Spot) chromedp.Action[chromedp.Void] {
	points := []*input.TouchPoint{}
	if at != nil {
		points = append(points, &input.TouchPoint{X: at.X, Y: at.Y})
	}
	return chromedp.Func(func(ctx context.Context, target *chromedp.Target) error {
		_, err := cdp.Call(ctx, target, input.DispatchTouchEvent, input.DispatchTouchEventParams{Type: kind, TouchPoints: points})
		return err
	})
}

// Middle is the middle of the element that a selector finds, scrolled into
// sight first.
func (w *Window) Middle(selector string) Spot {
	w.t.Helper()
	return Value[Spot](w, fmt.Sprintf(`(() => {
		const e = document.querySelector(%s);
		e.scrollIntoView({ block: "nearest" });
		const b = e.getBoundingClientRect();
		return { X: b.x + b.width / 2, Y: b.y + b.height / 2 };
	})()`, Quote(selector)))
}

// Value gives what a script's expression is; a promise is waited for.
func Value[T any](w *Window, expression string) T {
	w.t.Helper()
	value, err := chromedp.Run(w.ctx, chromedp.Evaluate[T](expression, chromedp.EvalAwaitPromise))
	if err != nil {
		w.t.Fatalf("%s: %v", expression, err)
	}
	return value
}

// Quote writes a text as a script has it.
func Quote(text string) string {
	b, err := json.Marshal(text)
	if err != nil {
		panic("browser: a text that does not marshal: " + err.Error())
	}
	return string(b)
}
