package privacy

import (
	"net/http"
	"strings"

	"github.com/go-chi/chi/v5"

	"breakwright/internal/store"
	"breakwright/web/page"
	"breakwright/web/route"
	"breakwright/web/session"
)

// eraseView asks for the name before somebody, or the whole club, is erased.
type eraseView struct {
	Frame page.Frame
	Form  *page.Form
	// Name is what has to be typed, Path the form's address; Back leads out.
	Name, Path, Back string
	// Passphrase says that the coach's own is asked for, too.
	Passphrase bool
}

func (p *Pages) showEraseStudent(w http.ResponseWriter, r *http.Request) error {
	return p.renderEraseStudent(w, r, http.StatusOK, page.NewForm(nil))
}

func (p *Pages) renderEraseStudent(w http.ResponseWriter, r *http.Request, status int, form *page.Form) error {
	student, err := p.findStudent(r)
	if err != nil {
		return err
	}
	at := route.StudentPath(student.ID)
	return page.Render(w, r, status, eraseStudentPage(eraseView{
		Frame: p.sessions.TakeFrame(w, r), Form: form, Name: student.Name, Path: at + "/erase", Back: at,
	}))
}

func (p *Pages) eraseStudent(w http.ResponseWriter, r *http.Request) error {
	form, err := page.ReadForm(w, r)
	if err != nil {
		return err
	}
	student, err := p.findStudent(r)
	if err != nil {
		return err
	}
	if requireName(form, student.Name); !form.IsValid() {
		return p.renderEraseStudent(w, r, http.StatusUnprocessableEntity, form)
	}
	if err := p.store.EraseStudent(r.Context(), actor(r), student.ID); err != nil {
		return err
	}
	p.sessions.SetFlash(w, r, "Erased. Files of exports and imports that were waiting here are gone too.")
	return page.Redirect(w, r, "/students")
}

// requireName refuses a form without the name that is to be typed.
func requireName(form *page.Form, name string) {
	if !strings.EqualFold(strings.Join(strings.Fields(form.Text("name")), " "), strings.Join(strings.Fields(name), " ")) {
		form.Reject("name", "type the name as it stands above")
	}
}

// findFormerCoach finds one who was removed before.
func (p *Pages) findFormerCoach(r *http.Request) (store.FormerCoach, error) {
	former, err := p.store.ListFormerCoaches(r.Context(), actor(r))
	if err != nil {
		return store.FormerCoach{}, err
	}
	for _, coach := range former {
		if coach.ID.String() == chi.URLParam(r, "coach") {
			return coach, nil
		}
	}
	return store.FormerCoach{}, store.ErrNotFound
}

func (p *Pages) showEraseCoach(w http.ResponseWriter, r *http.Request) error {
	coach, err := p.findFormerCoach(r)
	if err != nil {
		return err
	}
	return p.renderEraseCoach(w, r, http.StatusOK, coach, page.NewForm(nil))
}

func (p *Pages) renderEraseCoach(w http.ResponseWriter, r *http.Request, status int, coach store.FormerCoach, form *page.Form) error {
	return page.Render(w, r, status, eraseCoachPage(eraseView{
		Frame: p.sessions.TakeFrame(w, r), Form: form, Name: coach.Name, Path: route.CoachPath(coach.ID) + "/erase", Back: "/club",
	}))
}

func (p *Pages) eraseCoach(w http.ResponseWriter, r *http.Request) error {
	coach, form, err := page.ReadFormOf(w, r, p.findFormerCoach)
	if err != nil {
		return err
	}
	if requireName(form, coach.Name); !form.IsValid() {
		return p.renderEraseCoach(w, r, http.StatusUnprocessableEntity, coach, form)
	}
	if err := p.store.EraseCoach(r.Context(), actor(r), coach.ID); err != nil {
		return err
	}
	p.sessions.SetFlash(w, r, "Erased. What they decided stays, as that of a former coach.")
	return page.Redirect(w, r, "/club")
}

func (p *Pages) showEraseClub(w http.ResponseWriter, r *http.Request) error {
	return p.renderEraseClub(w, r, http.StatusOK, page.NewForm(nil))
}

func (p *Pages) renderEraseClub(w http.ResponseWriter, r *http.Request, status int, form *page.Form) error {
	return page.Render(w, r, status, eraseClubPage(eraseView{
		Frame: p.sessions.TakeFrame(w, r), Form: form, Name: session.MustUser(r).Club, Path: "/club/erase", Back: "/club", Passphrase: true,
	}))
}

// eraseClub takes the club's name and the coach's passphrase, which counts as a
// try at the sign-in does.
func (p *Pages) eraseClub(w http.ResponseWriter, r *http.Request) error {
	form, err := page.ReadForm(w, r)
	if err != nil {
		return err
	}
	requireName(form, session.MustUser(r).Club)
	if err := p.checkPassphrase(w, r, form); err != nil {
		return err
	}
	if !form.IsValid() {
		return p.renderEraseClub(w, r, http.StatusUnprocessableEntity, form)
	}
	if err := p.store.EraseClub(r.Context(), actor(r)); err != nil {
		return err
	}
	return page.Redirect(w, r, "/sign-in")
}

// checkPassphrase refuses one that is not the coach's.
func (p *Pages) checkPassphrase(w http.ResponseWriter, r *http.Request, form *page.Form) error {
	device, err := p.sessions.DeviceHash(w, r)
	if err != nil {
		return err
	}
	right, err := p.secret.IsRight(r.Context(), actor(r), device, form.RawText("present"))
	if err == nil && !right {
		form.Reject("present", "that is not your passphrase")
	}
	return err
}
