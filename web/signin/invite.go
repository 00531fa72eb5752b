package signin

import (
	"errors"
	"net/http"

	"github.com/go-chi/chi/v5"

	"breakwright/internal/account"
	"breakwright/internal/store"
	"breakwright/web/page"
)

// inviteView is the page on which an invited coach takes their place.
type inviteView struct {
	Frame           page.Frame
	Form            *page.Form
	Club, InvitedBy string
}

// findInvite looks the link up; one that is not good is a guess.
func (d *Pages) findInvite(r *http.Request) (hash []byte, found store.FoundInvite, err error) {
	hash = account.HashToken(chi.URLParam(r, "token"))
	found, err = d.Store.FindInvite(r.Context(), hash)
	if errors.Is(err, store.ErrNotFound) {
		if guess := d.countGuess(r); guess != nil {
			err = guess
		}
	}
	return hash, found, err
}

func (d *Pages) showInvite(w http.ResponseWriter, r *http.Request) error {
	_, found, err := d.findInvite(r)
	if errors.Is(err, store.ErrNotFound) {
		return page.Render(w, r, http.StatusNotFound, deadInvitePage(d.Sessions.TakeFrame(w, r)))
	}
	if err != nil {
		return err
	}
	return page.Render(w, r, http.StatusOK, invitePage(inviteView{d.Sessions.TakeFrame(w, r), page.NewForm(nil), found.Club, found.InvitedBy}))
}

func (d *Pages) acceptInvite(w http.ResponseWriter, r *http.Request) error {
	form, err := readForm(w, r)
	if err != nil {
		return err
	}
	hash, found, err := d.findInvite(r)
	if errors.Is(err, store.ErrNotFound) {
		return page.Render(w, r, http.StatusNotFound, deadInvitePage(d.Sessions.TakeFrame(w, r)))
	}
	if err != nil {
		return err
	}
	coach := readNewCoach(form)
	refuse := func() error {
		return page.Render(w, r, http.StatusUnprocessableEntity, invitePage(inviteView{page.Frame{}, form, found.Club, found.InvitedBy}))
	}
	if !form.IsValid() {
		return refuse()
	}
	if coach.SecretHash, err = d.Secrets.HashSecret(r.Context(), form.RawText("secret")); err != nil {
		return err
	}
	who, err := d.Store.AcceptInvite(r.Context(), hash, coach)
	if form.AddProblems(err) {
		return refuse()
	}
	if err != nil {
		return err
	}
	if err := d.Sessions.Start(w, r, who); err != nil {
		return err
	}
	d.Sessions.SetFlash(w, r, "Welcome, "+coach.Name+". You are a coach of "+found.Club+".")
	return page.Redirect(w, r, "/desk")
}
