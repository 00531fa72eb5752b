//go:build !quick

package leave_test

import (
	"regexp"
	"testing"

	"github.com/chromedp/cdproto/page"

	"breakwright/internal/drill"
	"breakwright/internal/store"
	"breakwright/internal/store/storetest"
	"breakwright/internal/table"
	"breakwright/web/browser"
	"breakwright/web/webtest"
)

var onePage = regexp.MustCompile(`/Type\s*/Page\b[^s]`)

// recordAllSeen closes a set of ten breaks of which everything was noted.
func recordAllSeen(t *testing.T, site *webtest.Site) store.SetID {
	t.Helper()
	odile := site.StudentActor(0)
	set := site.StartSet(t, odile)
	for i := range 10 {
		b := storetest.NewBreak(i + 1)
		b.Pocketed = append(b.Pocketed, drill.Pocketed{Ball: 5, Pocket: table.SideRight}, drill.Pocketed{Ball: 7, Pocket: table.HeadLeft})
		b.CuePath, b.Shot, b.Note = drill.PathForward, drill.ShotHard, "A gap behind the head ball; they stood closer than usual."
		if _, err := site.Store.SaveBreak(t.Context(), odile, set.ID, b); err != nil {
			t.Fatal(err)
		}
	}
	site.CloseSet(t, odile, set.ID, -15)
	return set.ID
}

// The page and the pictures of a set, on a phone and a laptop, by day and by night,
// and on paper: nothing is wider than the window, and axe finds nothing.
func TestLeave_IsSeen(t *testing.T) {
	site := webtest.New(t)
	odile := site.StudentActor(0)
	for range 2 {
		site.CloseSet(t, odile, site.RecordBreaks(t, odile, 10), 0)
	}
	last := recordAllSeen(t, site)
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
	for name, c := range map[string]struct {
		path   string
		sheets int
	}{"set-leaves": {"/sets/" + last.String(), 2}, "student-leave": {student + "/leave", 1}} {
		laptop.Navigate(site.URL + c.path)
		printed := laptop.PrintPDF(func(*page.PrintToPDFParams) {}) // on Letter
		laptop.SaveFile(name+".pdf", printed)
		if got := len(onePage.FindAll(printed, -1)); got != c.sheets {
			t.Errorf("%s takes %d sheets, want %d", c.path, got, c.sheets)
		}
	}
	laptop.Navigate(site.URL + student + "/leave")
	if n := browser.Evaluate[int](laptop, "document.querySelectorAll('#shot-map rect').length"); n < 60 {
		t.Errorf("the map has %d cells", n)
	}
}
