package club

import (
	"context"
	"net/http"

	"breakwright/internal/account"
	"breakwright/internal/store"
	"breakwright/web/page"
	"breakwright/web/route"
	"breakwright/web/session"
)

// clubView is the club's own page.
type clubView struct {
	Frame   page.Frame
	Form    *page.Form
	Zones   []page.Option
	Coaches []coachLine
	Former  []coachLine
	Invites []inviteLine
	// Link is an invitation that was just made, shown once.
	Link string
}

type coachLine struct {
	Path, Name, SignIn string
	Self, Locked       bool
}

type inviteLine struct{ Key, By, Until string }

func (p *Pages) showClub(w http.ResponseWriter, r *http.Request) error {
	return p.renderClub(w, r, http.StatusOK, clubView{})
}

// renderClub shows the page; with the form that was refused, or a new link, in v.
func (p *Pages) renderClub(w http.ResponseWriter, r *http.Request, status int, v clubView) error {
	club, err := p.store.GetClub(r.Context(), actor(r))
	if err != nil {
		return err
	}
	if v.Form == nil {
		v.Form = page.NewForm(map[string]string{"name": club.Name, "zone": club.Zone, "units": string(club.Units)})
	}
	v.Zones = page.ZoneOptions(club.Zone)
	if err := p.fillCoaches(r, &v); err != nil {
		return err
	}
	v.Frame = p.sessions.TakeFrame(w, r)
	return page.Render(w, r, status, clubPage(v))
}

func (p *Pages) fillCoaches(r *http.Request, v *clubView) error {
	user := session.MustUser(r)
	coaches, err := p.store.ListCoaches(r.Context(), user.Actor)
	if err != nil {
		return err
	}
	locked, err := p.store.ListLockedPeople(r.Context(), user.Actor)
	if err != nil {
		return err
	}
	isLocked := map[store.PersonID]bool{}
	for _, person := range locked {
		isLocked[person.ID] = true
	}
	for _, c := range coaches {
		v.Coaches = append(v.Coaches, coachLine{route.CoachPath(c.ID), c.Name, c.Login, c.ID == user.Person, isLocked[c.ID]})
	}
	former, err := p.store.ListFormerCoaches(r.Context(), user.Actor)
	if err != nil {
		return err
	}
	for _, c := range former {
		v.Former = append(v.Former, coachLine{Path: route.CoachPath(c.ID), Name: c.Name})
	}
	invites, err := p.store.ListInvites(r.Context(), user.Actor)
	for _, i := range invites {
		v.Invites = append(v.Invites, inviteLine{i.Key, i.InvitedBy, dayWords(i.Expires, user.Zone)})
	}
	return err
}

func (p *Pages) changeClub(w http.ResponseWriter, r *http.Request) error {
	form, err := page.ReadForm(w, r)
	if err != nil {
		return err
	}
	club := store.Club{Name: form.Text("name"), Zone: form.Text("zone"), Units: store.UnitChoice(form.Text("units"))}
	err = p.store.ChangeClub(r.Context(), actor(r), club)
	if form.AddProblems(err) {
		return p.renderClub(w, r, http.StatusUnprocessableEntity, clubView{Form: form})
	}
	if err != nil {
		return err
	}
	p.sessions.SetFlash(w, r, "Saved.")
	return page.Redirect(w, r, "/club")
}

// inviteCoach shows the link on the page itself: it is kept nowhere.
func (p *Pages) inviteCoach(w http.ResponseWriter, r *http.Request) error {
	token, hash := account.NewToken()
	if err := p.store.InviteCoach(r.Context(), actor(r), hash, p.now()); err != nil {
		return err
	}
	return p.renderClub(w, r, http.StatusOK, clubView{Link: p.url + "/invite/" + token})
}

func (p *Pages) withdrawInvite(w http.ResponseWriter, r *http.Request) error {
	form, err := page.ReadForm(w, r)
	if err != nil {
		return err
	}
	if err := p.store.WithdrawInvite(r.Context(), actor(r), form.Text("key")); err != nil {
		return err
	}
	p.sessions.SetFlash(w, r, "That link opens nothing any more.")
	return page.Redirect(w, r, "/club")
}

func (p *Pages) removeCoach(w http.ResponseWriter, r *http.Request) error {
	return p.changeCoach(w, r, p.store.ArchivePerson, " is no coach here any more, and is signed out. You can restore them below.")
}

func (p *Pages) restoreCoach(w http.ResponseWriter, r *http.Request) error {
	return p.changeCoach(w, r, p.store.RestorePerson, " is a coach again. Their sign-in name and passphrase work.")
}

func (p *Pages) freeCoach(w http.ResponseWriter, r *http.Request) error {
	return p.changeCoach(w, r, p.store.FreePerson, " can try again now.")
}

// personChange is something that the store does to a person.
type personChange func(ctx context.Context, v store.Actor, person store.PersonID) error

// findCoach gets the coach that the address names; a student's id is nobody's here.
func (p *Pages) findCoach(r *http.Request) (store.Person, error) {
	person, err := session.FindNamed(r, "coach", p.store.GetPerson)
	if err == nil && person.Role != store.Coach {
		return store.Person{}, store.ErrNotFound
	}
	return person, err
}

// changeCoach does something to the coach that the address names.
func (p *Pages) changeCoach(w http.ResponseWriter, r *http.Request, change personChange, says string) error {
	coach, err := p.findCoach(r)
	if err != nil {
		return err
	}
	if err := change(r.Context(), actor(r), coach.ID); err != nil {
		return err
	}
	p.sessions.SetFlash(w, r, coach.Name+says)
	return page.Redirect(w, r, "/club")
}
