package signin

import (
	"errors"
	"net/http"

	"breakwright/internal/account"
	"breakwright/internal/store"
	"breakwright/web/page"
	"breakwright/web/session"
)

// showStep asks for the second step of whoever gave the right passphrase.
func (d *Pages) showStep(w http.ResponseWriter, r *http.Request) error {
	if _, _, err := d.Sessions.AwaitedStep(r); err != nil {
		return page.Redirect(w, r, "/sign-in")
	}
	return page.Render(w, r, http.StatusOK, stepPage(d.Sessions.TakeFrame(w, r), page.NewForm(nil)))
}

// takeStep lets in who has the code of this moment, or a recovery code. Each is
// good once, and wrong ones count as wrong passphrases do.
func (d *Pages) takeStep(w http.ResponseWriter, r *http.Request) error {
	form, err := readForm(w, r)
	if err != nil {
		return err
	}
	who, next, err := d.Sessions.AwaitedStep(r)
	if errors.Is(err, session.ErrNoStep) {
		d.Sessions.SetFlash(w, r, "That took too long. Begin again with your passphrase.")
		return page.Redirect(w, r, "/sign-in")
	}
	if err != nil {
		return err
	}
	try, err := d.takeTry(w, r, who)
	if err != nil {
		return err
	}
	status, says := http.StatusTooManyRequests, lockedWords(store.Coach)
	if !try.isLocked() {
		right, err := d.matchesStep(r, who, form.Text("code"))
		if err != nil {
			return err
		}
		if right {
			return d.letInAfterStep(w, r, try, next)
		}
		status, says = http.StatusUnprocessableEntity, "that is not the code of this moment, and no recovery code that is left. Look at the program again; a code is good once"
	}
	form.Reject("code", says)
	return page.Render(w, r, status, stepPage(page.Frame{}, form))
}

// letInAfterStep gives the passphrase's try back too: it was right.
func (d *Pages) letInAfterStep(w http.ResponseWriter, r *http.Request, try try, next string) error {
	if try.kind == store.TryByStranger {
		if err := errors.Join(d.Store.ReturnTry(r.Context(), try.who), d.Store.ReturnNetworkTry(r.Context(), try.bucket)); err != nil {
			return err
		}
	}
	if err := d.Sessions.EndStep(w, r); err != nil {
		return err
	}
	return d.letIn(w, r, try, next)
}

func (d *Pages) matchesStep(r *http.Request, who store.Actor, typed string) (bool, error) {
	secret, err := d.Store.FindSecondStep(r.Context(), who)
	if err != nil || secret == nil {
		return false, err
	}
	if step, ok := account.MatchTOTP(secret, typed, d.now()); ok {
		return d.Store.UseSecondStep(r.Context(), who, step)
	}
	return d.Store.UseRecoveryCode(r.Context(), who, account.HashRecoveryCode(typed))
}
