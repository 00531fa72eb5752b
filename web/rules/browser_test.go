//go:build !quick

package rules_test

import (
	"net/http"
	"testing"

	"github.com/chromedp/chromedp"

	"breakwright/internal/store/storetest"
	"breakwright/web/browser"
)

// The pages are within reach of everybody, by day and by night, and none is
// wider than the window.
func TestPagesInTheBrowser(t *testing.T) {
	s := newSite(t)
	for i := range 3 {
		s.record(t, s.StudentActor(0), 3, 0)
		s.record(t, s.StudentActor(1), 4+i, 2)
	}
	s.coach.Post(t, "/rules", s.typed(t, balance, "line", "65", "min_breaks", "10")).RequireStatus(t, http.StatusOK)
	s.coach.Post(t, "/rules", s.typed(t, "/rules/change?rule=dry-break", "on", "off")).RequireStatus(t, http.StatusOK)
	for _, size := range []browser.Size{browser.Phone, browser.Laptop} {
		w := browser.OpenWindow(t, size)
		w.SignIn(s.URL, s.Login, storetest.Passphrase)
		look := func(name string) {
			t.Helper()
			for _, dark := range []bool{false, true} {
				w.SetDark(dark)
				w.CheckAccessibility(t)
				w.SaveScreenshot(pictureName(name, size, dark))
			}
			if !browser.Evaluate[bool](w, "document.documentElement.scrollWidth <= innerWidth") {
				t.Errorf("%s is wider than %d px", name, size.Width)
			}
		}
		for name, path := range map[string]string{"list": "/rules", "change": balance, "safety": "/rules/change?rule=balls-off-table"} {
			w.Navigate(s.URL + path)
			look(name)
		}
		for name, line := range map[string]string{"tried": "85", "refused": "850"} {
			w.Navigate(s.URL + balance)
			w.RunToNextPage(chromedp.SetValue(chromedp.CSS("#line"), line), chromedp.Click(chromedp.CSS("button[formaction]")))
			look(name)
		}
	}
}

func pictureName(name string, size browser.Size, dark bool) string {
	if size.Phone {
		name += "-phone"
	}
	if dark {
		name += "-dark"
	}
	return name
}
