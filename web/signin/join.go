package signin

import (
	"errors"
	"fmt"
	"net/http"

	"github.com/go-chi/chi/v5"

	"breakwright/internal/account"
	"breakwright/internal/store"
	"breakwright/internal/table"
	"breakwright/web/page"
)

// joinClubView is the page on which a student takes their place.
type joinClubView struct {
	Frame page.Frame
	Form  *page.Form
	// Code as it is printed; Name and Club belong to it.
	Code, Name, Club string
	// AskSide asks for the break side, which the coach has not set.
	AskSide bool
}

func (d *Pages) showCodeForm(w http.ResponseWriter, r *http.Request) error {
	return page.Render(w, r, http.StatusOK, joinCodePage(d.Sessions.TakeFrame(w, r), page.NewForm(nil)))
}

func (d *Pages) submitCode(w http.ResponseWriter, r *http.Request) error {
	form, err := readForm(w, r)
	if err != nil {
		return err
	}
	code, ok := account.ParseCode(form.Text("code"))
	if !ok {
		form.Reject("code", "a code has eight letters and digits, for example "+account.FormatCode("K7QF9TRW"))
		return page.Render(w, r, http.StatusUnprocessableEntity, joinCodePage(page.Frame{}, form))
	}
	return page.Redirect(w, r, "/join/"+code)
}

// findInvitation finds whose code it is; a code that somebody has taken already leads
// to the sign-in page instead, with taken true.
func (d *Pages) findInvitation(r *http.Request) (found invitation, err error) {
	code, ok := account.ParseCode(chi.URLParam(r, "code"))
	if !ok {
		return found, store.ErrNotFound
	}
	found.code = account.FormatCode(code)
	if found.Credentials, err = d.Store.FindStudent(r.Context(), code); err != nil {
		if errors.Is(err, store.ErrNotFound) {
			err = errors.Join(err, d.countGuess(r))
		}
		return found, err
	}
	if !found.isTaken() && d.now().Sub(found.CodeMade) > account.CodeLife {
		return found, errExpired
	}
	if found.club, err = d.Store.GetClub(r.Context(), found.Actor); err != nil {
		return found, err
	}
	found.person, err = d.Store.GetPerson(r.Context(), found.Actor, found.Person)
	return found, err
}

// errExpired is a code that nobody has used in time.
var errExpired = fmt.Errorf("the code has expired: %w", store.ErrNotFound)

// invitation is a student who has a code, with or without a PIN yet.
type invitation struct {
	store.Credentials
	code   string
	club   store.Club
	person store.Person
}

func (i invitation) isTaken() bool { return i.SecretHash != "" }

func (i invitation) newJoinView(frame page.Frame, form *page.Form) joinClubView {
	return joinClubView{
		Frame: frame, Form: form, Code: i.code,
		Name: i.Name, Club: i.club.Name, AskSide: i.person.Side == "",
	}
}

func (d *Pages) showJoinForm(w http.ResponseWriter, r *http.Request) error {
	found, err := d.findInvitation(r)
	if err != nil {
		return d.refuseInvitation(w, r, err)
	}
	if found.isTaken() {
		return page.Redirect(w, r, "/sign-in?who="+found.code)
	}
	return page.Render(w, r, http.StatusOK, joinClubPage(found.newJoinView(d.Sessions.TakeFrame(w, r), page.NewForm(nil))))
}

// refuseInvitation answers what [Pages.findInvitation] refused: a code that opens
// nothing beside its field.
func (d *Pages) refuseInvitation(w http.ResponseWriter, r *http.Request, err error) error {
	switch {
	case errors.Is(err, d.TooMany):
		return d.TooMany
	case errors.Is(err, store.ErrNotFound):
		return refuseCode(w, r, err)
	}
	return err
}

// refuseCode says beside the code why it opens nothing.
func refuseCode(w http.ResponseWriter, r *http.Request, err error) error {
	form := page.NewForm(map[string]string{"code": chi.URLParam(r, "code")})
	says := "nobody has this code. Look at your sheet again, or ask your coach for a new one"
	if errors.Is(err, errExpired) {
		says = "this code was not used in time and has expired. Ask your coach for a new one"
	}
	form.Reject("code", says)
	return page.Render(w, r, http.StatusNotFound, joinCodePage(page.Frame{}, form))
}

func (d *Pages) joinClub(w http.ResponseWriter, r *http.Request) error {
	form, err := readForm(w, r)
	if err != nil {
		return err
	}
	found, err := d.findInvitation(r)
	if err != nil {
		return d.refuseInvitation(w, r, err)
	}
	if found.isTaken() {
		return page.Redirect(w, r, "/sign-in?who="+found.code)
	}
	side := readJoin(form, found.person.Side)
	if !form.IsValid() {
		return page.Render(w, r, http.StatusUnprocessableEntity, joinClubPage(found.newJoinView(page.Frame{}, form)))
	}
	hash, err := d.Secrets.HashSecret(r.Context(), form.RawText("secret"))
	if err != nil {
		return err
	}
	if err := d.Store.JoinClub(r.Context(), found.Actor, hash, side); err != nil {
		return err
	}
	device, err := d.Sessions.DeviceHash(w, r)
	if err != nil {
		return err
	}
	if err := d.Store.SettleTry(r.Context(), found.Actor, device, store.TryOnDevice, d.now()); err != nil {
		return err
	}
	if err := d.Sessions.Start(w, r, found.Actor); err != nil {
		return err
	}
	d.Sessions.SetFlash(w, r, "Welcome, "+found.Name+". From now on you sign in with your code "+found.code+" and your PIN.")
	return page.Redirect(w, r, "/today")
}

// readJoin reads the PIN, typed twice, and the side where it is asked for.
func readJoin(form *page.Form, known table.Side) table.Side {
	secret := form.RawText("secret")
	if err := account.CheckPIN(secret); err != nil {
		form.Reject("secret", err.Error())
	}
	if secret != form.RawText("again") {
		form.Reject("again", "the two are not the same; type it again")
	}
	if known != "" {
		return known
	}
	side, err := table.ParseSide(form.Text("side"))
	if err != nil {
		form.Reject("side", "choose the side you usually break from; your coach can change it")
	}
	return side
}
