package paper

import (
	"net/http"
	"strings"

	"breakwright/internal/say"
	"breakwright/internal/store"
	"breakwright/web/component"
	"breakwright/web/page"
	"breakwright/web/picture"
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

// pocketCard is one card.
type pocketCard struct {
	ID, Name, Club, Table, Date string
	store.BreakCard
}

func (c pocketCard) tablePicture() picture.TableView {
	view := picture.SetupTable(c.ID, c.Setup, c.BreakCard.Table.Kind)
	view.Title, view.Distances = "Break for "+c.Table, false
	return view
}

// setupLines are the parts a student needs at the table; the rest is in the picture.
func (c pocketCard) setupLines() []component.SetupPart {
	var lines []component.SetupPart
	for _, part := range component.ListSetupParts(c.Setup, c.BreakCard.Table.Kind) {
		switch part.Name {
		case "Cue ball", "Contact", "Tip", "Speed", "Order", "Wing ball":
			part.Words = strings.Replace(part.Words, " of the long string", "", 1)
			lines = append(lines, part)
		}
	}
	return lines
}

func (v breakCardsView) headline() string {
	whose := v.Name + " has "
	if v.Own {
		whose = "You have "
	}
	switch n := len(v.Cards); {
	case n == 0:
		return whose + "no break card yet."
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
	v := breakCardsView{Name: student.Name, Back: page.NavLink{Path: "/students/" + student.ID.String(), Words: student.Name}}
	return p.renderBreakCards(w, r, v, student.ID, student.Name)
}

// showOwnCards prints a student's own.
func (p *Pages) showOwnCards(w http.ResponseWriter, r *http.Request) error {
	visitor := session.MustUser(r)
	v := breakCardsView{Own: true, Back: page.NavLink{Path: "/my/sets", Words: "My breaks"}}
	return p.renderBreakCards(w, r, v, visitor.Actor.Person, visitor.Name)
}

func (p *Pages) renderBreakCards(w http.ResponseWriter, r *http.Request, v breakCardsView, id store.PersonID, name string) error {
	visitor := session.MustUser(r)
	cards, err := p.store.ListCards(r.Context(), visitor.Actor, id)
	if err != nil {
		return err
	}
	for _, c := range cards {
		v.Cards = append(v.Cards, pocketCard{
			ID: "card-" + c.ID.String(), Name: name, Club: visitor.Club, Table: c.Table.Label(),
			Date: say.Day(c.Issued.In(visitor.Zone)), BreakCard: c,
		})
	}
	v.Frame = p.sessions.TakeFrame(w, r)
	return page.Render(w, r, http.StatusOK, breakCardsPage(v))
}

// navPath is the entry of the navigation that the page belongs to.
func (v breakCardsView) navPath() string {
	if v.Own {
		return "/my/sets"
	}
	return "/classes"
}
