//go:build !quick

package journey

import (
	"cmp"
	"testing"

	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"

	"breakwright/internal/store"
	"breakwright/web/browser"
	"breakwright/web/webtest"
)

// Whatever a coach does with a mouse has its way back where it was done: pressed, the pages
// that showed it say what they said before.
func TestUndo_OfEachAction(t *testing.T) {
	site := webtest.New(t)
	set, settled := site.RecordBreaks(t, site.StudentActor(0), 10), site.RecordBreaks(t, site.StudentActor(1), 10)
	site.CloseSet(t, site.StudentActor(0), set, -15)
	site.CloseSet(t, site.StudentActor(1), settled, -18) // nothing is proposed, so the rules say the same again
	if _, err := site.Store.SaveClass(t.Context(), site.Coach, store.Class{Name: "Sunday"}); err != nil {
		t.Fatal(err)
	}
	site.SignInStudent(t, site.Students[0])
	c := undoingCoach{newCoach(t, site), site.SignInCoach(t)}
	const everybody = "/students"
	class, odile := "/classes/"+site.Class.String(), "/students/"+site.Students[0].ID.String()
	drill, table := "/drills/"+site.Drill.ID.String(), "/tables/"+site.Table.ID.String()
	asked, broken := "/sets/"+set.String(), "/sets/"+settled.String()
	for _, did := range []struct {
		name, on string
		do       func()
		// shows is the page that says it; "/today" is the student's.
		shows string
		// back is on the button that takes it back; "" is Undo.
		back string
	}{
		{"side of many", everybody, c.all("", "Right"), everybody, ""},
		{"adding to a class", everybody, c.all("Sunday", "Add to it"), everybody, ""},
		{"removing from a class", everybody, c.all("Thursday evening", "Remove from it"), everybody, ""},
		{"archiving many", everybody, c.all("", "Archive"), everybody, ""},
		{"side in a class's row", class, c.press("Right"), everybody, ""},
		{"name of a class", class, c.renamed("Friday"), class, ""},
		{"archiving a class", class, c.press("Rename or archive", "Archive …", "Archive the class"), "/classes", ""},
		{"adding students", class, c.typed("names", "Pip\nNoor", "Read the list", "Add 2 students"), everybody, ""},
		{"side on the student's page", odile, c.press("Right"), everybody, ""},
		{"name of a student", odile, c.renamed("Odette"), everybody, ""},
		{"message", odile, c.typed("body", "Keep the tip low.", "Send"), asked, ""},
		{"archiving a student", odile, c.press("Rename", "Archive …", "Archive Odile"), everybody, "Restore"},
		{"assigning", drill + "/assign", func() { c.choose("class", "Sunday"); c.press("Assign it")() }, "/assignments", ""},
		{"ending an assignment", "/assignments/" + site.Assignment.String(), c.press("End the assignment", "End it"), "/today", ""},
		{"archiving a drill", "/drills", c.press("Copy, mirror or archive", "Archive it"), "/drills", ""},
		{"archiving a table", table, c.press("Archive …", "Archive the table"), "/tables", ""},
		{"approving", "/desk", c.press("Approve for Odile"), "/today", ""},
		{"declining", "/desk", c.press("Decline for Odile"), "/desk", ""},
		{"striking a break", broken, c.typed("reason", "A practice stroke.", "Correct a break", "Strike the break out"), class + "/progress", ""},
		{"correcting a break", broken, func() {
			c.choose("wing", "In its corner")
			c.typed("reason", "I saw it.", "Correct a break", "Put it right")()
		}, class + "/progress", ""},
	} {
		before := c.read(did.shows)
		c.Navigate(site.URL + did.on)
		did.do()
		back := cmp.Or(did.back, "Undo")
		c.WaitFor(`[...document.querySelectorAll("main button")].some((e) => e.textContent.startsWith("` + back + `"))`)
		if c.read(did.shows) == before {
			t.Errorf("%s: %s shows nothing of it", did.name, did.shows)
		}
		c.WaitForNavigation(func() { c.ClickText(back) })
		if after := c.read(did.shows); after != before {
			t.Errorf("%s, undone, leaves on %s\n%s\ninstead of\n%s", did.name, did.shows, after, before)
		}
	}
}

// undoingCoach does and undoes in the window; what came of it is read beside it.
type undoingCoach struct {
	coach
	reader *webtest.Client
}

// read returns what a page says.
func (c undoingCoach) read(path string) string {
	c.t.Helper()
	reader := c.reader
	if path == "/today" {
		reader = c.site.SignInStudent(c.t, c.site.Students[0]) // who was archived was signed out
	}
	return reader.Get(c.t, path).TextOf(c.t, "main")
}

// press presses things by their words, one after the other.
func (c undoingCoach) press(words ...string) func() {
	return func() {
		for _, w := range words {
			c.ClickText(w)
			c.WaitFor(`document.readyState === "complete"`)
		}
	}
}

// typed opens what is folded away and fills a field on the way.
func (c undoingCoach) typed(field, words string, pressing ...string) func() {
	return func() {
		c.TypeInto(field, words)
		c.press(pressing...)()
	}
}

// renamed unfolds the field of the name, types over it and presses Enter.
func (c undoingCoach) renamed(name string) func() {
	return func() {
		c.ClickText("Rename")
		c.TypeInto("name", name)
		c.RunActions(chromedp.KeyEvent(kb.Enter))
	}
}

// choose picks from a list that folds away by what its answer says.
func (c undoingCoach) choose(field, says string) {
	c.t.Helper()
	c.TypeInto(field, browser.Evaluate[string](c.Window, `[...document.getElementById(`+browser.QuoteScript(field)+`).options].find((o) => o.textContent.includes(`+browser.QuoteScript(says)+`)).value`))
}

// all ticks everybody who is shown, and presses a button of what can be done with them.
func (c undoingCoach) all(class, button string) func() {
	return func() {
		c.RunActions(chromedp.Click(chromedp.CSS("input[name=all]")))
		if class != "" {
			c.choose("into", class)
		}
		c.press(button)()
	}
}
