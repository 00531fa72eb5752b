//go:build !quick

package record_test

import (
	"testing"
	"time"

	"breakwright/internal/table"
	"breakwright/web/browser"
	"breakwright/web/webtest"
)

// A phone that holds an older plan breaks what the page said that the set was begun from, and
// that is what the club has of it.
func TestTable_HasThePlanOfThePageThatBeganIt(t *testing.T) {
	t.Parallel()
	site := webtest.New(t)
	h := newPhoneUser(t, site, site.URL, 0, browser.Phone)
	h.Navigate(h.url + "/today/" + site.Assignment.String())
	h.WaitFor(`bw.held()`)
	browser.Evaluate[bool](h.Window, `bw.held().then(async (held) => {
		for (const plan of held.plans) plan.setup.speed = 11;
		await bw.keep("held " + held.person, held);
		document.querySelector("form[data-start] button").click();
		return true;
	})`)
	h.ready()
	set := browser.Evaluate[string](h.Window, `new URLSearchParams(location.search).get("set")`)
	if got := browser.Evaluate[float64](h.Window, `bw.getSet("`+set+`").then((set) => set.plan.setup.speed)`); table.Mph(got) != site.Drill.Setup.Speed {
		t.Errorf("the phone breaks at %v mph, the page said %s", got, site.Drill.Setup.Speed)
	}
	for until := time.Now().Add(20 * time.Second); ; time.Sleep(50 * time.Millisecond) {
		sets, err := site.Store.ListSets(t.Context(), site.Coach, site.Students[0].ID)
		if err != nil {
			t.Fatal(err)
		}
		if len(sets) == 0 && time.Now().Before(until) {
			continue
		}
		if len(sets) != 1 || sets[0].Setup.Speed != site.Drill.Setup.Speed {
			t.Errorf("the club has %+v", sets)
		}
		return
	}
}
