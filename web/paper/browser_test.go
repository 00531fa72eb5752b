//go:build !quick

package paper_test

import (
	"regexp"
	"strings"
	"testing"

	"github.com/chromedp/cdproto/page"
	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"

	"breakwright/internal/store"
	"breakwright/internal/store/storetest"
	"breakwright/web/browser"
	"breakwright/web/webtest"
)

// printedSite has a hostile name, a drill of many words and a card.
func printedSite(t *testing.T) *webtest.Site {
	t.Helper()
	s := webtest.New(t)
	hostile(t, s)
	wordy := s.Drill.Drill
	wordy.Name, wordy.Watch = strings.Repeat("Long names ", 10), strings.Repeat("watch and wonder, ", 27)
	drill, err := s.Store.SaveDrill(t.Context(), s.Coach, store.DrillID{}, wordy)
	if err != nil {
		t.Fatal(err)
	}
	s.Assignment, err = s.Store.AssignDrill(t.Context(), s.Coach, store.Assignment{Drill: drill.ID, Class: s.Class, Note: strings.Repeat("Take your time. ", 120)})
	if err != nil {
		t.Fatal(err)
	}
	set := s.RecordBreaks(t, s.StudentActor(0), 10)
	s.CloseSet(t, s.StudentActor(0), set, -15)
	if err := s.Store.IssueCard(t.Context(), s.Coach, store.CardID{}, set); err != nil {
		t.Fatal(err)
	}
	return s
}

func pages(s *webtest.Site) map[string]string {
	return map[string]string{
		"named": assignmentSheet(s, "?for="+s.Students[1].ID.String()), "sheet": "/drills/" + s.Drill.ID.String() + "/sheet",
		"type": typePath(s, 0), "card": "/students/" + s.Students[0].ID.String() + "/card",
		"no-card": "/students/" + s.Students[1].ID.String() + "/card", "library": "/drills/library",
	}
}

// The pages are within reach of everybody, by day and by night, and none is
// wider than the window.
func TestPagesInTheBrowser(t *testing.T) {
	s := printedSite(t)
	for _, size := range []browser.Size{browser.Phone, browser.Laptop} {
		w := browser.OpenWindow(t, size)
		w.SignIn(s.URL, s.Login, storetest.Passphrase)
		for name, path := range pages(s) {
			w.CheckLightAndDark(s.URL+path, name)
		}
	}
}

// A sheet is one page of paper, A4 or Letter, whoever's name is on it.
func TestSheetsOnPaper(t *testing.T) {
	s := printedSite(t)
	w := browser.OpenWindow(t, browser.Laptop)
	w.SignIn(s.URL, s.Login, storetest.Passphrase)
	all := pages(s)
	all["sheets"] = assignmentSheet(s, "")
	for paper, inches := range map[string][2]float64{"a4": {8.27, 11.69}, "letter": {8.5, 11}} {
		for name, want := range map[string]int{"sheets": 4, "sheet": 1, "card": 1} {
			w.Navigate(s.URL + all[name])
			printed := w.PrintPDF(func(p *page.PrintToPDFParams) {
				p.PaperWidth, p.PaperHeight, p.PrintBackground = inches[0], inches[1], new(true)
			})
			w.SaveFile(name+"-"+paper+".pdf", printed)
			if got := len(onePage.FindAll(printed, -1)); got != want {
				t.Errorf("%s on %s takes %d pages, want %d", name, paper, got, want)
			}
		}
	}
}

// A student without a card prints words instead of an empty sheet.
func TestNoCardOnPaper(t *testing.T) {
	s := printedSite(t)
	w := browser.OpenWindow(t, browser.Laptop)
	w.SignIn(s.URL, s.Login, storetest.Passphrase)
	w.Navigate(s.URL + pages(s)["no-card"])
	if printed := w.ReadPrinted(); !strings.Contains(printed, "Bram has no break card yet.") {
		t.Errorf("printed: %s", printed)
	}
}

var onePage = regexp.MustCompile(`/Type\s*/Page\b[^s]`)

// Ten breaks by keyboard alone: Enter goes from line to line, each is read back
// at once, and the last Enter but one is on the button.
func TestTypingByKeyboard(t *testing.T) {
	s := webtest.New(t)
	w := browser.OpenWindow(t, browser.Laptop)
	w.SignIn(s.URL, s.Login, storetest.Passphrase)
	w.Navigate(s.URL + typePath(s, 0))
	w.WaitFor("document.activeElement.id == 'line_1'")
	w.RunActions(chromedp.KeyEvent("1 c99"), chromedp.KeyEvent(kb.Enter))
	w.WaitFor("document.getElementById('says-1').matches('.error') && document.getElementById('line_1').getAttribute('aria-invalid') == 'true'")
	w.RunActions(chromedp.Focus(chromedp.CSS("#line_1")), chromedp.Evaluate[chromedp.Void]("document.activeElement.select(); void 0"))
	keys := 0
	for _, line := range ten {
		w.RunActions(chromedp.KeyEvent(line), chromedp.KeyEvent(kb.Enter))
		keys += len(line) + 1
	}
	t.Logf("%d keys for ten breaks", keys)
	w.WaitFor("document.activeElement.id == 'save' && [...document.querySelectorAll('.typed p')].every((p) => p.textContent && !p.matches('.error'))")
	w.RunToNextPage(chromedp.KeyEvent(kb.Enter))
	w.WaitFor("document.querySelector('.notice')?.textContent.includes('10 breaks of Odile typed in')")
}
