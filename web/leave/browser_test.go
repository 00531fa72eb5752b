//go:build !quick

package leave_test

import (
	"regexp"
	"testing"

	"github.com/chromedp/cdproto/page"

	"breakwright/internal/store"
	"breakwright/internal/store/storetest"
	"breakwright/web/browser"
	"breakwright/web/webtest"
)

var onePage = regexp.MustCompile(`/Type\s*/Page\b[^s]`)

// The page and the pictures of a set, on a phone and a laptop, by day and by night,
// and on paper: nothing is wider than the window, and axe finds nothing.
func TestLeave_IsSeen(t *testing.T) {
	site := webtest.New(t)
	odile := site.StudentActor(0)
	var last store.SetID
	for range 3 {
		last = site.RecordBreaks(t, odile, 10)
		site.CloseSet(t, odile, last, 0)
	}
	site.SignInStudent(t, site.Students[0]) // joins with their PIN
	phone := browser.OpenWindow(t, browser.Phone)
	phone.SignIn(site.URL, site.Students[0].Code, webtest.PIN)
	laptop := browser.OpenWindow(t, browser.Laptop)
	laptop.SignIn(site.URL, site.Login, storetest.Passphrase)
	student := "/students/" + odile.Person.String()
	for _, c := range []struct {
		w    *browser.Window
		path string
		name string
	}{{phone, "/my/leave", "own-leave"}, {phone, "/my/sets/" + last.String(), "own-set-leaves"}, {phone, "/my/progress", "own-progress-leave"},
		{laptop, student + "/leave", "student-leave"}, {laptop, "/sets/" + last.String(), "set-leaves"}, {laptop, student, "student-share"}} {
		c.w.CheckLightAndDark(site.URL+c.path, c.name)
	}
	laptop.Navigate(site.URL + student + "/leave")
	printed := laptop.PrintPDF(func(*page.PrintToPDFParams) {}) // on Letter
	laptop.SaveFile("student-leave.pdf", printed)
	if sheets := len(onePage.FindAll(printed, -1)); sheets != 1 {
		t.Errorf("it takes %d sheets", sheets)
	}
	if n := browser.Evaluate[int](laptop, "document.querySelectorAll('#shot-map rect').length"); n < 60 {
		t.Errorf("the map has %d cells", n)
	}
}
