package exchange_test

import (
	"net/http"
	"strings"
	"testing"

	"breakwright/internal/store/storetest"
	"breakwright/web/browser"
	"breakwright/web/webtest"

	"github.com/chromedp/chromedp"
)

// furnished has a job of every kind, and names that are hard on a narrow page.
func furnished(t *testing.T) (s *webtest.Site, pages map[string]string) {
	t.Helper()
	s = webtest.New(t)
	busy(t, s)
	coach := s.CoachIn(t)
	long := strings.Repeat("W", 100)
	done := confirm(t, coach, send(t, coach, header("Odile,a1,1,-18,25,,\"1,40\",", long+",a1,1,-18,25,,\"1,40\","))).Path
	clash := send(t, coach, header("Odile,a1,1,-18,25,,\"2,40\",", "Newcomer,a1,1,-18,25,,\"1,40\",")).Status(t, http.StatusOK).Path
	preview := send(t, coach, header("Odile,a9,1,-18,25,,\"2,40\",", long+"V,a1,1,-18,25,,\"1,40\",")).Status(t, http.StatusOK).Path
	out := coach.Post(t, "/export", coach.Get(t, "/records").Form(t, "form[action='/export']")).Path
	settle(t, coach, out)
	return s, map[string]string{"records": "/records", "done": done, "clash": clash, "preview": preview, "out": out}
}

// The pages are within reach of everybody, by day and by night, and none is
// wider than the window.
func TestPagesInTheBrowser(t *testing.T) {
	s, pages := furnished(t)
	for _, size := range []browser.Size{browser.Phone, browser.Laptop} {
		w := browser.Open(t, size)
		w.SignIn(s.URL, s.Login, storetest.Passphrase)
		for name, path := range pages {
			w.ByDayAndNight(s.URL+path, "exchange-"+name)
		}
	}
}

// From the file to the end of the work, the page itself finds out that it is
// over.
func TestImportInTheBrowser(t *testing.T) {
	s := bareSite(t)
	coach := s.CoachIn(t)
	preview := upload(t, coach, "018f0000-0000-7000-8000-000000000001", "years.csv", years(t, 10, 50))
	w := browser.Open(t, browser.Laptop)
	w.SignIn(s.URL, s.Login, storetest.Passphrase)
	w.Go(s.URL + preview.Path)
	w.Follow(chromedp.Click(chromedp.CSS("form:has(.plan) button:not(.quiet)")))
	w.Picture("exchange-at-work")
	w.Wait("document.querySelector('#job .answer')?.textContent.includes('Taken over: 5,000 breaks in 500 sets')")
	w.Axe(t)
}
