package signin

import (
	"errors"
	"net/http"
	"net/url"
	"strings"

	"breakwright/internal/account"
	"breakwright/internal/store"
	"breakwright/web/page"
	"breakwright/web/session"
)

// signInView is the sign-in page.
type signInView struct {
	Frame page.Frame
	Form  *page.Form
}

func (d *Pages) showSignIn(w http.ResponseWriter, r *http.Request) error {
	if v, known := session.FindUser(r); known {
		http.Redirect(w, r, homePath(v.Role), http.StatusSeeOther)
		return nil
	}
	hasClub, err := d.Store.HasClub(r.Context())
	if err != nil {
		return err
	}
	if !hasClub {
		return page.Render(w, r, http.StatusOK, noClubPage(d.Sessions.TakeFrame(w, r)))
	}
	form := page.NewForm(map[string]string{"next": r.URL.Query().Get("next"), "who": r.URL.Query().Get("who")})
	return page.Render(w, r, http.StatusOK, signInPage(signInView{d.Sessions.TakeFrame(w, r), form}))
}

func (d *Pages) signIn(w http.ResponseWriter, r *http.Request) error {
	form, err := page.ReadForm(w, r)
	if err != nil {
		return err
	}
	who := form.Text("who")
	if err := d.allowAttempt(r, who); err != nil {
		return err
	}
	known, err := d.findCredentials(r, who)
	if err != nil {
		return err
	}
	if code, isCode := account.ParseCode(who); isCode && !store.IsZero(known.Person) && known.SecretHash == "" {
		return page.Redirect(w, r, "/join/"+code)
	}
	right, err := d.Secrets.Matches(r.Context(), form.RawText("secret"), known.SecretHash)
	if err != nil {
		return err
	}
	if !right {
		form.Reject("secret", "That code or sign-in name and that PIN or passphrase do not belong together. Look at both again.")
		return page.Render(w, r, http.StatusUnprocessableEntity, signInPage(signInView{page.Frame{}, form}))
	}
	d.perName.Reset(strings.ToLower(who))
	if err := d.Sessions.Start(w, r, known.Actor); err != nil {
		return err
	}
	return page.Redirect(w, r, returnPath(form.Text("next"), known.Role))
}

// findCredentials looks for a student by code or a coach by sign-in name; nobody found is
// an empty SignIn, so that the caller takes the same time over it.
func (d *Pages) findCredentials(r *http.Request, who string) (store.Credentials, error) {
	var found store.Credentials
	var err error
	if code, isCode := account.ParseCode(who); isCode {
		found, err = d.Store.FindStudent(r.Context(), code)
	} else {
		found, err = d.Store.FindCoach(r.Context(), who)
	}
	if errors.Is(err, store.ErrNotFound) {
		return store.Credentials{}, nil
	}
	return found, err
}

// returnPath is where to go after signing in: only ever to a path of our own.
// Browsers leave out tabs and line ends and take a backslash for a slash, so an
// address with one of these is none of ours.
func returnPath(next string, role store.Role) string {
	odd := func(r rune) bool { return r <= ' ' || r == '\\' || r == 0x7f || r == '\ufffd' }
	address, err := url.Parse(next)
	if err != nil || strings.ContainsFunc(next, odd) || address.IsAbs() || address.Host != "" || address.User != nil ||
		!strings.HasPrefix(next, "/") || strings.HasPrefix(next, "//") || strings.HasPrefix(next, "/sign-") {
		return homePath(role)
	}
	return next
}

func (d *Pages) signOut(w http.ResponseWriter, r *http.Request) error {
	if err := d.Sessions.End(w, r); err != nil {
		return err
	}
	d.Sessions.SetFlash(w, r, "You are signed out.")
	return page.Redirect(w, r, "/sign-in")
}
