//go:build !quick

package journey

import (
	"net/http"
	"strings"
	"testing"

	"breakwright/internal/store"
	"breakwright/internal/store/storetest"
	"breakwright/web/browser"
	"breakwright/web/route"
	"breakwright/web/webtest"
)

// Every page of the route table, on a small old laptop: nothing is wider than the
// window, and axe-core finds nothing. Pages are tested on phones and on larger
// laptops where they are made.
func TestEveryPage_OnAnOldLaptop(t *testing.T) {
	site := webtest.New(t)
	odile := site.StudentActor(0)
	closed := site.RecordBreaks(t, odile, 10)
	site.CloseSet(t, odile, closed, -16)
	open := site.RecordBreaks(t, odile, 3)
	set, err := site.Store.GetSet(t.Context(), odile, open)
	if err != nil {
		t.Fatal(err)
	}
	pending, err := site.Store.ListPendingPrescriptions(t.Context(), site.Coach)
	if err != nil || len(pending) != 1 {
		t.Fatalf("%d prescriptions wait (%v), want one", len(pending), err)
	}
	job := store.Job{ID: store.NewID[store.JobID](), Kind: store.ImportJob, Title: "breaks.csv"}
	if err := site.Store.CreateJob(t.Context(), site.Coach, job, []byte("a file")); err != nil {
		t.Fatal(err)
	}
	fill := strings.NewReplacer(
		"/my/sets/{set}/", "/my/sets/"+open.String()+"/", "{set}", closed.String(),
		"{class}", site.Class.String(), "{student}", odile.Person.String(), "{table}", site.Table.ID.String(),
		"{drill}", site.Drill.ID.String(), "{assignment}", site.Assignment.String(), "{job}", job.ID.String(),
		"{break}", set.Breaks[0].ID.String(), "{prescription}", pending[0].ID.String(), "{code}", site.Students[2].Code,
	)
	people := map[route.Audience]*webtest.Client{route.Coach: site.SignInCoach(t), route.Student: site.SignInStudent(t, site.Students[0]), route.Anyone: site.NewClient(t)}
	windows := map[route.Audience]*browser.Window{}
	for who := range people {
		windows[who] = browser.OpenWindow(t, browser.OldLaptop)
	}
	windows[route.Coach].SignIn(site.URL, site.Login, storetest.Passphrase)
	windows[route.Student].SignIn(site.URL, site.Students[0].Code, webtest.PIN)
	seen := 0
	for _, r := range site.Routes {
		address := fill.Replace(r.Pattern)
		if r.Method != http.MethodGet || people[r.Audience] == nil || strings.HasSuffix(r.Pattern, "/events") || strings.Contains(address, "{token}") {
			continue
		}
		if page := people[r.Audience].Get(t, address); page.Code != http.StatusOK || !strings.HasPrefix(page.Header.Get("Content-Type"), "text/html") || page.Path != address {
			continue // a file, a part of a page, or sent on
		}
		seen++
		w := windows[r.Audience]
		w.Navigate(site.URL + address)
		if wide := browser.Evaluate[int](w, "document.documentElement.scrollWidth - document.documentElement.clientWidth"); wide > 0 {
			t.Errorf("%s is %d px wider than the window", r.Pattern, wide)
		}
		w.CheckAccessibility(t)
		w.SaveScreenshot("1024" + strings.ReplaceAll(r.Pattern, "/", "-"))
	}
	if seen < 40 {
		t.Errorf("only %d pages were looked at", seen)
	}
}

// A coach's seven entries are two rows on a phone, three on the narrowest and with
// text twice as large; none is ever out of sight.
func TestNavigation_IsNeatOnAPhone(t *testing.T) {
	site := webtest.New(t)
	for _, c := range []struct {
		size browser.Size
		rows int
	}{{browser.Phone, 2}, {browser.SmallPhone, 2}, {browser.Size{Width: 320, Height: 640, Phone: true}, 3}} {
		w := browser.OpenWindow(t, c.size)
		w.SignIn(site.URL, site.Login, storetest.Passphrase)
		rows := browser.Evaluate[int](w, "new Set([...document.querySelectorAll('.top nav a')].map((a) => a.getBoundingClientRect().top)).size")
		seen := browser.Evaluate[int](w, `[...document.querySelectorAll('.top nav a')].filter((a) => {
			const r = a.getBoundingClientRect();
			return r.left >= 0 && r.right <= innerWidth && r.height >= 48 && a.scrollWidth <= a.clientWidth;
		}).length`)
		if rows != c.rows || seen != 7 {
			t.Errorf("%d px wide the navigation has %d rows, and %d entries are whole; want %d and all 7", c.size.Width, rows, seen, c.rows)
		}
	}
}

// A student's pages are no wider than the narrowest phone, whatever is opened on them.
func TestStudentsPages_FitTheNarrowestPhone(t *testing.T) {
	t.Parallel()
	site := webtest.New(t)
	student := site.SignInStudent(t, site.Students[0])
	set := "/my/sets/" + site.RecordBreaks(t, site.StudentActor(0), 10).String()
	student.Post(t, set+"/close", nil).RequireText(t, "table", "How sure")
	w := browser.OpenWindow(t, browser.Size{Width: 320, Height: 568, Phone: true})
	w.SignIn(site.URL, site.Students[0].Code, webtest.PIN)
	for _, address := range []string{"/today", "/today/" + site.Assignment.String(), "/my/sets", set, "/my/progress", "/my/card", "/my/training"} {
		w.Navigate(site.URL + address)
		browser.Evaluate[bool](w, "(document.querySelectorAll('details').forEach((d) => { d.open = true; }), true)")
		if wide := browser.Evaluate[int](w, "document.documentElement.scrollWidth - document.documentElement.clientWidth"); wide > 0 {
			t.Errorf("%s is %d px wider than the window", address, wide)
		}
		w.SaveScreenshot("320" + strings.ReplaceAll(address, "/", "-"))
	}
}
