//go:build !quick

package whatif_test

import (
	"net/http"
	"testing"
	"time"

	"breakwright/web/browser"
	"breakwright/web/webtest"
)

// answered asks until the answer is there, as the page does.
func answered(t *testing.T, p *webtest.Client, address string) *webtest.Page {
	t.Helper()
	for end := time.Now().Add(2 * time.Minute); time.Now().Before(end); {
		if page := p.Get(t, address).RequireStatus(t, http.StatusOK); len(page.FindAll(t, ".going")) == 0 {
			return page
		}
	}
	t.Fatalf("%s is never answered", address)
	return nil
}

func TestFit_PageByPage(t *testing.T) {
	site := webtest.New(t)
	coach := site.SignInCoach(t)
	address := "/students/" + site.Students[0].ID.String() + "/fit"
	coach.Get(t, address).RequireStatus(t, http.StatusOK).RequireText(t, "#fit", "No breaks to go by yet")

	student := site.StudentActor(0)
	site.CloseSet(t, student, site.RecordBreaks(t, student, 6), -18)
	coach.Get(t, address).RequireStatus(t, http.StatusOK).RequireText(t, "#fit", "Too early: 6 breaks")

	site.CloseSet(t, student, site.RecordBreaks(t, student, 10), -18)
	going := coach.Get(t, address).RequireStatus(t, http.StatusOK).RequireText(t, "#fit .answer", "Being computed").RequireCount(t, "#fit progress", 1)
	stopped := coach.Post(t, going.AttributeOf(t, ".going form", "action"), nil).RequireStatus(t, http.StatusOK)
	stopped.RequireText(t, ".notice", "Stopped").RequireCount(t, ".going", 0).RequireText(t, "#fit a.button", "Compute it")

	laptop := open(t, site, browser.Laptop, address)
	checkWhileComputing(t, laptop)
	page := answered(t, coach, address)
	page.RequireText(t, "#fit", "never proof", "16 breaks on North 2").RequireCount(t, "#fit table", 2)
	page.RequireText(t, "#fit .answer", "16 breaks").RequireText(t, "#fit tbody", "of 100", "Contact, right of the setup", "Tip, above the setup")
	if again := coach.Get(t, address); again.Text != page.Text {
		t.Error("the same breaks gave another page")
	}
	tried := coach.Get(t, page.AttributeOf(t, `#as-guessed ~ p a`, "href")).RequireStatus(t, http.StatusOK)
	tried.RequireCount(t, ".pic-pair", 3)

	laptop.Navigate(site.URL + address)
	for name, w := range map[string]*browser.Window{"laptop": laptop, "phone": open(t, site, browser.Phone, address)} {
		w.WaitFor(`document.querySelectorAll("#fit table").length === 2`)
		w.WaitFor(`document.documentElement.scrollWidth <= innerWidth`)
		w.CheckAccessibility(t)
		w.SaveScreenshot("fit-" + name)
		w.SetDark(true)
		w.CheckAccessibility(t)
		w.SaveScreenshot("fit-" + name + "-dark")
	}
}

// checkWhileComputing looks at the page as it waits. Without a line it cannot learn that
// the answer is there, so it waits for as long as it is looked at.
func checkWhileComputing(t *testing.T, w *browser.Window) {
	t.Helper()
	w.SetOffline(true)
	if !browser.Evaluate[bool](w, `!!document.querySelector("#fit .going progress")`) {
		t.Fatal("the page does not wait")
	}
	w.CheckAccessibility(t)
	w.SetDark(true)
	w.CheckAccessibility(t)
	w.SaveScreenshot("fit-going-dark")
	w.SetDark(false)
	if !browser.Evaluate[bool](w, `!!document.querySelector("#fit .going progress")`) {
		t.Error("the page did not wait while it was looked at")
	}
	w.SetOffline(false)
}

func TestFit_ACoachIsNoStudent(t *testing.T) {
	site := webtest.New(t)
	site.SignInCoach(t).Get(t, "/students/"+site.Coach.Person.String()+"/fit").RequireStatus(t, http.StatusNotFound)
}
