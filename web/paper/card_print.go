package paper

import (
	"net/http"

	"breakwright/internal/say"
	"breakwright/internal/store"
	"breakwright/web/page"
	"breakwright/web/route"
	"breakwright/web/session"
)

// breakCardsView is a student's break cards, to be cut out.
type breakCardsView struct {
	Frame page.Frame
	Back  page.NavLink
	// Name is the student's; "" on their own page.
	Name  string
	Cards []pocketCard
	// Own says that the student is looking.
	Own bool
}

func (v breakCardsView) headline() string {
	whose := v.Name + " has "
	if v.Own {
		whose = "You have "
	}
	switch n := len(v.Cards); {
	case n == 0:
		return whose + "no break card yet."
	case n == 1:
		return whose + "one break card."
	default:
		return whose + say.CountFromOne(n, "break card", "break cards") + ", one a table."
	}
}

// showBreakCards prints the cards of a student.
func (p *Pages) showBreakCards(w http.ResponseWriter, r *http.Request) error {
	student, err := p.findStudent(r)
	if err != nil {
		return err
	}
	v := breakCardsView{Name: student.Name, Back: page.NavLink{Path: route.StudentPath(student.ID), Words: student.Name}}
	return p.renderBreakCards(w, r, v, student.ID, student.Name)
}

// showOwnCards prints a student's own.
func (p *Pages) showOwnCards(w http.ResponseWriter, r *http.Request) error {
	user := session.MustUser(r)
	v := breakCardsView{Own: true, Back: page.NavLink{Path: "/my/sets", Words: "My breaks"}}
	return p.renderBreakCards(w, r, v, user.Actor.Person, user.Name)
}

func (p *Pages) renderBreakCards(w http.ResponseWriter, r *http.Request, v breakCardsView, id store.PersonID, name string) error {
	user := session.MustUser(r)
	cards, err := p.store.ListCards(r.Context(), user.Actor, id)
	if err != nil {
		return err
	}
	var history store.History
	if len(cards) > 0 {
		if history, err = p.store.GetHistory(r.Context(), user.Actor, id); err != nil {
			return err
		}
	}
	for _, c := range cards {
		card := pocketCard{
			ID: "card-" + c.ID.String(), Name: name, Club: user.Club, Table: c.Table.Label(),
			Date: say.Day(c.Issued.In(user.Zone)), BreakCard: c,
		}
		set, err := p.store.GetSet(r.Context(), user.Actor, c.Set)
		if err != nil {
			return err
		}
		card.fill(set, history.Sets)
		v.Cards = append(v.Cards, card)
	}
	v.Frame = p.sessions.TakeFrame(w, r)
	return page.Render(w, r, http.StatusOK, breakCardsPage(v))
}

// navPath is the entry of the navigation that the page belongs to.
func (v breakCardsView) navPath() string {
	if v.Own {
		return "/my/sets"
	}
	return "/students"
}
