package club

import (
	"cmp"
	"net/http"
	"time"

	"breakwright/internal/account"
	"breakwright/internal/say"
	"breakwright/internal/store"
	"breakwright/web/page"
	"breakwright/web/session"
)

// accountView is one's own page.
type accountView struct {
	Frame page.Frame
	// Name, Club and SignIn say who they are; SignIn is a coach's login or a
	// student's code as it is printed.
	Name, Club, SignIn string
	Coach              bool
	Secret, Theme      *page.Form
	Units              *page.Form // a student's own; nil for a coach, who has the club's
	Sessions           []sessionLine
	// Step is the second step of a coach, in words; "" for none.
	Step string
}

// sessionLine is a session that goes on.
type sessionLine struct {
	ID, Device, Used string
	Here             bool
}

// secretWord is what the person calls it.
func (v accountView) secretWord() string {
	if v.Coach {
		return "passphrase"
	}
	return "PIN"
}

func (v accountView) secretHint() string {
	if v.Coach {
		return "At least ten characters; a few words in a row are good."
	}
	return "At least four digits or letters. Not 1234."
}

func (p *Pages) showAccount(w http.ResponseWriter, r *http.Request) error {
	return p.renderAccount(w, r, http.StatusOK, page.NewForm(nil))
}

// renderAccount shows the page; secret is the form that was refused.
func (p *Pages) renderAccount(w http.ResponseWriter, r *http.Request, status int, secret *page.Form) error {
	user := session.MustUser(r)
	person, err := p.store.GetPerson(r.Context(), user.Actor, user.Person)
	if err != nil {
		return err
	}
	v := accountView{
		Name: user.Name, Club: user.Club, SignIn: person.Login, Coach: user.IsCoach(), Secret: secret,
		Theme: page.NewForm(map[string]string{"theme": themeChoice(user.Theme)}),
	}
	if !v.Coach {
		v.SignIn = account.FormatCode(person.Code)
		own, err := p.store.GetOwnUnits(r.Context(), user.Actor)
		if err != nil {
			return err
		}
		v.Units = page.NewForm(map[string]string{"units": cmp.Or(string(own), clubUnits)})
	}
	sessions, err := p.store.ListOwnSessions(r.Context(), user.Actor, p.now())
	if err != nil {
		return err
	}
	for _, s := range sessions {
		v.Sessions = append(v.Sessions, sessionLine{
			ID: s.ID.String(), Device: s.Device, Used: dayWords(s.Seen, user.Zone), Here: s.ID == user.Session,
		})
	}
	if v.Step, err = p.stepWords(r); err != nil {
		return err
	}
	v.Frame = p.sessions.TakeFrame(w, r)
	return page.Render(w, r, status, accountPage(v))
}

// deviceTheme is the word of the form for the theme of the device.
const deviceTheme = "device"

func themeChoice(theme store.Theme) string {
	if theme == store.AsDevice {
		return deviceTheme
	}
	return string(theme)
}

func (p *Pages) chooseTheme(w http.ResponseWriter, r *http.Request) error {
	form, err := page.ReadForm(w, r)
	if err != nil {
		return err
	}
	theme := store.Theme(form.Text("theme"))
	if theme == deviceTheme {
		theme = store.AsDevice
	}
	if err := p.store.SetTheme(r.Context(), actor(r), theme); form.AddProblems(err) {
		return p.renderAccount(w, r, http.StatusUnprocessableEntity, page.NewForm(nil))
	} else if err != nil {
		return err
	}
	return page.Redirect(w, r, "/account")
}

// clubUnits is the word of the form for the units of the club.
const clubUnits = "club"

func (p *Pages) chooseUnits(w http.ResponseWriter, r *http.Request) error {
	form, err := page.ReadForm(w, r)
	if err != nil {
		return err
	}
	units := store.UnitChoice(form.Text("units"))
	if units == clubUnits {
		units = store.AsClub
	}
	if err := p.store.SetUnits(r.Context(), actor(r), units); form.AddProblems(err) {
		return p.renderAccount(w, r, http.StatusUnprocessableEntity, page.NewForm(nil))
	} else if err != nil {
		return err
	}
	p.sessions.SetFlash(w, r, "Saved.")
	return page.Redirect(w, r, "/account")
}

// changeSecret takes the present secret and a new one twice. Wrong ones count
// as they do at the sign-in.
func (p *Pages) changeSecret(w http.ResponseWriter, r *http.Request) error {
	form, err := page.ReadForm(w, r)
	if err != nil {
		return err
	}
	user := session.MustUser(r)
	device, err := p.sessions.DeviceHash(w, r)
	if err != nil {
		return err
	}
	if err := p.checkSecret(r, form, device); err != nil {
		return err
	}
	checkNewSecret(form, user.IsCoach())
	if !form.IsValid() {
		return p.renderAccount(w, r, http.StatusUnprocessableEntity, form)
	}
	hash, err := p.secret.Secrets.HashSecret(r.Context(), form.RawText("new"))
	if err != nil {
		return err
	}
	if err := p.store.ChangeSecret(r.Context(), user.Actor, hash, user.Session, device); err != nil {
		return err
	}
	p.sessions.SetFlash(w, r, "Changed. You are signed out everywhere but here.")
	return page.Redirect(w, r, "/account")
}

func checkNewSecret(form *page.Form, coach bool) {
	check := account.CheckPIN
	if coach {
		check = account.CheckPassphrase
	}
	if err := check(form.RawText("new")); err != nil {
		form.Reject("new", err.Error())
	}
	if form.RawText("new") != form.RawText("again") {
		form.Reject("again", "the two are not the same; type it again")
	}
}

// checkSecret refuses a present secret that is not theirs.
func (p *Pages) checkSecret(r *http.Request, form *page.Form, device []byte) error {
	right, err := p.secret.IsRight(r.Context(), actor(r), device, form.RawText("present"))
	if err == nil && !right {
		form.Reject("present", "that is not the one you sign in with now")
	}
	return err
}

func (p *Pages) endSession(w http.ResponseWriter, r *http.Request) error {
	form, err := page.ReadForm(w, r)
	if err != nil {
		return err
	}
	id, err := store.ParseID[store.SessionID](form.Text("session"))
	if err != nil {
		return err
	}
	if err := p.store.EndOwnSession(r.Context(), actor(r), id); err != nil {
		return err
	}
	p.sessions.SetFlash(w, r, "Ended. Whoever used it has to sign in again.")
	return page.Redirect(w, r, "/account")
}

func (p *Pages) endOtherSessions(w http.ResponseWriter, r *http.Request) error {
	device, err := p.sessions.DeviceHash(w, r)
	if err != nil {
		return err
	}
	user := session.MustUser(r)
	if err := p.store.EndOtherSessions(r.Context(), user.Actor, user.Session, device); err != nil {
		return err
	}
	p.sessions.SetFlash(w, r, "You are signed out everywhere but here.")
	return page.Redirect(w, r, "/account")
}

// dayWords is a day and time in the user's zone.
func dayWords(at time.Time, zone *time.Location) string {
	return say.WeekdayMoment(at.In(zone))
}
