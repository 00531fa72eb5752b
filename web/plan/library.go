package plan

import (
	"errors"
	"fmt"
	"net/http"
	"strconv"

	"breakwright/internal/drill"
	"breakwright/internal/library"
	"breakwright/internal/rack"
	"breakwright/internal/store"
	"breakwright/internal/table"
	"breakwright/web/page"
	"breakwright/web/picture"
	"breakwright/web/session"
)

// fieldLesson names the lesson that is taken.
const fieldLesson = "lesson"

// libraryView is the page of the lessons of one game on one size of table.
type libraryView struct {
	Frame page.Frame
	Form  *page.Form // game and feet, as chosen
	Game  rack.Game
	Kind  table.Kind
	Rows  []lessonRow
}

// lessonRow is one lesson as the drill that would be taken.
type lessonRow struct {
	library.Lesson
	Drill drill.Drill
	ID    string // of what the row's form makes
	Had   bool   // the club has a drill of this name
}

func (l lessonRow) stamp() picture.TableView {
	view := picture.DrillTable("lesson-"+l.Key, l.Drill)
	view.Title, view.Distances = l.Drill.Name, false
	return view
}

func (v libraryView) answer() string {
	return count(len(v.Rows), "drill", "drills") + " of " + v.Game.Words() + " to begin with, each for one thing."
}

func (p *Plan) showLibrary(w http.ResponseWriter, r *http.Request) error {
	v := libraryView{}
	v.choose(r.URL.Query().Get(fieldGame), r.URL.Query().Get(fieldFeet))
	drills, err := p.store.ListDrills(r.Context(), session.MustUser(r).Actor, store.ActiveOnly)
	if err != nil {
		return err
	}
	had := map[string]bool{}
	for _, d := range drills {
		had[d.Name] = true
	}
	for _, l := range library.All() {
		if !l.Has(v.Game) {
			continue
		}
		d := l.Drill(v.Game, v.Kind)
		v.Rows = append(v.Rows, lessonRow{Lesson: l, Drill: d, ID: newID(), Had: had[d.Name]})
	}
	v.Frame = p.sessions.TakeFrame(w, r)
	return page.Render(w, r, http.StatusOK, libraryPage(v))
}

// choose reads game and size of table; anything else is the usual ones.
func (v *libraryView) choose(game, feet string) {
	v.Game, v.Kind = rack.NineBall, table.NineFoot()
	if g, err := rack.ParseGame(game); err == nil {
		v.Game = g
	}
	if n, err := strconv.Atoi(feet); err == nil {
		if k, err := table.Make(n, 0, 0); err == nil {
			v.Kind = k
		}
	}
	v.Form = page.NewForm(map[string]string{fieldGame: string(v.Game), fieldFeet: strconv.Itoa(v.Kind.Feet)})
}

// takeLesson makes a drill of the club's out of a lesson, once for each form.
func (p *Plan) takeLesson(w http.ResponseWriter, r *http.Request) error {
	form, err := page.ReadForm(w, r)
	if err != nil {
		return err
	}
	v := libraryView{}
	v.choose(form.Text(fieldGame), form.Text(fieldFeet))
	lesson, found := library.Find(form.Text(fieldLesson))
	if !found || !lesson.Has(v.Game) {
		return fmt.Errorf("take a lesson: %w", store.ErrNotFound)
	}
	viewer := session.MustUser(r).Actor
	id := store.DrillID{UUID: madeBy(form, lesson.Key+" "+string(v.Game)+" "+v.Kind.String())}
	made, err := p.store.GetDrill(r.Context(), viewer, id)
	if errors.Is(err, store.ErrNotFound) {
		made, err = p.store.SaveDrill(r.Context(), viewer, id, lesson.Drill(v.Game, v.Kind))
	}
	if err != nil {
		return err
	}
	p.sessions.SetFlash(w, r, "Taken: it is your drill now. Change what you like, or assign it as it stands.")
	return page.Redirect(w, r, "/drills/"+made.ID.String())
}
