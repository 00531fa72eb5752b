package browser

import (
	"context"
	"net/http"
	"time"

	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/cdproto/network"
	"github.com/chromedp/cdproto/page"
	"github.com/chromedp/chromedp"
)

// SetOffline takes the network away, from service workers too, or gives it back;
// the page is told so.
func (w *Window) SetOffline(offline bool) {
	w.t.Helper()
	conditions := []*network.Conditions{}
	if offline {
		conditions = append(conditions, &network.Conditions{DownloadThroughput: -1, UploadThroughput: -1, Offline: true})
	}
	w.RunActions(
		runCommand(network.Enable, network.EnableParams{}),
		runCommand(network.EmulateNetworkConditionsByRule, network.EmulateNetworkConditionsByRuleParams{
			EmulateOfflineServiceWorker: &offline, MatchedNetworkConditions: conditions,
		}),
		runCommand(network.OverrideNetworkState, network.OverrideNetworkStateParams{Offline: offline, DownloadThroughput: -1, UploadThroughput: -1}),
	)
}

// EmulateSlowPhone is a poor phone on a slow network: 400 kbit/s, 400 ms for each answer, a
// processor at a quarter of its speed.
func (w *Window) EmulateSlowPhone() {
	w.t.Helper()
	const bytesPerSecond = 400_000 / 8
	w.RunActions(
		runCommand(network.Enable, network.EnableParams{}),
		runCommand(network.EmulateNetworkConditionsByRule, network.EmulateNetworkConditionsByRuleParams{
			MatchedNetworkConditions: []*network.Conditions{{Latency: 400, DownloadThroughput: bytesPerSecond, UploadThroughput: bytesPerSecond}},
		}),
		runCommand(emulation.SetCPUThrottlingRate, emulation.SetCPUThrottlingRateParams{Rate: 4}),
	)
}

// WithoutScripts shows pages to somebody whose browser runs none.
func (w *Window) WithoutScripts() {
	w.t.Helper()
	w.RunActions(runCommand(emulation.SetScriptExecutionDisabled, emulation.SetScriptExecutionDisabledParams{Value: true}))
}

// RunOnEveryPage runs a script at the beginning of every page to come.
func (w *Window) RunOnEveryPage(script string) {
	w.t.Helper()
	w.RunActions(runCommand(page.AddScriptToEvaluateOnNewDocument, page.AddScriptToEvaluateOnNewDocumentParams{Source: script}))
}

// UseCookies makes the browser that of somebody who signed in to a site elsewhere.
func (w *Window) UseCookies(site string, cookies []*http.Cookie) {
	w.t.Helper()
	for _, c := range cookies {
		w.RunActions(runCommand(network.SetCookie, network.SetCookieParams{Name: c.Name, Value: c.Value, URL: site}))
	}
}

// ClearCookies ends every session of this browser, as time does.
func (w *Window) ClearCookies() {
	w.t.Helper()
	w.RunActions(runCommand(network.ClearBrowserCookies, cdp.Empty{}))
}

// CrashPage ends the page as a phone that is short of memory does: at once, without
// a word to it. What the browser has on the disk stays; a new, empty page takes
// its place.
func (w *Window) CrashPage() {
	w.t.Helper()
	dying, end := context.WithTimeout(w.ctx, 500*time.Millisecond)
	defer end()
	// Nobody is left to answer.
	_ = chromedp.Do(dying, runCommand(page.Crash, cdp.Empty{}))
	w.OpenNewPage()
}

// OpenNewPage opens one more page in the same browser and goes on with it.
func (w *Window) OpenNewPage() {
	w.t.Helper()
	ctx, end := chromedp.NewContext(w.ctx)
	w.t.Cleanup(end)
	w.ctx = ctx
	w.emulate()
}

// Tab is one page of a browser that has several.
type Tab struct{ ctx context.Context }

// CurrentTab returns the page that is being gone on with, to come back to.
func (w *Window) CurrentTab() Tab { return Tab{w.ctx} }

// ShowTab goes on with a page that was opened before, as it stands, in front of
// the others.
func (w *Window) ShowTab(tab Tab) {
	w.t.Helper()
	w.ctx = tab.ctx
	w.RunActions(runCommand(page.BringToFront, cdp.Empty{}))
}

// ClearStorage empties the browser's caches and databases and ends its service
// workers, as if the site had never been seen; cookies stay.
func (w *Window) ClearStorage() {
	w.t.Helper()
	Evaluate[bool](w, `Promise.all([
		navigator.serviceWorker.getRegistrations().then((all) => Promise.all(all.map((r) => r.unregister()))),
		indexedDB.databases().then((all) => all.forEach(({ name }) => indexedDB.deleteDatabase(name))),
		caches.keys().then((all) => Promise.all(all.map((name) => caches.delete(name)))),
	]).then(() => true)`)
	w.Navigate("about:blank")
	w.RunActions(runCommand(network.ClearBrowserCache, cdp.Empty{}))
}

// ReduceMotion asks for no motion.
func (w *Window) ReduceMotion() {
	w.t.Helper()
	w.RunActions(runCommand(emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{
		Features: []*emulation.MediaFeature{{Name: "prefers-reduced-motion", Value: "reduce"}},
	}))
}

// Address is that of the page; it can be asked where no script runs.
func (w *Window) Address() string {
	w.t.Helper()
	address, err := chromedp.Run(w.ctx, chromedp.Location())
	if err != nil {
		w.t.Fatal(err)
	}
	return address
}

// WaitForAddress waits for the page whose address is right.
func (w *Window) WaitForAddress(right func(address string) bool) {
	w.t.Helper()
	for end := time.Now().Add(10 * time.Second); !right(w.Address()); time.Sleep(20 * time.Millisecond) {
		if time.Now().After(end) {
			w.t.Fatalf("still at %s", w.Address())
		}
	}
}

// ListInstallErrors lists why the browser would not install the page like a
// program of its own.
func (w *Window) ListInstallErrors() []string {
	w.t.Helper()
	wrong := []string{}
	w.RunActions(chromedp.Func(func(ctx context.Context, target *chromedp.Target) error {
		found, err := cdp.Call(ctx, target, page.GetInstallabilityErrors, cdp.Empty{})
		for _, e := range found.InstallabilityErrors {
			wrong = append(wrong, e.ErrorID)
		}
		return err
	}))
	return wrong
}
