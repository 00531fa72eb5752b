package whatif_test

import (
	"net/http"
	"testing"
	"time"

	"breakwright/web/browser"
	"breakwright/web/webtest"
)

// answered asks until the answer is there, as the page does.
func answered(t *testing.T, p *webtest.Person, address string) *webtest.Page {
	t.Helper()
	for end := time.Now().Add(2 * time.Minute); time.Now().Before(end); {
		if page := p.Get(t, address).Status(t, http.StatusOK); len(page.All(t, ".going")) == 0 {
			return page
		}
	}
	t.Fatalf("%s is never answered", address)
	return nil
}

func TestFit_PageByPage(t *testing.T) {
	site := webtest.New(t)
	coach := site.CoachIn(t)
	address := "/students/" + site.Students[0].ID.String() + "/fit"
	coach.Get(t, address).Status(t, http.StatusOK).Has(t, "#fit", "No breaks to go by yet")

	student := site.StudentActor(0)
	site.CloseSet(t, student, site.RecordBreaks(t, student, 6), -18)
	coach.Get(t, address).Status(t, http.StatusOK).Has(t, "#fit", "Too early: 6 breaks")

	site.CloseSet(t, student, site.RecordBreaks(t, student, 10), -18)
	going := coach.Get(t, address).Status(t, http.StatusOK).Has(t, "#fit .answer", "Being computed").Count(t, "#fit progress", 1)
	stopped := coach.Post(t, going.Attr(t, ".going form", "action"), nil).Status(t, http.StatusOK)
	stopped.Has(t, ".notice", "Stopped").Count(t, ".going", 0).Has(t, "#fit a.button", "Compute it")

	page := answered(t, coach, address)
	page.Has(t, "#fit", "never proof", "16 breaks on North 2").Count(t, "#fit table", 2)
	page.Has(t, "#fit .answer", "16 breaks").Has(t, "#fit tbody", "of 100", "Contact, right of what is told", "Tip, above what is told")
	if again := coach.Get(t, address); again.Text != page.Text {
		t.Error("the same breaks gave another page")
	}
	tried := coach.Get(t, page.Attr(t, `#as-guessed ~ p a`, "href")).Status(t, http.StatusOK)
	tried.Count(t, ".pic-pair", 3)

	for name, size := range map[string]browser.Size{"laptop": browser.Laptop, "phone": browser.Phone} {
		w := open(t, site, size, address)
		w.Wait(`document.querySelectorAll("#fit table").length === 2`)
		w.Wait(`document.documentElement.scrollWidth <= innerWidth`)
		w.Axe(t)
		w.Picture("fit-" + name)
		w.Dark(true)
		w.Axe(t)
		w.Picture("fit-" + name + "-dark")
	}
}

func TestFit_ACoachIsNoStudent(t *testing.T) {
	site := webtest.New(t)
	site.CoachIn(t).Get(t, "/students/"+site.Coach.Person.String()+"/fit").Status(t, http.StatusNotFound)
}
