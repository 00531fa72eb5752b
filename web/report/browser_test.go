//go:build !quick

package report_test

import (
	"context"
	"fmt"
	"math"
	"regexp"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/cdproto/page"
	"github.com/chromedp/chromedp"
	"github.com/google/uuid"

	"breakwright/internal/store"
	"breakwright/internal/store/storetest"
	"breakwright/web/browser"
	"breakwright/web/webtest"
)

// long is a site with a class of so many, of whom twelve have broken for long; the
// first of them has a name that is hard on a narrow page, a card and a change
// that waits.
func long(t *testing.T, size int) (*webtest.Site, []store.Person) {
	t.Helper()
	site, students := webtest.NewWithHistory(t, storetest.SimulatedHistory{Students: 12, Sets: 60, Seed: 12, Until: time.Now()})
	ctx := t.Context()
	names := make([]store.NewStudent, size-len(students)-len(site.Students))
	for i := range names {
		names[i] = store.NewStudent{Name: fmt.Sprintf("🎱 <b>Student</b> %03d", i+13)}
	}
	if _, err := site.Store.AddStudents(ctx, site.Coach, uuid.Nil, site.Class, names); err != nil {
		t.Fatal(err)
	}
	if err := site.Store.RenamePerson(ctx, site.Coach, students[0].ID, strings.Repeat("Wolfeschlegelstein", 6)); err != nil {
		t.Fatal(err)
	}
	who := store.Actor{Club: site.Coach.Club, Person: students[0].ID, Role: store.Student}
	set := site.RecordBreaks(t, who, 10)
	site.CloseSet(t, who, set, -16)
	if err := site.Store.IssueCard(ctx, site.Coach, store.CardID{}, set); err != nil {
		t.Fatal(err)
	}
	return site, students
}

// The reports are within reach of everybody, by day and by night, and none is
// wider than the window.
func TestReportsInTheBrowser(t *testing.T) {
	site, students := long(t, 20) // every kind of row is there, and each row costs
	site.SignInStudent(t, students[1])
	for _, size := range []browser.Size{browser.Phone, browser.OldLaptop, browser.Laptop} {
		coach, student := browser.OpenWindow(t, size), browser.OpenWindow(t, size)
		coach.SignIn(site.URL, site.Login, storetest.Passphrase)
		student.SignIn(site.URL, students[1].Code, webtest.PIN)
		for name, page := range map[string]struct {
			w    *browser.Window
			path string
		}{
			"class": {coach, classReport(site)}, "student": {coach, studentReport(students[0])},
			"none": {coach, studentReport(site.Students[1])}, "mine": {student, "/my/report"},
		} {
			page.w.CheckLightAndDark(site.URL+page.path, "report-"+name)
		}
	}
}

// Each report comes out on the paper that was chosen, whatever is in the
// printer: a student's on at most two sheets, a class of 200 on as many as its
// rows need, and what is for the screen on none.
func TestReportsOnPaper(t *testing.T) {
	site, students := long(t, 200)
	w := browser.OpenWindow(t, browser.Laptop)
	w.SignIn(site.URL, site.Login, storetest.Passphrase)
	for paper, points := range map[string][2]float64{"a4": {595, 842}, "letter": {612, 792}} {
		for name, c := range map[string]struct {
			path        string
			least, most int
		}{
			"class": {classReport(site), 10, 16}, "student": {studentReport(students[0]), 2, 2},
			"other": {studentReport(students[1]), 2, 2}, "none": {studentReport(site.Students[1]), 1, 1},
		} {
			w.Navigate(site.URL + c.path + "?paper=" + paper)
			printed := w.PrintPDF(func(p *page.PrintToPDFParams) { p.PreferCSSPageSize = new(true) })
			w.SaveFile(name+"-"+paper+".pdf", printed)
			sizes := mediaBoxes(t, printed)
			if len(sizes) < c.least || len(sizes) > c.most {
				t.Errorf("%s on %s takes %d pages, want %d to %d", name, paper, len(sizes), c.least, c.most)
			}
			for _, size := range sizes {
				if math.Abs(size[0]-points[0]) > 1 || math.Abs(size[1]-points[1]) > 1 {
					t.Errorf("%s on %s is a page of %v points, want %v", name, paper, size, points)
				}
			}
		}
	}
}

// On paper the head of the report and that of its table come again on each page,
// no row is cut in two, and what is for the screen is gone.
func TestPaper_RepeatsHeadsAndCutsNoRow(t *testing.T) {
	site, students := long(t, 200)
	w := browser.OpenWindow(t, browser.Laptop)
	w.SignIn(site.URL, site.Login, storetest.Passphrase)
	w.RunActions(chromedp.Func(func(ctx context.Context, target *chromedp.Target) error {
		_, err := cdp.Call(ctx, target, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{Media: "print"})
		return err
	}))
	every := func(selector, property, want string) {
		t.Helper()
		if !browser.Evaluate[bool](w, fmt.Sprintf("(all => all.length > 0 && all.every(e => getComputedStyle(e)[%q] == %q))([...document.querySelectorAll(%q)])", property, want, selector)) {
			t.Errorf("not every %s has %s: %s", selector, property, want)
		}
	}
	for path, whole := range map[string][]string{
		classReport(site):          {".report-rows tbody tr", ".report-notes"},
		studentReport(students[0]): {".report-way > li", ".report-next", ".report-card", ".report-charts"},
	} {
		w.Navigate(site.URL + path)
		every(".report-controls, .top, body > footer", "display", "none")
		every(".report-running, .report-rows thead", "display", "table-header-group")
		every(".report-running", "breakInside", "avoid")
		every(".report h2", "breakAfter", "avoid")
		for _, selector := range whole {
			every(selector, "breakInside", "avoid")
		}
	}
}

var mediaBox = regexp.MustCompile(`/MediaBox\s*\[\s*0 0 ([0-9.]+) ([0-9.]+)\s*\]`)

// mediaBoxes are the sizes of a PDF's pages in points (1/72 inch).
func mediaBoxes(t *testing.T, pdf []byte) (sizes [][2]float64) {
	t.Helper()
	for _, m := range mediaBox.FindAllSubmatch(pdf, -1) {
		width, err := strconv.ParseFloat(string(m[1]), 64)
		if err != nil {
			t.Fatal(err)
		}
		height, err := strconv.ParseFloat(string(m[2]), 64)
		if err != nil {
			t.Fatal(err)
		}
		sizes = append(sizes, [2]float64{width, height})
	}
	return sizes
}
