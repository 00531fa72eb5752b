//go:build !quick

// Package journey walks the whole job in real Chromium, as a coach on a laptop
// and as two students on phones: from the first class to the drill that carries
// a changed setup.
package journey

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"github.com/chromedp/chromedp"

	"breakwright/internal/store"
	"breakwright/internal/store/storetest"
	"breakwright/internal/table"
	"breakwright/web/browser"
	"breakwright/web/webtest"
)

func TestMain(m *testing.M) { storetest.Main(m) }

// The left-side and the right-side student see mirror images, record mirrored
// breaks, and get mirrored prescriptions.
func TestJourney_FromTheClassToTheNextDrill(t *testing.T) {
	site := webtest.New(t)
	coach := newCoach(t, site)
	class := coach.makesClass("Friday juniors", "Mirabel, left\nOskar, right\nJun, left")
	coach.entersTable("Corner table")
	coach.writesDrill("Open them the same way")
	coach.assigns("Open them the same way", "Friday juniors")

	left, right := newStudent(t, site, class, "Mirabel"), newStudent(t, site, class, "Oskar")
	left.joins("Open them the same way", "about 1½ diamonds (18 in) left of the middle")
	right.joins("Open them the same way", "about 1½ diamonds (18 in) right of the middle")
	leftAdvice := left.breaksTen(-1)
	rightAdvice := right.breaksTen(+1)
	if want := mirrorWords(leftAdvice); rightAdvice != want {
		t.Errorf("the right-side student reads %q, not the mirror image %q", rightAdvice, want)
	}

	coach.approves("Mirabel")
	coach.changes("Oskar", "21")
	leftNext, rightNext := left.nextDrill(), right.nextDrill()
	if !strings.Contains(leftNext, fmt.Sprintf("(%s in) left of the middle", proposed(t, site, "Mirabel"))) {
		t.Errorf("Mirabel's next drill: %s", leftNext)
	}
	if !strings.Contains(rightNext, "about 1¾ diamonds (21 in) right of the middle") {
		t.Errorf("Oskar's next drill: %s", rightNext)
	}
}

// mirrorWords changes left and right in a sentence.
func mirrorWords(s string) string {
	return strings.NewReplacer("left", "right", "right", "left").Replace(s)
}

// proposed returns how far out the approved setup of a student stands.
func proposed(t *testing.T, site *webtest.Site, name string) string {
	t.Helper()
	students, err := site.Store.ListStudents(t.Context(), site.Coach, store.ActiveOnly)
	if err != nil {
		t.Fatal(err)
	}
	i := slices.IndexFunc(students, func(p store.Person) bool { return p.Name == name })
	list, err := site.Store.ListPrescriptions(t.Context(), site.Coach, students[i].ID)
	if err != nil || len(list) != 1 || list[0].State != store.Approved {
		t.Fatalf("%s has %+v (%v), want one that is approved", name, list, err)
	}
	return (list[0].After.Cue.X * list[0].After.Side.Sign()).String()
}

// coach is at the laptop.
type coach struct {
	*browser.Window
	t    *testing.T
	site *webtest.Site
}

func newCoach(t *testing.T, site *webtest.Site) coach {
	c := coach{browser.OpenWindow(t, browser.Laptop), t, site}
	c.SignIn(site.URL, site.Login, storetest.Passphrase)
	return c
}

func (c coach) makesClass(name, names string) store.ClassID {
	c.t.Helper()
	c.Navigate(c.site.URL + "/classes")
	c.TypeInto("name", name)
	c.WaitForNavigation(func() { c.ClickText("Make the class") })
	c.TypeInto("names", names)
	c.WaitForNavigation(func() { c.ClickText("Read the list") })
	c.WaitForNavigation(func() { c.ClickText("Add") })
	id, err := store.ParseID[store.ClassID](strings.TrimPrefix(browser.Evaluate[string](c.Window, "location.pathname"), "/classes/"))
	if err != nil {
		c.t.Fatalf("the class's page is not where it should be: %v", err)
	}
	c.CheckAccessibility(c.t)
	c.SaveScreenshot("class")
	return id
}

func (c coach) entersTable(name string) {
	c.t.Helper()
	c.Navigate(c.site.URL + "/tables")
	c.TypeInto("name", name)
	c.WaitForNavigation(func() { c.ClickText("Add the table") })
	c.SaveScreenshot("tables")
}

// writesDrill makes a drill with two balls of the rack exchanged on the picture.
func (c coach) writesDrill(name string) {
	c.t.Helper()
	c.Navigate(c.site.URL + "/drills/new")
	c.TypeInto("name", name)
	c.TypeInto("watch", "The wing ball first, then the cue ball.")
	before := browser.Evaluate[string](c.Window, `document.querySelector("#rack").value`)
	c.clickOn("#seat-4L")
	c.WaitFor(`document.querySelector("#seat-4L[aria-pressed=true]")`)
	c.clickOn("#seat-4R")
	c.WaitFor(fmt.Sprintf(`document.querySelector("#rack").value !== %q`, before))
	c.CheckAccessibility(c.t)
	c.SaveScreenshot("drill-editor")
	c.WaitForNavigation(func() { c.ClickText("Save the drill") })
}

// clickOn presses an element with the mouse.
func (c coach) clickOn(selector string) {
	c.t.Helper()
	at := c.CenterOf(selector)
	c.RunActions(chromedp.MouseClickXY(at.X, at.Y))
}

func (c coach) assigns(drill, class string) {
	c.t.Helper()
	c.Navigate(c.site.URL + "/drills")
	c.WaitForNavigation(func() { c.ClickText(drill) })
	c.WaitForNavigation(func() { c.ClickText("Assign it") })
	c.TypeInto("class", browser.Evaluate[string](c.Window, fmt.Sprintf(`[...document.querySelectorAll("#class option")].find((o) => o.textContent.includes(%q)).value`, class)))
	c.CheckAccessibility(c.t)
	c.SaveScreenshot("assign")
	c.WaitForNavigation(func() { c.ClickText("Assign it") })
	c.SaveScreenshot("assigned")
}

// approves agrees to what is proposed, on the desk.
func (c coach) approves(student string) {
	c.t.Helper()
	c.Navigate(c.site.URL + "/desk")
	c.CheckAccessibility(c.t)
	c.SaveScreenshot("desk")
	c.ClickText("Approve", student)
	c.says(student, "approved")
}

// changes prescribes another place than is proposed, without leaving the desk.
func (c coach) changes(student, across string) {
	c.t.Helper()
	c.Navigate(c.site.URL + "/desk")
	c.ClickText("Change", student)
	c.WaitFor(`document.querySelector("main input[name=cue_x]")`)
	c.CheckAccessibility(c.t)
	c.SaveScreenshot("prescription")
	c.TypeInto(browser.Evaluate[string](c.Window, `document.querySelector("main input[name=cue_x]").id`), across)
	c.ClickText("Prescribe this instead", student)
	c.says(student, "changed")
}

// says waits until the desk says what was decided for a student.
func (c coach) says(student, what string) {
	c.t.Helper()
	c.WaitFor(fmt.Sprintf(`[...document.querySelectorAll("main [role=status]")].some((e) => e.textContent.includes(%q) && e.textContent.includes(%q))`, student, what))
}

// student is at the table with a phone.
type student struct {
	*browser.Window
	t    *testing.T
	site *webtest.Site
	who  store.Person
	// drill is the address of the drill's page.
	drill string
}

func newStudent(t *testing.T, site *webtest.Site, class store.ClassID, name string) *student {
	t.Helper()
	_, members, err := site.Store.GetClass(t.Context(), site.Coach, class)
	if err != nil {
		t.Fatal(err)
	}
	i := slices.IndexFunc(members, func(p store.Person) bool { return p.Name == name })
	if i < 0 {
		t.Fatalf("%s is not in the class", name)
	}
	return &student{Window: browser.OpenWindow(t, browser.Phone), t: t, site: site, who: members[i]}
}

// joins takes the student's place and opens the drill, which stands the right
// way round.
func (s *student) joins(drill, where string) {
	s.t.Helper()
	s.Navigate(s.site.URL + "/join/" + s.who.Code)
	s.SaveScreenshot("join")
	s.TypeInto("secret", webtest.PIN)
	s.TypeInto("again", webtest.PIN)
	s.WaitForNavigation(func() { s.ClickText("Join") })
	s.SaveScreenshot("today")
	s.CheckAccessibility(s.t)
	s.WaitForNavigation(func() { s.ClickText(drill) })
	s.drill = browser.Evaluate[string](s.Window, "location.pathname")
	s.WaitFor(fmt.Sprintf(`document.querySelector("dl.facts").textContent.includes(%q)`, where))
	s.CheckAccessibility(s.t)
	s.SaveScreenshot("drill-" + string(s.who.Side))
}

// breaksTen records a set in which the wing ball keeps meeting the side rail
// first, closes it, and gives the reason for the change that is proposed. sign
// is -1 on the left and +1 on the right.
func (s *student) breaksTen(sign table.Inches) string {
	s.t.Helper()
	s.WaitFor(`bw.held()`)
	s.Tap(s.CenterOf("form[data-start] button"))
	s.WaitFor(`location.pathname === "/table" && document.querySelector("#table") && !document.querySelector("#entry").hidden`)
	set := browser.Evaluate[string](s.Window, `new URLSearchParams(location.search).get("set")`)
	s.Tap(s.CenterOf(`#ask-racked [data-value="tight"]`))
	for n := 1; n <= 10; n++ {
		wing := "side-rail"
		if n%5 == 0 {
			wing = "made"
		}
		s.Tap(s.CenterOf(`[data-wing="` + wing + `"]`))
		s.Tap(s.place(table.Place{X: sign * table.Inches(n-5), Y: table.Inches(30 + n)}))
		if n == 4 {
			s.CheckAccessibility(s.t)
			s.SaveScreenshot("record")
		}
		s.Tap(s.CenterOf("#save"))
		s.WaitFor(fmt.Sprintf(`bw.getSet(%q).then((k) => bw.live(k.breaks).length === %d)`, set, n))
	}
	s.WaitFor(`!document.querySelector("#review").hidden`)
	s.SaveScreenshot("review")
	s.WaitFor(`document.querySelectorAll("#review-breaks li").length === 10`)
	s.Tap(s.CenterOf("#close-set"))
	s.readsIt("/my/sets/" + set)
	s.CheckAccessibility(s.t)
	s.SaveScreenshot("set-" + string(s.who.Side))
	return s.Text(".prescription .answer")
}

// readsIt waits until the closed set is with the coach: the phone then opens its
// page by itself or, where the exchange took longer, offers the way there.
func (s *student) readsIt(path string) {
	s.t.Helper()
	there := fmt.Sprintf(`location.pathname === %q`, path)
	// Followed, and again after ten seconds as a student would: every click begins the
	// way anew.
	s.WaitFor(there + ` || (document.querySelector("#to-set")?.hidden === false && !(Date.now() - window.followed < 10000) && (window.followed = Date.now(), document.querySelector("#to-set").click()), false)`)
	s.WaitFor(there + ` && document.readyState === "complete"`)
}

// place is where a place on the cloth is seen on the phone.
func (s *student) place(at table.Place) browser.Point {
	s.t.Helper()
	return browser.Evaluate[browser.Point](s.Window, fmt.Sprintf(`(() => {
		const m = document.querySelector("#picture svg").getScreenCTM();
		return { X: m.e + m.a * %v, Y: m.f - m.d * %v };
	})()`, float64(at.X)*10, float64(at.Y)*10))
}

// nextDrill returns the parts of the setup on the drill's page.
func (s *student) nextDrill() string {
	s.t.Helper()
	s.Navigate(s.site.URL + s.drill)
	s.SaveScreenshot("next-" + string(s.who.Side))
	return s.Text("dl.facts")
}
