//go:build !quick

package exchange_test

import (
	"net/http"
	"strings"
	"testing"

	"github.com/chromedp/chromedp"

	"breakwright/internal/store/storetest"
	"breakwright/web/browser"
	"breakwright/web/webtest"
)

// furnished has a job of every kind, and names that are hard on a narrow page.
func furnished(t *testing.T) (s *webtest.Site, pages map[string]string) {
	t.Helper()
	s = webtest.New(t)
	busy(t, s)
	coach := s.SignInCoach(t)
	long := strings.Repeat("W", 100)
	done := confirm(t, coach, send(t, coach, header("Odile,a1,1,-18,25,,\"1,40\",", long+",a1,1,-18,25,,\"1,40\","))).Path
	clash := send(t, coach, header("Odile,a1,1,-18,25,,\"2,40\",", "Newcomer,a1,1,-18,25,,\"1,40\",")).RequireStatus(t, http.StatusOK).Path
	preview := send(t, coach, header("Odile,a9,1,-18,25,,\"2,40\",", long+"V,a1,1,-18,25,,\"1,40\",")).RequireStatus(t, http.StatusOK).Path
	out := coach.Post(t, "/export", coach.Get(t, "/records").FormValues(t, "form[action='/export']")).Path
	settle(t, coach, out)
	return s, map[string]string{"records": "/records", "done": done, "clash": clash, "preview": preview, "out": out}
}

// The pages are within reach of everybody, by day and by night, and none is
// wider than the window.
func TestPagesInTheBrowser(t *testing.T) {
	s, pages := furnished(t)
	for _, size := range []browser.Size{browser.Phone, browser.Laptop} {
		w := browser.OpenWindow(t, size)
		w.SignIn(s.URL, s.Login, storetest.Passphrase)
		for name, path := range pages {
			w.CheckLightAndDark(s.URL+path, "exchange-"+name)
		}
	}
}

// From the file to the end of the work, the page itself finds out that it is
// over.
func TestImportInTheBrowser(t *testing.T) {
	s := bareSite(t)
	coach := s.SignInCoach(t)
	preview := upload(t, coach, "018f0000-0000-7000-8000-000000000001", "years.csv", years(t, 10, 50))
	w := browser.OpenWindow(t, browser.Laptop)
	w.SignIn(s.URL, s.Login, storetest.Passphrase)
	w.Navigate(s.URL + preview.Path)
	w.RunToNextPage(chromedp.Click(chromedp.CSS("form:has(.plan) button:not(.quiet)")))
	w.SaveScreenshot("exchange-at-work")
	w.WaitFor("document.querySelector('#job .answer')?.textContent.includes('Taken over: 5,000 breaks in 500 sets')")
	w.CheckAccessibility(t)
}
