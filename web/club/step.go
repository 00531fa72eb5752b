package club

import (
	"errors"
	"fmt"
	"net/http"

	"breakwright/internal/account"
	"breakwright/internal/store"
	"breakwright/web/component"
	"breakwright/web/page"
	"breakwright/web/session"
)

// stepView is the page of the second step, in one of its states: none, begun,
// just confirmed, or in use.
type stepView struct {
	Frame page.Frame
	Form  *page.Form
	// Secret is what is typed into a program by hand while it is begun; QR the same.
	Secret string
	QR     component.QRCode
	// Fresh are the recovery codes, shown once.
	Fresh []string
	Used  bool // in use
	Says  string
}

// stepWords says on the account page how it stands.
func (p *Pages) stepWords(r *http.Request) (string, error) {
	if !actor(r).IsCoach() {
		return "", nil
	}
	step, err := p.store.GetSecondStep(r.Context(), actor(r))
	if err != nil || !step.Confirmed {
		return "Off. With it, your passphrase alone lets nobody in: a program on your phone shows six digits that change every half minute.", err
	}
	return fmt.Sprintf("On. %d of %d recovery codes are left.", step.RecoveryCodes, account.RecoveryCodes), nil
}

func (p *Pages) showStep(w http.ResponseWriter, r *http.Request) error {
	return p.renderStep(w, r, http.StatusOK, stepView{Form: page.NewForm(nil)})
}

func (p *Pages) renderStep(w http.ResponseWriter, r *http.Request, status int, v stepView) error {
	user := session.MustUser(r)
	step, err := p.store.GetSecondStep(r.Context(), user.Actor)
	if err != nil {
		return err
	}
	if v.Says, err = p.stepWords(r); err != nil {
		return err
	}
	v.Used = step.Confirmed
	if step.Secret != nil && !step.Confirmed {
		person, err := p.store.GetPerson(r.Context(), user.Actor, user.Person)
		if err != nil {
			return err
		}
		v.Secret = account.FormatTOTPSecret(step.Secret)
		v.QR, err = component.EncodeQRCode(account.TOTPAddress(step.Secret, user.Club, person.Login), "QR code with the secret for an authenticator program")
		if err != nil {
			return err
		}
	}
	v.Frame = p.sessions.TakeFrame(w, r)
	return page.Render(w, r, status, stepPage(v))
}

func (p *Pages) beginStep(w http.ResponseWriter, r *http.Request) error {
	if err := p.store.BeginSecondStep(r.Context(), actor(r), account.NewTOTPSecret()); err != nil {
		return err
	}
	return page.Redirect(w, r, "/account/step")
}

// wrongCode refuses a code that the program does not show now.
const wrongCode = "that is not the code of this moment; look at the program again, and at the clock of the phone"

// confirmStep takes a first code, so that nobody locks themself out with a
// program that did not read the secret, and shows the recovery codes once.
func (p *Pages) confirmStep(w http.ResponseWriter, r *http.Request) error {
	form, err := page.ReadForm(w, r)
	if err != nil {
		return err
	}
	step, err := p.store.GetSecondStep(r.Context(), actor(r))
	if err != nil {
		return err
	}
	if step.Secret == nil || step.Confirmed {
		return page.Redirect(w, r, "/account/step")
	}
	number, right := account.MatchTOTP(step.Secret, form.Text("code"), p.now())
	if !right {
		form.Reject("code", wrongCode)
		return p.renderStep(w, r, http.StatusUnprocessableEntity, stepView{Form: form})
	}
	codes, hashes := newRecoveryCodes()
	if err := p.store.ConfirmSecondStep(r.Context(), actor(r), number, hashes); err != nil {
		return err
	}
	return p.renderStep(w, r, http.StatusOK, stepView{Form: page.NewForm(nil), Fresh: codes})
}

// newRecoveryCodes makes them, and the hashes that are kept.
func newRecoveryCodes() (codes []string, hashes [][]byte) {
	codes = account.NewRecoveryCodes()
	for _, code := range codes {
		hashes = append(hashes, account.HashRecoveryCode(code))
	}
	return codes, hashes
}

func (p *Pages) showNewCodesForm(w http.ResponseWriter, r *http.Request) error {
	return p.renderNewCodes(w, r, http.StatusOK, page.NewForm(nil))
}

func (p *Pages) renderNewCodes(w http.ResponseWriter, r *http.Request, status int, form *page.Form) error {
	says, err := p.stepWords(r)
	if err != nil {
		return err
	}
	return page.Render(w, r, status, newCodesPage(stepView{Frame: p.sessions.TakeFrame(w, r), Form: form, Says: says}))
}

// makeNewCodes gives who proves the passphrase and the program new recovery codes, and
// shows them once; the old ones end.
func (p *Pages) makeNewCodes(w http.ResponseWriter, r *http.Request) error {
	form, err := page.ReadForm(w, r)
	if err != nil {
		return err
	}
	device, err := p.sessions.DeviceHash(w, r)
	if err != nil {
		return err
	}
	step, err := p.store.GetSecondStep(r.Context(), actor(r))
	if err != nil {
		return err
	}
	if err := p.checkSecret(r, form, device); err != nil {
		return err
	}
	number, right := account.MatchTOTP(step.Secret, form.Text("code"), p.now())
	if !right || !step.Confirmed {
		form.Reject("code", wrongCode)
	}
	if !form.IsValid() {
		return p.renderNewCodes(w, r, http.StatusUnprocessableEntity, form)
	}
	codes, hashes := newRecoveryCodes()
	err = p.store.ReplaceRecoveryCodes(r.Context(), actor(r), number, hashes)
	if errors.Is(err, store.ErrConflict) {
		form.Reject("code", "that code was used already; wait for the next")
		return p.renderNewCodes(w, r, http.StatusUnprocessableEntity, form)
	}
	if err != nil {
		return err
	}
	return p.renderStep(w, r, http.StatusOK, stepView{Form: page.NewForm(nil), Fresh: codes})
}

// dropStep takes the second step away from who proves the passphrase.
func (p *Pages) dropStep(w http.ResponseWriter, r *http.Request) error {
	form, err := page.ReadForm(w, r)
	if err != nil {
		return err
	}
	device, err := p.sessions.DeviceHash(w, r)
	if err != nil {
		return err
	}
	if err := p.checkSecret(r, form, device); err != nil {
		return err
	}
	if !form.IsValid() {
		return p.renderStep(w, r, http.StatusUnprocessableEntity, stepView{Form: form})
	}
	if err := p.store.DropSecondStep(r.Context(), actor(r)); err != nil {
		return err
	}
	p.sessions.SetFlash(w, r, "The second step is off.")
	return page.Redirect(w, r, "/account/step")
}
