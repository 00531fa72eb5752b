package signin

import (
	"cmp"
	"errors"
	"net/http"
	"strings"
	"time"

	"github.com/go-chi/chi/v5"

	"breakwright/internal/account"
	"breakwright/internal/drill"
	"breakwright/internal/store"
	"breakwright/web/page"
)

// showSetUp is reached by the one-time link that the first start prints.
func (d *Pages) showSetUp(w http.ResponseWriter, r *http.Request) error {
	if _, err := d.readSetUpToken(r); errors.Is(err, store.ErrNotFound) {
		return page.Render(w, r, http.StatusNotFound, deadSetUpPage(d.Sessions.TakeFrame(w, r)))
	} else if err != nil {
		return err
	}
	form := page.NewForm(map[string]string{"zone": "UTC"})
	return page.Render(w, r, http.StatusOK, setUpClubPage(d.Sessions.TakeFrame(w, r), form, true))
}

// readSetUpToken returns the hash of a link that is good; any other is a guess.
func (d *Pages) readSetUpToken(r *http.Request) ([]byte, error) {
	hash := account.HashToken(chi.URLParam(r, "token"))
	good, err := d.Store.HasFirstRun(r.Context(), hash)
	if err == nil && !good {
		err = cmp.Or(d.countGuess(r), store.ErrNotFound)
	}
	return hash, err
}

func (d *Pages) setUpClub(w http.ResponseWriter, r *http.Request) error {
	form, err := readForm(w, r)
	if err != nil {
		return err
	}
	token, err := d.readSetUpToken(r)
	if errors.Is(err, store.ErrNotFound) {
		return page.Render(w, r, http.StatusNotFound, deadSetUpPage(d.Sessions.TakeFrame(w, r)))
	}
	if err != nil {
		return err
	}
	coach := readNewCoach(form)
	requireName(form, "club", "give the club a name")
	if _, err := time.LoadLocation(form.Text("zone")); err != nil || form.Text("zone") == "" {
		form.Reject("zone", "choose the time zone from the list")
	}
	if !form.IsValid() {
		return page.Render(w, r, http.StatusUnprocessableEntity, setUpClubPage(page.Frame{}, form, false))
	}
	coach.SecretHash, err = d.Secrets.HashSecret(r.Context(), form.RawText("secret"))
	if err != nil {
		return err
	}
	club := store.Club{Name: form.Text("club"), Zone: form.Text("zone")}
	actor, err := d.Store.CreateClubWithCoach(r.Context(), token, club, coach)
	if form.AddProblems(err) {
		return page.Render(w, r, http.StatusUnprocessableEntity, setUpClubPage(page.Frame{}, form, false))
	}
	if err != nil {
		return err
	}
	if err := d.Sessions.Start(w, r, actor); err != nil {
		return err
	}
	d.Sessions.SetFlash(w, r, "The club is set up. Begin with a class, a table or a drill.")
	return page.Redirect(w, r, "/desk")
}

// readNewCoach reads a coach who comes by a link.
func readNewCoach(form *page.Form) store.NewCoach {
	coach := store.NewCoach{Name: form.Text("name"), Login: strings.ToLower(form.Text("login"))}
	requireName(form, "name", "type your name")
	if len(coach.Login) < 3 || strings.ContainsAny(coach.Login, " \t\r\n") {
		form.Reject("login", "a sign-in name has at least 3 letters or digits and no blanks; an e-mail address is fine")
	} else if _, isCode := account.ParseCode(coach.Login); isCode {
		form.Reject("login", "that looks like a student's code; choose another")
	}
	if err := account.CheckPassphrase(form.RawText("secret")); err != nil {
		form.Reject("secret", err.Error())
	}
	return coach
}

// requireName refuses what is no name; an empty one in words of its own, so that two
// fields of a form do not ask for the same.
func requireName(form *page.Form, field, empty string) {
	if form.Text(field) == "" {
		form.Reject(field, empty)
	} else if says := drill.CheckName(form.Text(field)); says != "" {
		form.Reject(field, says)
	}
}
