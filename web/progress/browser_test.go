//go:build !quick

package progress_test

import (
	"fmt"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"

	"breakwright/internal/store"
	"breakwright/internal/store/storetest"
	"breakwright/web/browser"
	"breakwright/web/webtest"
)

// busy is a site with a long history, a name that is hard on a narrow page, and
// something of every kind on the desk.
func busy(t *testing.T) (*webtest.Site, []store.Person) {
	t.Helper()
	site, students := webtest.NewWithHistory(t, storetest.SimulatedHistory{Students: 6, Sets: 40, Seed: 12, Until: time.Now()})
	long := strings.Repeat("Wolfeschlegelstein", 6)
	if err := site.Store.RenamePerson(t.Context(), site.Coach, students[0].ID, long); err != nil {
		t.Fatal(err)
	}
	set := site.RecordBreaks(t, site.StudentActor(0), 10)
	site.CloseSet(t, site.StudentActor(0), set, -16)
	if err := site.Store.PostMessage(t.Context(), site.StudentActor(0), store.MessageID{}, set, "Further out?"); err != nil {
		t.Fatal(err)
	}
	if err := site.Store.ChangeAssignment(t.Context(), site.Coach, site.Assignment, time.Now().AddDate(0, 0, -2).UTC().Truncate(24*time.Hour), ""); err != nil {
		t.Fatal(err)
	}
	if err := site.Store.IssueCard(t.Context(), site.Coach, store.CardID{}, set); err != nil {
		t.Fatal(err)
	}
	return site, students
}

// The pages are within reach of everybody, by day and by night, and none is
// wider than the window.
func TestPagesInTheBrowser(t *testing.T) {
	site, students := busy(t)
	site.SignInStudent(t, site.Students[0])
	for _, size := range []browser.Size{browser.Phone, browser.OldLaptop, browser.Laptop} {
		coach, student := browser.OpenWindow(t, size), browser.OpenWindow(t, size)
		coach.SignIn(site.URL, site.Login, storetest.Passphrase)
		student.SignIn(site.URL, site.Students[0].Code, webtest.PIN)
		for name, page := range map[string]struct {
			w    *browser.Window
			path string
		}{
			"desk": {coach, "/desk"}, "class": {coach, classPath(site) + "/progress?sort=wing&order=down"},
			"picture": {coach, classPath(site) + "/picture"}, "student": {coach, "/students/" + students[0].ID.String()},
			"mine": {student, "/my/progress"},
		} {
			page.w.CheckLightAndDark(site.URL+page.path, "progress-"+name)
		}
	}
}

// A laptop shows every column of a class whole: its table needs no scrolling across.
func TestClass_IsWholeOnALaptop(t *testing.T) {
	site, _ := busy(t)
	w := browser.OpenWindow(t, browser.Size{Width: 1366, Height: 768})
	w.SignIn(site.URL, site.Login, storetest.Passphrase)
	w.Navigate(site.URL + classPath(site) + "/progress")
	if wide := browser.Evaluate[int](w, `(({ scrollWidth, clientWidth }) => scrollWidth - clientWidth)(document.querySelector(".scroll:has(.standings)"))`); wide > 0 {
		t.Errorf("the class's table is %d px wider than its place", wide)
	}
}

// A coach filters the class by typing, and the page stays; the address tells
// what is shown, so that it can be kept.
func TestClassIsSearchedWhileTyping(t *testing.T) {
	site, _ := busy(t)
	w := browser.OpenWindow(t, browser.Laptop)
	w.SignIn(site.URL, site.Login, storetest.Passphrase)
	w.Navigate(site.URL + classPath(site) + "/progress?sort=sets&order=down")
	w.RunActions(chromedp.Evaluate[chromedp.Void]("window.stayed = true; void 0"), chromedp.SendKeys(chromedp.CSS("#q"), "odi"))
	w.WaitFor("document.querySelectorAll('.standings tbody tr').length == 1 && location.search.includes('q=odi')")
	if !browser.Evaluate[bool](w, "window.stayed === true && document.activeElement.id == 'q' && location.search.includes('sort=sets')") {
		t.Error("the page was loaded anew, or the focus or the order was lost")
	}
}

// By keyboard alone: a prescription is changed, a question answered and a line
// taken off, and the focus goes to what was said each time.
func TestDeskByKeyboard(t *testing.T) {
	site, _ := busy(t)
	w := browser.OpenWindow(t, browser.Laptop)
	w.SignIn(site.URL, site.Login, storetest.Passphrase)
	w.Navigate(site.URL + "/desk")
	press := func(selector string) {
		t.Helper()
		w.RunActions(chromedp.Focus(chromedp.CSS(selector)), chromedp.KeyEvent(kb.Enter))
	}
	requireWords := func(words string) {
		t.Helper()
		w.WaitFor("document.activeElement.matches('li:has([role=status])') && document.activeElement.textContent.includes(" + fmt.Sprintf("%q", words) + ")")
	}
	w.RunActions(chromedp.Evaluate[chromedp.Void]("window.stayed = true; void 0"))
	press("a[hx-get]")
	w.WaitFor("document.activeElement.name == 'cue_x'")
	w.RunActions(chromedp.SetValue(chromedp.CSS("[name=cue_x]"), "15"))
	press("button[value=changed]")
	requireWords("own setup")
	w.RunActions(chromedp.SetValue(chromedp.CSS("[id^=q-] textarea"), "Two inches."))
	press("[id^=q-] button")
	requireWords("Sent to Odile")
	press("[id^=idle-] form button")
	requireWords("Noted")
	w.CheckAccessibility(t)
	if !browser.Evaluate[bool](w, "window.stayed === true") {
		t.Error("the page was left")
	}
}
