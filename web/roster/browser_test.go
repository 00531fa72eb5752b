//go:build !quick

package roster_test

import (
	"strings"
	"testing"

	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"

	"breakwright/internal/store/storetest"
	"breakwright/internal/table"
	"breakwright/web/browser"
)

// busySite has everything that the pages show, with names that are hard on a
// narrow page.
func busySite(t *testing.T) *site {
	t.Helper()
	s := newSite(t)
	s.add(t, made("names", "Theodora Constantinopoulou-Fotheringham of the Harbour, r\n"+strings.Repeat("W", 120)))
	s.post(t, "/tables", made("name", "Bar box", "venue", "The Anchor", "feet", "7", "corner", "4,25"))
	s.join(t, 0)
	odile := s.Scene.StudentActor(0)
	s.CloseSet(t, odile, s.RecordBreaks(t, odile, 4), s.Drill.Setup.Cue.X+2)
	s.RecordBreaks(t, odile, 2)
	return s
}

// The pages are within reach of everybody, by day and by night, and none is
// wider than the window.
func TestPagesInTheBrowser(t *testing.T) {
	s := busySite(t)
	for _, size := range []browser.Size{browser.Phone, browser.Laptop} {
		w := browser.OpenWindow(t, size)
		w.SignIn(s.URL, s.Login, storetest.Passphrase)
		for name, path := range map[string]string{
			"classes": "/classes", "class": s.class(), "codes": s.class() + "/codes?all=1", "archive": s.class() + "/archive", "students": "/students",
			"student": s.student(0), "new-student": s.student(2), "code": s.student(0) + "/code",
			"tables": "/tables", "table": s.table(),
		} {
			w.CheckLightAndDark(s.URL+path, name)
		}
	}
}

// A side is set by keyboard in the row: the page stays, and so does the focus,
// so that the next one is a few keys away.
func TestSideByKeyboard(t *testing.T) {
	s := newSite(t)
	w := browser.OpenWindow(t, browser.Laptop)
	w.SignIn(s.URL, s.Login, storetest.Passphrase)
	w.Navigate(s.URL + s.class())
	button := "#side-" + s.Students[0].ID.String() + "-R"
	place := "document.querySelector('" + button + "').getBoundingClientRect().x"
	before := browser.Evaluate[float64](w, place)
	w.RunActions(
		chromedp.Evaluate[chromedp.Void]("window.stayed = true; void 0"),
		chromedp.Focus(chromedp.CSS(button)),
		chromedp.KeyEvent(kb.Enter),
	)
	w.WaitFor("document.querySelector('" + button + "').getAttribute('aria-pressed') == 'true'")
	if !browser.Evaluate[bool](w, "window.stayed === true && document.activeElement.matches('"+button+"')") {
		t.Error("the page was loaded anew, or the focus was lost")
	}
	if got := s.side(t, 0); got != table.Right {
		t.Errorf("side %q", got)
	}
	if after := browser.Evaluate[float64](w, place); after != before {
		t.Errorf("with the undo beside them the buttons of the row moved from %g to %g", before, after)
	}
	w.RunActions(chromedp.Focus(chromedp.CSS(".roster .undo button")))
	w.RunToNextPage(chromedp.KeyEvent(kb.Enter))
	if got := s.side(t, 0); got != table.Left {
		t.Errorf("undone, the side is %q", got)
	}
}
