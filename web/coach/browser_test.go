//go:build !quick

package coach_test

import (
	"testing"

	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"

	"breakwright/internal/store"
	"breakwright/internal/store/storetest"
	"breakwright/web/browser"
)

// A note that a coach typed goes with whatever they answer then: from the desk on to the
// change, and on the proposal's page with a decline, though fields there are wrong.
func TestPrescription_TheNoteGoesWithEveryAnswer(t *testing.T) {
	site, one := waiting(t)
	w := browser.OpenWindow(t, browser.Laptop)
	w.SignIn(site.URL, site.Login, storetest.Passphrase)
	w.Navigate(site.URL + "/desk")
	note := "note-" + one.ID.String()
	w.TypeInto(note, "Half of it.")
	w.ClickText("Change")
	w.WaitFor(`document.querySelector("#cue_x-` + one.ID.String() + `")`)
	if typed := browser.Evaluate[string](w, `document.getElementById("`+note+`").value`); typed != "Half of it." {
		t.Errorf("the change begins with the note %q", typed)
	}
	w.Navigate(site.URL + "/prescriptions/" + one.ID.String())
	w.TypeInto("cue_x", "far")
	w.TypeInto("note", "Not yet.")
	w.WaitForNavigation(func() { w.ClickText("Decline it") })
	if got := state(t, site, one.ID); got.State != store.Declined || got.DecisionNote != "Not yet." {
		t.Errorf("it is %s with the note %q", got.State, got.DecisionNote)
	}
}

// Enter in a note begins a new line, on the desk, on the proposal's page and where the coach
// makes a change of their own: nothing is decided by it.
func TestPrescription_EnterInANoteDecidesNothing(t *testing.T) {
	site, one := waiting(t)
	coach := site.SignInCoach(t)
	typeNote := func(path, note string) {
		t.Helper()
		w := browser.OpenWindow(t, browser.Laptop) // a page with a note on it asks before it is left
		w.UseCookies(site.URL, coach.Cookies(t))
		w.Navigate(site.URL + path)
		browser.Evaluate[bool](w, `(document.getElementById("`+note+`").focus(), true)`)
		w.RunActions(chromedp.KeyEvent("Half"), chromedp.KeyEvent(kb.Enter), chromedp.KeyEvent("of it."))
		if typed := browser.Evaluate[string](w, `document.getElementById("`+note+`").value`); typed != "Half\nof it." {
			t.Errorf("%s: the note is %q", path, typed)
		}
		if at := browser.Evaluate[string](w, "location.pathname"); at != path {
			t.Errorf("%s: Enter led to %s", path, at)
		}
	}
	typeNote("/desk", "note-"+one.ID.String())
	typeNote("/prescriptions/"+one.ID.String(), "note")
	if got := state(t, site, one.ID); got.State != store.Proposed || got.DecisionNote != "" {
		t.Errorf("it is %s with the note %q", got.State, got.DecisionNote)
	}
	if err := site.Store.DecidePrescription(t.Context(), site.Coach, one.ID, store.Decision{Answer: store.Declined}); err != nil {
		t.Fatal(err)
	}
	typeNote("/sets/"+one.Set.String()+"/change", "note")
	if got := state(t, site, one.ID); got.State != store.Declined {
		t.Errorf("it is %s", got.State)
	}
}
