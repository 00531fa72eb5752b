package browser

import (
	"fmt"
	"os"
	"path/filepath"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/cdproto/page"
	"github.com/chromedp/chromedp"
)

// CheckLightAndDark opens an address in light and makes it dark. It is within reach
// of everybody in both (see CheckAccessibility) and no wider than the window, what is
// chosen in its fields is read whole, and both are kept as pictures (see
// SaveScreenshot). What is not a matter of colours is looked for in light alone.
func (w *Window) CheckLightAndDark(address, name string) {
	w.t.Helper()
	name = fmt.Sprintf("%s-%d", name, w.size.Width)
	w.SetDark(false)
	w.Navigate(address)
	w.CheckAccessibility(w.t)
	w.keepIfNarrow(address, name)
	if cut := Evaluate[[]string](w, findCutSelects); len(cut) > 0 {
		w.t.Errorf("%s: not all of what is chosen is read in %q", address, cut)
	}
	w.SetDark(true)
	w.checkRules(w.t, colourRules)
	w.keepIfNarrow(address, name+"-dark")
}

// findCutSelects lists the fields to choose from whose choice is wider than they are,
// where they do not break it into lines. An arrow stands beside the words.
const findCutSelects = `[...document.querySelectorAll("select")].filter((field) => {
  const style = getComputedStyle(field), pen = document.createElement("canvas").getContext("2d");
  pen.font = style.font;
  const room = field.clientWidth - parseFloat(style.paddingLeft) - parseFloat(style.paddingRight) - 16;
  return field.clientWidth > 0 && style.whiteSpace != "normal" && pen.measureText(field.selectedOptions[0]?.text ?? "").width > room;
}).map((field) => field.id)`

// keepIfNarrow keeps a picture of the page and fails the test when it is wider than the
// window.
func (w *Window) keepIfNarrow(address, name string) {
	w.t.Helper()
	w.SaveScreenshot(name)
	// A phone's window grows with a page that is too wide, so innerWidth tells nothing.
	if !Evaluate[bool](w, fmt.Sprintf("document.documentElement.scrollWidth <= %d", w.size.Width)) {
		w.t.Errorf("%s is wider than %d px", address, w.size.Width)
	}
}

// SetDark asks for dark or light pages.
func (w *Window) SetDark(dark bool) {
	w.t.Helper()
	scheme := "light"
	if dark {
		scheme = "dark"
	}
	w.RunActions(runCommand(emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{
		Features: []*emulation.MediaFeature{{Name: "prefers-color-scheme", Value: scheme}},
	}))
}

// screenshotDir is the folder that LOOK names for what somebody wants to look at, ""
// for none.
func screenshotDir() string { return os.Getenv("LOOK") }

// SaveScreenshot keeps a picture of the whole page in the folder that LOOK names, so
// that somebody can look at it; without LOOK it does nothing.
func (w *Window) SaveScreenshot(name string) {
	w.t.Helper()
	if screenshotDir() == "" {
		return
	}
	png, err := chromedp.Run(w.ctx, chromedp.FullScreenshot(100))
	if err != nil {
		w.t.Fatal(err)
	}
	w.SaveFile(name+".png", png)
}

// SaveFile keeps a file in the folder that LOOK names; without LOOK it does nothing.
func (w *Window) SaveFile(name string, data []byte) {
	w.t.Helper()
	dir := screenshotDir()
	if dir == "" {
		return
	}
	if err := os.MkdirAll(dir, 0o755); err != nil {
		w.t.Fatal(err)
	}
	if err := os.WriteFile(filepath.Join(dir, name), data, 0o644); err != nil {
		w.t.Fatal(err)
	}
}

// PrintPDF returns the page as it comes out of a printer, as a PDF.
func (w *Window) PrintPDF(settings func(*page.PrintToPDFParams)) []byte {
	w.t.Helper()
	printed, err := chromedp.Run(w.ctx, chromedp.PrintToPDF(settings))
	if err != nil {
		w.t.Fatal(err)
	}
	return printed
}
