// Package browser drives real Chromium for tests: windows of a phone's or a
// laptop's size, steps as a person takes them, pictures of what is seen, and
// the axe-core accessibility check.
package browser

import (
	"context"
	"errors"
	"os"
	"os/exec"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/chromedp"
)

// Size is a window.
type Size struct {
	Width, Height int
	Phone         bool
}

// The sizes that pages are looked at in.
var (
	Phone      = Size{390, 844, true}
	SmallPhone = Size{360, 640, true}
	Laptop     = Size{1440, 900, false}
	OldLaptop  = Size{1024, 768, false}
)

// Window is a browser of its own, with its own cookies.
type Window struct {
	t    testing.TB
	ctx  context.Context
	size Size
}

// findChromium gives the browser's path. Without one the test fails: a page that
// nobody looked at is not tested.
func findChromium(t testing.TB) string {
	t.Helper()
	for _, name := range []string{os.Getenv("CHROMIUM"), "chromium", "chromium-browser", "google-chrome"} {
		if path, err := exec.LookPath(name); name != "" && err == nil {
			return path
		}
	}
	t.Fatal("no Chromium here: apt-get install chromium, or set CHROMIUM to its path")
	return ""
}

// OpenWindow starts a browser of that size; it ends with the test.
func OpenWindow(t testing.TB, size Size) *Window {
	t.Helper()
	options := append([]chromedp.ExecAllocatorOption{}, chromedp.DefaultExecAllocatorOptions[:]...)
	options = append(options, chromedp.ExecPath(findChromium(t)), chromedp.NoSandbox, chromedp.DisableGPU,
		chromedp.Flag("disable-quic", true), chromedp.Flag("disable-component-update", true),
		chromedp.Flag("disable-dev-shm-usage", true), chromedp.UserDataDir(t.TempDir()))
	allocator, endAllocator := chromedp.NewExecAllocator(context.Background(), options...)
	ctx, end := chromedp.NewContext(allocator, chromedp.WithErrorf(t.Logf))
	ctx, endTime := context.WithTimeout(ctx, 4*time.Minute)
	t.Cleanup(func() { endTime(); end(); endAllocator() })
	w := &Window{t: t, ctx: ctx, size: size}
	w.emulate()
	return w
}

// emulate gives the page the window's size.
func (w *Window) emulate() {
	w.t.Helper()
	options := []chromedp.EmulateViewportOption{}
	if w.size.Phone {
		options = append(options, chromedp.EmulateScale(2), chromedp.EmulateMobile, chromedp.EmulateTouch)
	}
	w.RunActions(chromedp.EmulateViewport(int64(w.size.Width), int64(w.size.Height), options...))
}

// Resize gives the window another size; the page stays.
func (w *Window) Resize(to Size) {
	w.t.Helper()
	w.size = to
	w.emulate()
}

// RunActions takes steps, or fails the test.
func (w *Window) RunActions(steps ...chromedp.Action[chromedp.Void]) {
	w.t.Helper()
	if err := chromedp.Do(w.ctx, steps...); err != nil {
		w.t.Fatal(err)
	}
}

// Navigate opens an address, and again where it did not come for nobody's fault: see
// mayComeNextTime.
func (w *Window) Navigate(address string) {
	w.t.Helper()
	err := w.navigateOnce(address)
	for tries := 1; tries < 3 && w.mayComeNextTime(err); tries++ {
		err = w.navigateOnce(address)
	}
	if err != nil {
		w.t.Fatal(err)
	}
}

func (w *Window) navigateOnce(address string) error {
	inTime, end := context.WithTimeout(w.ctx, waitLimit)
	defer end()
	return chromedp.Do(inTime, chromedp.Navigate(address))
}

// mayComeNextTime reports whether a page did not come for what a user would ask again for:
// the page before went elsewhere at the same moment, or the browser never said that it is
// there, as happens after a page was killed.
func (w *Window) mayComeNextTime(err error) bool {
	return err != nil && w.ctx.Err() == nil && (errors.Is(err, context.DeadlineExceeded) || strings.Contains(err.Error(), "net::ERR_ABORTED"))
}

// waitLimit is how long Wait waits: long, since two busy cores may be all there
// is.
const waitLimit = 40 * time.Second

// WaitFor waits until a script's expression, or what it promises, is true, over
// changes of the page too, or fails the test.
func (w *Window) WaitFor(expression string) {
	w.t.Helper()
	var last error
	for end := time.Now().Add(waitLimit); time.Now().Before(end); time.Sleep(20 * time.Millisecond) {
		var so bool
		// While a page is leaving there is nothing to ask; its successor answers.
		if so, last = chromedp.Run(w.ctx, chromedp.Evaluate[bool]("Promise.resolve("+expression+").then(Boolean)", chromedp.EvalAwaitPromise)); so {
			return
		}
	}
	w.t.Fatalf("waited in vain for %s (%v)", expression, last)
}

// RunToNextPage takes steps that lead to another page and waits until it is there.
func (w *Window) RunToNextPage(steps ...chromedp.Action[chromedp.Void]) {
	w.t.Helper()
	// A service worker may answer for the server, so the page is asked, not the
	// network: the next one has no mark.
	Evaluate[bool](w, "window.leaving = true")
	w.RunActions(steps...)
	w.WaitFor(`!window.leaving && document.readyState === "complete"`)
}

// SignIn signs somebody in through the sign-in page of a site.
func (w *Window) SignIn(site, who, secret string) {
	w.t.Helper()
	w.Navigate(site + "/sign-in")
	w.RunToNextPage(
		chromedp.SetValue(chromedp.CSS("#who"), who),
		chromedp.SetValue(chromedp.CSS("#secret"), secret),
		chromedp.Click(chromedp.CSS("main form button")),
	)
}

// Text returns what an element shows.
func (w *Window) Text(selector string) string {
	w.t.Helper()
	text, err := chromedp.Run(w.ctx, chromedp.Text(chromedp.CSS(selector)))
	if err != nil {
		w.t.Fatalf("read %s: %v", selector, err)
	}
	return text
}

// runCommand wraps a protocol command that gives nothing of use.
func runCommand[P, R any](command cdp.Command[P, R], params P) chromedp.Action[chromedp.Void] {
	return chromedp.Func(func(ctx context.Context, target *chromedp.Target) error {
		_, err := cdp.Call(ctx, target, command, params)
		return err
	})
}
