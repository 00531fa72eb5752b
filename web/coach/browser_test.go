//go:build !quick

package coach_test

import (
	"testing"

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
