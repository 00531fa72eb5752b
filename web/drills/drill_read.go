package drills

import (
	"net/http"
	"net/url"

	"breakwright/internal/drill"
	"breakwright/internal/library"
	"breakwright/internal/store"
	"breakwright/web/component"
	"breakwright/web/page"
	"breakwright/web/route"
)

// readView is a page to read and print: a drill of the club's, or a lesson before
// it is taken.
type readView struct {
	Frame page.Frame
	Drill drill.Drill
	// Path is the drill's own address; "" for a lesson.
	Path     string
	Archived bool
	// Lesson is the lesson as a row of the library; nil for a drill.
	Lesson *libraryLessonRow
	Form   *page.Form // game and feet of a lesson
}

func (v readView) setup() component.SetupView {
	return component.SetupView{ID: "drill", Setup: v.Drill.Setup, Kind: v.Drill.Kind, Window: v.Drill.Window, Box: v.Drill.House.BreakBox}
}

// readDrillPage shows a drill as a student sees it, to read and to print.
func (p *Pages) readDrillPage(w http.ResponseWriter, r *http.Request) error {
	d, err := p.findDrill(r)
	if err != nil {
		return err
	}
	v := readView{Frame: p.sessions.TakeFrame(w, r), Drill: d.Drill, Path: route.DrillPath(d.ID), Archived: d.Archived}
	return page.Render(w, r, http.StatusOK, readPage(v))
}

// readLesson shows a lesson whole before it becomes a drill of the club's.
func (p *Pages) readLesson(w http.ResponseWriter, r *http.Request) error {
	in := libraryView{}
	in.readChoices(r.URL.Query().Get(fieldGame), r.URL.Query().Get(fieldFeet))
	lesson, found := library.FindLesson(r.URL.Query().Get(fieldLesson))
	if !found || !lesson.HasGame(in.Game) {
		return store.ErrNotFound
	}
	d := lesson.DrillFor(in.Game, in.Kind)
	had, err := p.findDrillNamed(r, d.Name)
	if err != nil {
		return err
	}
	row := libraryLessonRow{Lesson: lesson, Drill: d, ID: newFormID(), Had: had}
	v := readView{Frame: p.sessions.TakeFrame(w, r), Drill: d, Lesson: &row, Form: in.Form}
	return page.Render(w, r, http.StatusOK, readPage(v))
}

// lookPath is where a lesson is looked at whole.
func (l libraryLessonRow) lookPath(choices *page.Form) string {
	q := url.Values{fieldLesson: {l.Key}, fieldGame: {choices.RawText(fieldGame)}, fieldFeet: {choices.RawText(fieldFeet)}}
	return "/drills/library/lesson?" + q.Encode()
}
