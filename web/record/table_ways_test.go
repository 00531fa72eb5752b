//go:build !quick

package record_test

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"
	"time"

	"breakwright/internal/breaklog"
	"breakwright/internal/setreview"
	"breakwright/internal/store"
	"breakwright/internal/table"
	"breakwright/web/browser"
	"breakwright/web/sync"
	"breakwright/web/webtest"
)

// secondPhone is another phone of the same student, on the same set.
func secondPhone(t *testing.T, h *phoneUser, l *faultyProxy) *phoneUser {
	t.Helper()
	other := newPhoneUser(t, h.site, l.URL, 0, browser.Phone)
	other.set = h.set
	other.back()
	return other
}

// texts are the breaks on the server as phones write them, but for their numbers
// and times, in a steady order.
func (h *phoneUser) texts(breaks []string) []string {
	h.t.Helper()
	var texts []string
	for _, text := range breaks {
		b, err := sync.ReadBreak([]byte(text))
		if err != nil {
			h.t.Fatal(err)
		}
		b.Number, b.At = 1, time.Time{}
		bare, err := sync.WriteBreak(b)
		if err != nil {
			h.t.Fatal(err)
		}
		texts = append(texts, string(bare))
	}
	slices.Sort(texts)
	return texts
}

func (h *phoneUser) keptTexts(set store.Set) []string {
	h.t.Helper()
	var all []string
	for _, b := range set.Breaks {
		text, err := sync.WriteBreak(b.Break)
		if err != nil {
			h.t.Fatal(err)
		}
		all = append(all, string(text))
	}
	return h.texts(all)
}

// savedUnheard saves the draft of a break that another tab has saved already, with
// something else in it, and reports whether that break is as it was and the other one
// more.
const savedUnheard = `bw.getSet(%s).then(async (set) => {
	const [first] = bw.live(set.breaks);
	const make = (number, at) => JSON.stringify({ ...JSON.parse(first.content), note: "seen otherwise", number, at });
	const more = await bw.saveBreak({ setID: set.id, id: first.id, edit: false }, make);
	const again = (await bw.getSet(set.id)).breaks;
	return more.id !== first.id && again.length === set.breaks.length + 1 && again.find((b) => b.id === first.id).content === first.content;
})`

// A break that was begun is shown in a second tab too; saved in both, neither
// takes the other's place.
func TestTable_BegunDraftInTwoTabs(t *testing.T) {
	t.Parallel()
	site := webtest.New(t)
	h := newPhoneUser(t, site, site.URL, 0, browser.Phone)
	h.start()
	h.breaks(2)
	h.wing("jaws")
	h.WaitFor(`bw.draft("` + h.set + `").then((d) => d && d.entry.wing)`)
	first := h.CurrentTab()
	h.OpenNewPage()
	h.back() // the second tab has the draft as well
	h.says("#summary", "Tap where the cue ball stopped")
	second := h.CurrentTab()

	h.ShowTab(first)
	h.tapAt(5, 60)
	h.save()
	h.ShowTab(second)
	h.says("#number", "Break 4") // the copy that nobody touched here is gone
	h.ShowTab(first)
	h.wing("kissed")
	h.WaitFor(`bw.draft("` + h.set + `").then((d) => d && d.entry.wing === "kissed")`)
	h.ShowTab(second)
	h.back()
	h.wing("foot-rail")
	h.tapAt(-5, 30)
	h.ShowTab(first)
	h.tapAt(8, 20)
	h.save() // break 4, in the first tab
	h.ShowTab(second)
	h.says("#number", "Break 5")
	h.says("#summary", "foot rail first")
	h.save()
	h.sent()
	set := h.kept()
	var misses []string
	for _, b := range set.Breaks[2:] {
		misses = append(misses, string(b.WingMiss))
	}
	if want := []string{"jaws", "kissed", "foot-rail"}; !slices.Equal(misses, want) {
		t.Errorf("saved in two tabs: kept %v, want %v", misses, want)
	}
	if !browser.Evaluate[bool](h.Window, fmt.Sprintf(savedUnheard, browser.QuoteScript(h.set))) {
		t.Error("a tab that has heard of nothing took the place of a break")
	}
	h.sent()
	h.sameBytes(h.contents())
}

// Two phones of one student on one set: what both recorded under one number is
// renumbered, a refused delete is shown, what the set has no room for goes into
// a new one. All that either said "saved" to is kept once.
func TestTable_TwoPhones(t *testing.T) {
	t.Parallel()
	site := webtest.New(t)
	good1, bad := newFaultyProxy(t, site.URL), newFaultyProxy(t, site.URL)
	h := newPhoneUser(t, site, good1.URL, 0, browser.Phone)
	h.start()
	h.breaks(2)
	h.sent()
	other := secondPhone(t, h, bad)
	bad.set(dead)
	other.breaks(5) // 3, 4 and 5 here
	tapped := other.contents()[2:]
	h.wing("jaws")
	h.tapAt(9, 20)
	h.save() // another 3 there
	h.sent()
	bad.set(good)
	other.sent()
	other.WaitFor(`document.querySelector("#list-name").textContent.startsWith("So far: 6 ")`)
	if texts := other.keptTexts(h.kept()); len(texts) != 6 {
		t.Fatalf("%d of 6 breaks are kept", len(texts))
	}

	// A delete that lost against a change is no secret.
	h.sent()
	bad.set(dead)
	other.removeBreak(1, "The rack was loose.")
	h.openBreak(1)
	h.wing("kissed")
	h.touch("#save")
	h.says("#number", "Break 7")
	h.sent()
	bad.set(good)
	other.WaitFor(`bw.exchange().then(() => bw.state.clashes.length === 1)`)
	other.says("#word", "Break 1 is not with your coach")
	other.touch("#open-clash")
	other.says("#clash-mine", "Taken out: The rack was loose.")
	other.says("#clash-theirs", "kissed by another ball")
	other.choose("mine")
	other.sent()
	if set := h.kept(); len(set.Breaks) != 5 || set.Breaks[0].Number != 2 {
		t.Fatalf("taken out after all: %d breaks are kept", len(set.Breaks))
	}

	// The other phone fills the set: there is no number left.
	h.sent()
	bad.set(dead)
	other.breaks(9)
	other.WaitFor(`document.querySelector("#list-name").textContent.startsWith("So far: 9 ")`)
	h.breaks(10)
	h.sent()
	tapped = append(tapped, other.contents()[5:]...)
	bad.set(good)
	other.WaitFor(`bw.exchange().then(() => bw.state.stuck.length === 4)`)
	other.says("#word", "4 breaks are only on this phone: the set is full")
	other.SaveScreenshot("ways-word")
	other.touch("#open-ways")
	other.says("#ways-name", "4 breaks without a place")
	other.SaveScreenshot("ways")
	other.CheckAccessibility(t)
	other.downloads(4)
	other.says("#planned", "10 of 10") // what has no place is not counted as if it had one
	other.WaitForNavigation(func() { other.touch("#ways-new") })
	other.ready()
	other.set = browser.Evaluate[string](other.Window, `new URLSearchParams(location.search).get("set")`)
	other.sent()
	kept := append(other.keptTexts(h.kept()), other.keptTexts(other.kept())...)
	for _, text := range other.texts(tapped) {
		if !slices.Contains(kept, text) {
			t.Errorf("nowhere kept: %s", text)
		}
	}
	if len(h.kept().Breaks) != 10 || len(other.kept().Breaks) != 4 {
		t.Errorf("%d breaks in the set and %d in the new one", len(h.kept().Breaks), len(other.kept().Breaks))
	}
}

// downloads fails the test unless the file of breaks without a place can be taken over,
// with so many breaks.
func (h *phoneUser) downloads(breaks int) {
	h.t.Helper()
	browser.Evaluate[bool](h.Window, `(document.querySelector("#ways-log").addEventListener("submit", (e) => { e.preventDefault(); window.log = new FormData(e.target).get("log"); }), true)`)
	h.touch("#ways-log button")
	log := browser.Evaluate[string](h.Window, `fetch("/table/log", { method: "POST", body: new URLSearchParams({ log: window.log }) }).then((r) => r.text())`)
	sets, err := breaklog.Read(strings.NewReader(log))
	if err != nil || len(sets) != 1 || len(sets[0].Breaks) != breaks || !sets[0].Setup.SameAs(h.site.Drill.Setup) {
		h.t.Errorf("the file cannot be taken over: %v\n%s", err, log)
	}
}

func (h *phoneUser) openBreak(n int) {
	h.t.Helper()
	h.touch("#open-list")
	h.touch(fmt.Sprintf(`#list-breaks li[value="%d"] button`, n))
	h.says("#save", "Save the change")
}

// removeBreak takes a break out with a reason.
func (h *phoneUser) removeBreak(n int, reason string) {
	h.t.Helper()
	h.openBreak(n)
	h.touch("#open-details")
	h.touch("#not-counted summary")
	browser.Evaluate[string](h.Window, `document.querySelector("#reason").value = `+browser.QuoteScript(reason))
	h.touch("#delete")
	h.WaitFor(`!document.querySelector("#details").open`)
}

// A coach who puts the set on the table where it is really broken changes the page under
// the student's hand: its picture is that table's from then on.
func TestTable_MovedWhileOpen(t *testing.T) {
	t.Parallel()
	site := webtest.New(t)
	h := newPhoneUser(t, site, site.URL, 0, browser.Phone)
	h.start()
	h.breaks(2)
	h.sent()
	small, err := site.Store.SaveTable(t.Context(), site.Coach, store.Table{Name: "Small", Kind: table.SevenFoot()})
	if err != nil {
		t.Fatal(err)
	}
	if err := site.Store.MoveSet(t.Context(), site.Coach, h.kept().ID, store.SetMove{Table: small.ID, Assignment: site.Assignment}, setreview.JudgeCase); err != nil {
		t.Fatal(err)
	}
	before := browser.Evaluate[string](h.Window, `document.querySelector("#picture svg").getAttribute("viewBox")`)
	browser.Evaluate[bool](h.Window, `(bw.exchange(), true)`)
	h.WaitFor(`((svg) => svg && svg.getAttribute("viewBox") !== ` + browser.QuoteScript(before) + `)(document.querySelector("#picture svg"))`)
	h.ready()
	h.wing("jaws")
	h.Tap(h.CenterOf("#picture svg"))
	h.save()
	h.sent()
	set := h.kept()
	if middle := set.Breaks[2].Cue.Place; set.Table.ID != small.ID || math.Abs(float64(middle.Y-set.Table.Kind.Length()/2)) > 3 {
		t.Errorf("a tap on the middle of the picture is kept on %s as %v", set.Table.Label(), middle)
	}
}

// Breaks of a table that was put away are offered a set on a table of its size, and none
// where there is none; when the table is back, they come under their own drill.
func TestTable_TablePutAwayMeanwhile(t *testing.T) {
	t.Parallel()
	site := webtest.New(t)
	l := newFaultyProxy(t, site.URL)
	h := newPhoneUser(t, site, l.URL, 0, browser.Phone)
	l.set(dead)
	if err := site.Store.ArchiveTable(t.Context(), site.Coach, site.Table.ID); err != nil {
		t.Fatal(err)
	}
	if _, err := site.Store.SaveTable(t.Context(), site.Coach, store.Table{Name: "Small", Kind: table.SevenFoot()}); err != nil {
		t.Fatal(err)
	}
	h.start() // the phone does not know
	h.breaks(1)
	spoilt := h.set
	h.start()
	h.breaks(3)
	l.set(good)
	h.says("#word", "3 breaks are only on this phone: this table was put away")
	h.touch("#open-ways")
	h.says("#ways-why", "No other table here is of its size")
	if h.isSeen("#ways-new") || h.isSeen("#ways-table") {
		t.Error("a new set is offered on the table that was put away, or on one of another size")
	}
	h.SaveScreenshot("ways-no-table")

	if err := site.Store.RestoreTable(t.Context(), site.Coach, site.Table.ID); err != nil {
		t.Fatal(err)
	}
	h.WaitFor(`bw.exchange().then(() => !bw.state.trouble)`)
	h.touch("#ways [data-close]")
	h.touch("#open-ways")
	h.WaitFor(`document.querySelector("#ways").open`)
	h.WaitForNavigation(func() { h.touch("#ways-new") })
	h.ready()
	h.set = browser.Evaluate[string](h.Window, `new URLSearchParams(location.search).get("set")`)
	h.sent()
	if set := h.kept(); set.Assignment != site.Assignment || set.Table.ID != site.Table.ID || len(set.Breaks) != 3 {
		t.Errorf("the server keeps %d breaks of assignment %s on %s", len(set.Breaks), set.Assignment, set.Table.Label())
	}

	h.set = spoilt
	h.back()
	h.touch("#open-ways")
	h.WaitFor(`document.querySelector("#ways").open`)
	h.touch("#ways-go")
	h.says("#ways-go", "Yes, this break is lost then")
	h.touch("#ways-go")
	h.WaitFor(`location.pathname === "/today"`) // nothing is left of that set to be shown
	h.WaitFor(`bw.getSet("` + spoilt + `").then((set) => !set)`)
}

// A set broken while the phone was out of reach arrives although the coach has
// ended the drill and put the table away meanwhile; one begun afterwards stays
// on the phone with ways on.
func TestTable_AssignmentEndedMeanwhile(t *testing.T) {
	t.Parallel()
	site := webtest.New(t)
	l := newFaultyProxy(t, site.URL)
	h := newPhoneUser(t, site, l.URL, 0, browser.Phone)
	l.set(dead)
	h.start()
	h.breaks(10)
	before, tapped := h.set, h.contents()
	if err := site.Store.EndAssignment(t.Context(), site.Coach, site.Assignment); err != nil {
		t.Fatal(err)
	}
	if err := site.Store.ArchiveTable(t.Context(), site.Coach, site.Table.ID); err != nil {
		t.Fatal(err)
	}
	spare, err := site.Store.SaveTable(t.Context(), site.Coach, store.Table{Name: "Spare", Kind: site.Table.Kind})
	if err != nil {
		t.Fatal(err)
	}
	h.start() // the phone does not know
	h.breaks(3)
	late := h.contents()
	l.set(good)
	h.WaitFor(`bw.exchange().then(() => bw.state.stuck.length === 3)`)
	h.says("#word", "3 breaks are only on this phone: this table was put away")

	lateSet := h.set
	h.set = before
	h.sameBytes(tapped)

	h.set = lateSet
	h.touch("#open-ways")
	h.says("#ways-name", "3 breaks without a place")
	h.downloads(3)
	h.touch("#ways-note")
	h.says("#ways-notice", "Your coach has them as a note")
	questions, err := site.Store.ListUnreadQuestions(t.Context(), site.Coach)
	if err != nil || len(questions) != 1 || !strings.Contains(questions[0].Body, "3. The 8") {
		t.Errorf("the note: %v, %+v", err, questions)
	}
	h.touch("#ways-go") // asks first
	h.says("#ways-go", "these 3 breaks are lost")
	if n := h.recorded(); n != 3 {
		t.Fatalf("one tap let %d breaks go", 3-n)
	}
	browser.Evaluate[string](h.Window, `document.querySelector("#ways-table").value = `+browser.QuoteScript(spare.ID.String()))
	h.WaitForNavigation(func() { h.touch("#ways-new") })
	h.SaveScreenshot("ways-new")
	h.ready()
	h.set = browser.Evaluate[string](h.Window, `new URLSearchParams(location.search).get("set")`)
	h.sent()
	set := h.kept()
	if set.Table.ID != spare.ID || !store.IsZero(set.Assignment) || set.Title() != site.Drill.Name {
		t.Errorf("the new set: %q on %s, assignment %v", set.Title(), set.Table.Name, set.Assignment)
	}
	if kept := h.keptTexts(set); !slices.Equal(kept, h.texts(late)) {
		t.Errorf("kept %v\ntapped %v", kept, late)
	}
}

// A set closed by mistake is opened again; breaks that another phone has still
// to send then find their place, and the set says what all of them say.
func TestTable_ClosedAndReopened(t *testing.T) {
	t.Parallel()
	site := webtest.New(t)
	good1, bad := newFaultyProxy(t, site.URL), newFaultyProxy(t, site.URL)
	h := newPhoneUser(t, site, good1.URL, 0, browser.Phone)
	h.start()
	h.breaks(8)
	h.sent()
	other := secondPhone(t, h, bad)
	bad.set(dead)
	other.breaks(10)
	h.touch("#open-list")
	h.touch("#close-early")
	h.says("#early-says", "2 breaks are missing")
	h.SaveScreenshot("close-early")
	if closed := h.kept().Closed; !closed.IsZero() {
		t.Fatal("one tap closed the set")
	}
	h.touch("#close-anyway")
	h.readable()
	if h.kept().Closed.IsZero() {
		t.Fatal("the set is not closed")
	}
	bad.set(good)
	other.WaitFor(`bw.exchange().then(() => bw.state.stuck.length === 2)`)
	other.says("#word", "2 breaks are only on this phone: this set was closed")
	other.Navigate(other.url + "/today")
	other.says("#waiting", "2 breaks are only on this phone")
	other.WaitForNavigation(func() { other.touch("#waiting a") })
	other.says("#word", "2 breaks are only on this phone")
	other.touch("#open-ways")
	other.says("#ways-name", "2 breaks without a place")
	other.touch("#ways-reopen")
	other.WaitFor(`bw.recount().then(() => bw.state.stuck.length === 0)`)
	other.sent()
	if set := h.kept(); !set.Closed.IsZero() || len(set.Breaks) != 10 || set.Advice != nil {
		t.Fatalf("opened again: closed %v, %d breaks", set.Closed, len(set.Breaks))
	}
	other.touch("#close-set")
	other.readable()
	if set := h.kept(); set.Closed.IsZero() || set.Advice == nil || len(set.Breaks) != 10 {
		t.Errorf("closed again: %v, %d breaks", set.Closed, len(set.Breaks))
	}
}
