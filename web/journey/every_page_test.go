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
	odile := site.Student(0)
	closed := site.Record(t, odile, 10)
	site.Close(t, odile, closed, -16)
	open := site.Record(t, odile, 3)
	set, err := site.Store.GetSet(t.Context(), odile, open)
	if err != nil {
		t.Fatal(err)
	}
	pending, err := site.Store.PendingPrescriptions(t.Context(), site.Coach)
	if err != nil || len(pending) != 1 {
		t.Fatalf("%d prescriptions wait (%v), want one", len(pending), err)
	}
	job := store.Job{ID: store.NewID[store.JobID](), Kind: store.ImportJob, Title: "breaks.csv"}
	if err := site.Store.KeepJob(t.Context(), site.Coach, job, []byte("a file")); err != nil {
		t.Fatal(err)
	}
	fill := strings.NewReplacer(
		"/my/sets/{set}/", "/my/sets/"+open.String()+"/", "{set}", closed.String(),
		"{class}", site.Class.String(), "{student}", odile.Person.String(), "{table}", site.Table.ID.String(),
		"{drill}", site.Drill.ID.String(), "{assignment}", site.Assignment.String(), "{job}", job.ID.String(),
		"{break}", set.Breaks[0].ID.String(), "{prescription}", pending[0].ID.String(), "{code}", site.Students[2].Code,
	)
	people := map[route.Who]*webtest.Person{route.Coach: site.CoachIn(t), route.Student: site.StudentIn(t, site.Students[0]), route.Anyone: site.Nobody(t)}
	windows := map[route.Who]*browser.Window{}
	for who := range people {
		windows[who] = browser.Open(t, browser.OldLaptop)
	}
	windows[route.Coach].SignIn(site.URL, site.Login, storetest.Passphrase)
	windows[route.Student].SignIn(site.URL, site.Students[0].Code, webtest.PIN)
	seen := 0
	for _, r := range site.Routes {
		address := fill.Replace(r.Pattern)
		if r.Method != http.MethodGet || people[r.Who] == nil || strings.HasSuffix(r.Pattern, "/events") || strings.Contains(address, "{token}") {
			continue
		}
		if page := people[r.Who].Get(t, address); page.Code != http.StatusOK || !strings.HasPrefix(page.Header.Get("Content-Type"), "text/html") || page.Path != address {
			continue // a file, a part of a page, or sent on
		}
		seen++
		w := windows[r.Who]
		w.Go(site.URL + address)
		if wide := browser.Value[int](w, "document.documentElement.scrollWidth - document.documentElement.clientWidth"); wide > 0 {
			t.Errorf("%s is %d px wider than the window", r.Pattern, wide)
		}
		w.Axe(t)
		w.Picture("1024" + strings.ReplaceAll(r.Pattern, "/", "-"))
	}
	if seen < 40 {
		t.Errorf("only %d pages were looked at", seen)
	}
}

// On the smallest phone the navigation is one row; what does not fit comes into
// view when the keyboard gets there.
func TestNavigation_OneRowOnAPhone(t *testing.T) {
	site := webtest.New(t)
	w := browser.Open(t, browser.SmallPhone)
	w.SignIn(site.URL, site.Login, storetest.Passphrase)
	if high := browser.Value[float64](w, "document.querySelector('.top nav').getBoundingClientRect().height"); high < 44 || high > 60 {
		t.Errorf("the navigation is %v px high", high)
	}
	if wide := browser.Value[int](w, "document.documentElement.scrollWidth - document.documentElement.clientWidth"); wide > 0 {
		t.Errorf("the page is %d px wider than the window", wide)
	}
	browser.Value[bool](w, "(document.querySelector('.top nav a:last-child').focus(), true)")
	w.Wait("(() => { const r = document.activeElement.getBoundingClientRect(); return r.left >= 0 && r.right <= innerWidth && r.height >= 44 })()")
}
