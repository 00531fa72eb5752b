package paper_test

import (
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"breakwright/internal/store"
	"breakwright/internal/store/storetest"
	"breakwright/web/browser"
	"breakwright/web/webtest"

	"github.com/chromedp/cdproto/page"
	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"
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
	s.Assignment, err = s.Store.Assign(t.Context(), s.Coach, store.Assignment{Drill: drill.ID, Class: s.Class, Note: strings.Repeat("Take your time. ", 120)})
	if err != nil {
		t.Fatal(err)
	}
	set := s.Record(t, s.Student(0), 10)
	s.Close(t, s.Student(0), set, -15)
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
		w := browser.Open(t, size)
		w.SignIn(s.URL, s.Login, storetest.Passphrase)
		for name, path := range pages(s) {
			for _, dark := range []bool{false, true} {
				w.Dark(dark)
				w.Go(s.URL + path)
				w.Axe(t)
				w.Picture(fmt.Sprintf("%s-%d-%v", name, size.Width, dark))
				if !isTrue(t, w, fmt.Sprintf("document.documentElement.scrollWidth <= %d", size.Width)) {
					t.Errorf("%s is wider than %d px", path, size.Width)
				}
			}
		}
	}
}

func isTrue(t *testing.T, w *browser.Window, expression string) bool {
	t.Helper()
	yes, err := chromedp.Run(w.Context(), chromedp.Evaluate[bool](expression))
	if err != nil {
		t.Fatal(err)
	}
	return yes
}

// A sheet is one page of paper, A4 or Letter, whoever's name is on it.
func TestSheetsOnPaper(t *testing.T) {
	s := printedSite(t)
	w := browser.Open(t, browser.Laptop)
	w.SignIn(s.URL, s.Login, storetest.Passphrase)
	all := pages(s)
	all["sheets"] = assignmentSheet(s, "")
	for paper, inches := range map[string][2]float64{"a4": {8.27, 11.69}, "letter": {8.5, 11}} {
		for name, want := range map[string]int{"sheets": 4, "sheet": 1, "card": 1} {
			w.Go(s.URL + all[name])
			printed := print(t, w, inches[0], inches[1])
			keep(t, name+"-"+paper+".pdf", printed)
			if got := len(onePage.FindAll(printed, -1)); got != want {
				t.Errorf("%s on %s takes %d pages, want %d", name, paper, got, want)
			}
		}
	}
}

var onePage = regexp.MustCompile(`/Type\s*/Page\b[^s]`)

func print(t *testing.T, w *browser.Window, width, height float64) []byte {
	t.Helper()
	printed, err := chromedp.Run(w.Context(), chromedp.PrintToPDF(func(p *page.PrintToPDFParams) {
		p.PaperWidth, p.PaperHeight, p.PrintBackground = width, height, new(true)
	}))
	if err != nil {
		t.Fatal(err)
	}
	return printed
}

// keep keeps a printed page in the folder that LOOK names, to be looked at.
func keep(t *testing.T, name string, printed []byte) {
	t.Helper()
	dir := os.Getenv("LOOK")
	if dir == "" {
		return
	}
	if err := os.WriteFile(filepath.Join(dir, name), printed, 0o644); err != nil {
		t.Fatal(err)
	}
}

// Ten breaks by keyboard alone: Enter goes from line to line, each is read back
// at once, and the last Enter but one is on the button.
func TestTypingByKeyboard(t *testing.T) {
	s := webtest.New(t)
	w := browser.Open(t, browser.Laptop)
	w.SignIn(s.URL, s.Login, storetest.Passphrase)
	w.Go(s.URL + typePath(s, 0))
	w.Wait("document.activeElement.id == 'line_1'")
	w.Do(chromedp.KeyEvent("1 c99"), chromedp.KeyEvent(kb.Enter))
	w.Wait("document.getElementById('says-1').matches('.error') && document.getElementById('line_1').getAttribute('aria-invalid') == 'true'")
	w.Do(chromedp.Focus(chromedp.CSS("#line_1")), chromedp.Evaluate[chromedp.Void]("document.activeElement.select(); void 0"))
	keys := 0
	for _, line := range ten {
		w.Do(chromedp.KeyEvent(line), chromedp.KeyEvent(kb.Enter))
		keys += len(line) + 1
	}
	t.Logf("%d keys for ten breaks", keys)
	w.Wait("document.activeElement.id == 'save' && [...document.querySelectorAll('.typed p')].every((p) => p.textContent && !p.matches('.error'))")
	w.Follow(chromedp.KeyEvent(kb.Enter))
	w.Wait("document.querySelector('.notice')?.textContent.includes('10 breaks of Odile typed in')")
}
