package signin

import (
	"errors"
	"net/http"
	"net/url"
	"strings"
	"unicode/utf8"

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
	form, err := readForm(w, r)
	if err != nil {
		return err
	}
	who := form.Text("who")
	known, err := d.findCredentials(r, who)
	if err != nil {
		return err
	}
	if code, isCode := account.ParseCode(who); isCode && !store.IsZero(known.Person) && known.SecretHash == "" {
		return page.Redirect(w, r, "/join/"+code)
	}
	try, err := d.takeTry(w, r, known.Actor)
	if err != nil {
		return err
	}
	if try.isLocked() {
		form.Reject("secret", lockedWords(known.Role))
		return page.Render(w, r, http.StatusTooManyRequests, signInPage(signInView{page.Frame{}, form}))
	}
	right, err := d.secretMatches(r, form.RawText("secret"), known.SecretHash)
	if err != nil {
		return err
	}
	if !right {
		form.Reject("secret", "that code or sign-in name and that PIN or passphrase do not belong together. Look at both again")
		return page.Render(w, r, http.StatusUnprocessableEntity, signInPage(signInView{page.Frame{}, form}))
	}
	if known.SecondStep {
		if err := d.Sessions.AwaitStep(w, r, known.Actor, form.Text("next")); err != nil {
			return err
		}
		return page.Redirect(w, r, "/sign-in/step")
	}
	return d.letIn(w, r, try, form.Text("next"))
}

// secretMatches looks at a secret. What is longer than any secret is nobody's, and is
// never hashed.
func (d *Pages) secretMatches(r *http.Request, secret, hash string) (bool, error) {
	if len(secret) > 4*account.LongestSecret { // four bytes a letter at most
		return false, nil
	}
	return d.Secrets.Matches(r.Context(), secret, hash)
}

// letIn starts the session of whoever proved who they are.
func (d *Pages) letIn(w http.ResponseWriter, r *http.Request, try try, next string) error {
	if err := d.settleTry(r, try); err != nil {
		return err
	}
	if err := d.Sessions.Start(w, r, try.who); err != nil {
		return err
	}
	return page.Redirect(w, r, returnPath(next, try.who.Role))
}

// lockedWords tell whom too many wrong tries have locked out what goes on.
func lockedWords(role store.Role) string {
	if role == store.Coach {
		return "there were too many wrong tries for this name. Wait an hour, or ask another coach to free it under Club. A device on which you signed in before still works"
	}
	return "there were too many wrong tries, so this PIN is locked. Your coach sees that and can free it with one click. A phone or computer on which you signed in before still works"
}

// findCredentials looks for a student by code or a coach by sign-in name; nobody found is
// an empty SignIn, so that the caller takes the same time over it.
func (d *Pages) findCredentials(r *http.Request, who string) (store.Credentials, error) {
	var found store.Credentials
	var err error
	if code, isCode := account.ParseCode(who); isCode {
		found, err = d.Store.FindStudent(r.Context(), code)
	} else if utf8.RuneCountInString(who) <= store.MaxLogin {
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
