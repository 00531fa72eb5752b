package drills

import (
	"errors"
	"fmt"
	"net/http"

	"breakwright/internal/drill"
	"breakwright/internal/library"
	"breakwright/internal/rack"
	"breakwright/internal/say"
	"breakwright/internal/store"
	"breakwright/internal/table"
	"breakwright/web/page"
	"breakwright/web/picture"
	"breakwright/web/route"
	"breakwright/web/session"
)

// fieldLesson names the lesson that is taken; fieldAgain says that a second drill
// of its name is meant.
const (
	fieldLesson = "lesson"
	fieldAgain  = "again"
)

// libraryView is the page of the lessons of one game on one size of table.
type libraryView struct {
	Frame page.Frame
	Form  *page.Form // game and feet, as chosen
	Game  rack.Game
	Kind  table.Kind
	Rows  []libraryLessonRow
}

// libraryLessonRow is one lesson as the drill that would be taken.
type libraryLessonRow struct {
	library.Lesson
	Drill drill.Drill
	ID    string // of what the row's form makes
	Had   string // the address of the club's drill of this name, "" for none
}

func (l libraryLessonRow) thumbnail() picture.TableView {
	view := picture.DrillTable("lesson-"+l.Key, l.Drill)
	view.Title, view.Distances = l.Drill.Name, false
	return view
}

func (v libraryView) headline() string {
	return say.Count(len(v.Rows), "drill", "drills") + " of " + v.Game.Words() + " to begin with, each for one thing."
}

func (p *Pages) showLibrary(w http.ResponseWriter, r *http.Request) error {
	v := libraryView{}
	v.readChoices(r.URL.Query().Get(fieldGame), r.URL.Query().Get(fieldFeet))
	return p.renderLibrary(w, r, http.StatusOK, v)
}

// renderLibrary lists the lessons of the game and table chosen.
func (p *Pages) renderLibrary(w http.ResponseWriter, r *http.Request, status int, v libraryView) error {
	drills, err := p.store.ListDrills(r.Context(), session.MustUser(r).Actor, store.ActiveOnly)
	if err != nil {
		return err
	}
	had := map[string]string{}
	for _, d := range drills {
		had[d.Name] = route.DrillPath(d.ID)
	}
	for _, l := range library.AllLessons() {
		if !l.HasGame(v.Game) {
			continue
		}
		d := l.DrillFor(v.Game, v.Kind)
		v.Rows = append(v.Rows, libraryLessonRow{Lesson: l, Drill: d, ID: newFormID(), Had: had[d.Name]})
	}
	v.Frame = p.sessions.TakeFrame(w, r)
	return page.Render(w, r, status, libraryPage(v))
}

// findDrillNamed returns the address of the club's drill of a name, "" for none.
func (p *Pages) findDrillNamed(r *http.Request, name string) (string, error) {
	drills, err := p.store.ListDrills(r.Context(), session.MustUser(r).Actor, store.ActiveOnly)
	for _, d := range drills {
		if d.Name == name {
			return route.DrillPath(d.ID), err
		}
	}
	return "", err
}

// readChoices reads game and size of table; anything else is the usual ones.
func (v *libraryView) readChoices(game, feet string) {
	v.Game, v.Kind = rack.NineBall, table.NineFoot()
	if g, err := rack.ParseGame(game); err == nil {
		v.Game = g
	}
	if k, err := table.ParseSize(feet); err == nil {
		v.Kind = k
	}
	v.Form = page.NewForm(map[string]string{fieldGame: string(v.Game), fieldFeet: v.Kind.Size()})
}

// takeLesson makes a drill of the club's out of a lesson, once for each form.
func (p *Pages) takeLesson(w http.ResponseWriter, r *http.Request) error {
	form, err := page.ReadForm(w, r)
	if err != nil {
		return err
	}
	v := libraryView{}
	v.readChoices(form.Text(fieldGame), form.Text(fieldFeet))
	lesson, found := library.FindLesson(form.Text(fieldLesson))
	if !found || !lesson.HasGame(v.Game) {
		return fmt.Errorf("take a lesson: %w", store.ErrNotFound)
	}
	actor := session.MustUser(r).Actor
	id := store.DrillID{UUID: idFromForm(form, lesson.Key+" "+string(v.Game)+" "+v.Kind.String())}
	made, err := p.store.GetDrill(r.Context(), actor, id)
	if errors.Is(err, store.ErrNotFound) {
		d := lesson.DrillFor(v.Game, v.Kind)
		had, err := p.findDrillNamed(r, d.Name)
		if err != nil {
			return err
		}
		if had != "" && !form.Has(fieldAgain) {
			v.Form.Reject(fieldLesson, "you have a drill named “"+d.Name+"” already. Open it, or add another one below")
			return p.renderLibrary(w, r, http.StatusConflict, v)
		}
	}
	if errors.Is(err, store.ErrNotFound) {
		made, err = p.store.SaveDrill(r.Context(), actor, id, lesson.DrillFor(v.Game, v.Kind))
	}
	if err != nil {
		return err
	}
	p.sessions.SetFlash(w, r, "Added: it is your drill now. Change what you like, or assign it as it stands.")
	return page.Redirect(w, r, route.DrillPath(made.ID))
}
