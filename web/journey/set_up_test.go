//go:build !quick

package journey

import (
	"fmt"
	"strings"
	"testing"

	"breakwright/internal/account"
	"breakwright/internal/store"
	"breakwright/web/browser"
	"breakwright/web/webtest"
)

// What setting up a club may take of a new coach, from the one-time link to the join cards
// of a class of thirteen and a drill that it has, on a table of their own; and what it
// may take of one of them, from their card to the first break saved. The README says the
// same numbers.
const (
	setUpClicks, setUpFields = 13, 9
	joinTaps, joinFields     = 6, 2
)

// counted is a window in which what a person does is counted.
type counted struct {
	*browser.Window
	clicks, fields int
}

// follow clicks on what begins with these words, and waits for the page it leads to.
func (c *counted) follow(words string) {
	c.clicks++
	c.WaitForNavigation(func() { c.ClickText(words) })
}

// goTo clicks on a page's name at the top.
func (c *counted) goTo(name string) {
	c.clicks++
	c.WaitForNavigation(func() {
		browser.Evaluate[bool](c.Window, fmt.Sprintf(`([...document.querySelectorAll("header nav a")].find((a) => a.textContent.trim() === %q).click(), true)`, name))
	})
}

func (c *counted) fill(id, words string) {
	c.fields++
	c.TypeInto(id, words)
}

func (c *counted) tap(selector string) {
	c.clicks++
	c.Tap(c.CenterOf(selector))
}

// A new coach comes by the one-time link, and a student of theirs breaks: clicks and
// fields are counted, the zone is the browser's, and nothing is typed twice.
func TestSetUp_ToTheFirstBreak(t *testing.T) {
	site := webtest.New(t)
	token, hash := account.NewToken()
	if err := site.Store.SetFirstRun(t.Context(), hash); err != nil {
		t.Fatal(err)
	}
	c := &counted{Window: browser.OpenWindow(t, browser.Size{Width: 1366, Height: 768})}
	c.Navigate(site.URL + "/set-up/" + token)
	for _, field := range [][2]string{{"club", "Harbour Lane"}, {"name", "Ines Marroquin"}, {"login", "ines"}, {"secret", "three plain words"}} {
		c.fill(field[0], field[1])
	}
	c.follow("Set up")
	c.goTo("Tables")
	c.fill("name", "Table 1")
	c.follow("Add the table")
	c.goTo("Classes")
	c.fill("name", "Monday")
	c.follow("Make the class")
	c.fill("names", thirteenNames)
	c.follow("Read the list")
	c.follow("Add")
	c.follow("Print join codes")
	if cards := browser.Evaluate[int](c.Window, `document.querySelectorAll(".card").length`); cards != 13 {
		t.Errorf("%d join cards", cards)
	}
	c.goTo("Drills")
	c.follow("Write the first drill")
	c.fill("name", "First break")
	c.follow("Save the drill")
	c.follow("Assign it")
	c.fill("class", browser.Evaluate[string](c.Window, `[...document.querySelectorAll("#class option")].find((o) => o.textContent.includes("Monday")).value`))
	c.follow("Assign it")

	coach, err := site.Store.FindCoach(t.Context(), "ines")
	if err != nil {
		t.Fatal(err)
	}
	people, err := site.Store.ListStudents(t.Context(), store.Actor{Club: coach.Club, Person: coach.Person, Role: store.Coach}, store.ActiveOnly)
	if err != nil || len(people) != 13 {
		t.Fatalf("%d students (%v)", len(people), err)
	}
	s := &counted{Window: browser.OpenWindow(t, browser.Phone)}
	s.Navigate(site.URL + "/join/" + people[0].Code)
	s.fill("secret", webtest.PIN)
	s.fill("again", webtest.PIN)
	s.follow("Join")
	s.follow("First break")
	s.WaitFor(`bw.held()`)
	s.tap("form[data-start] button")
	s.WaitFor(`location.pathname === "/table" && document.querySelector("#table") && !document.querySelector("#entry").hidden`)
	s.tap("#picture svg") // where the cue ball stopped: in the middle
	s.tap(`[data-wing="made"]`)
	s.tap("#save")
	s.WaitFor(`bw.getSet(new URLSearchParams(location.search).get("set")).then((set) => bw.live(set.breaks).length === 1)`)

	t.Logf("a new coach: %d clicks and %d fields; their student, to the first break saved: %d taps and %d fields", c.clicks, c.fields, s.clicks, s.fields)
	if c.clicks > setUpClicks || c.fields > setUpFields {
		t.Errorf("a new coach needs %d clicks and %d fields, no more than %d and %d are meant", c.clicks, c.fields, setUpClicks, setUpFields)
	}
	if s.clicks > joinTaps || s.fields > joinFields {
		t.Errorf("their student needs %d taps and %d fields, no more than %d and %d are meant", s.clicks, s.fields, joinTaps, joinFields)
	}
}

// thirteenNames is a list as a coach has it: with numbers, and with sides behind most.
var thirteenNames = func() string {
	var lines []string
	for i, name := range strings.Fields("Ada Bruno Chidi Dana Emil Farah Goran Hanne Isolde Jomo Kaia Luan Mirek") {
		lines = append(lines, fmt.Sprintf("%d. %s, %s", i+1, name, []string{"left", "right"}[i%2]))
	}
	return strings.Join(lines, "\n")
}()
