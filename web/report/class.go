package report

import (
	"net/http"

	"breakwright/internal/store"
	"breakwright/web/page"
	"breakwright/web/picture"
	"breakwright/web/progress"
	"breakwright/web/session"

	"github.com/go-chi/chi/v5"
)

// classView is the report of a class.
type classView struct {
	sheetView
	Name string
	// Period is the time that sets are counted in, Done what was done in it.
	Period, Done string
	// Answer says how the class stands as one.
	Answer string
	Drills []drillLine
	Trying string
	Rows   []classLine
	// Tells and Hides are what the counts allow to be said, and what not.
	Tells, Hides []string
}

// drillLine is a drill that the class is given.
type drillLine struct{ Name, Says string }

// classLine is one student's row.
type classLine struct {
	progress.ClassRow
	// In is how many sets were closed in the period.
	In int
	// Range is where the true rate may lie, Drawn the rate drawn toward the class.
	Range, Likely string
	// Course is what the sets say one after another.
	Course string
}

func (p *Pages) showClass(w http.ResponseWriter, r *http.Request) error {
	id, err := store.ParseID[store.ClassID](chi.URLParam(r, "class"))
	if err != nil {
		return err
	}
	visitor, now := session.MustUser(r), p.now()
	span := spanOf(r.URL.Query().Get(fieldSpan))
	told, err := p.store.GetClassReport(r.Context(), visitor.Actor, id, span.upTo(now, visitor.Zone))
	if err != nil {
		return err
	}
	path := "/classes/" + id.String()
	v := classView{sheetView: p.sheetView(r, path+"/report"), Name: told.Class.Name, Period: span.words(now, visitor.Zone)}
	v.Title, v.Back = v.Name+", class report", page.NavLink{Path: path + "/progress", Words: v.Name + ", progress"}
	v.Form.Values.Set(fieldSpan, span.key)
	if err := v.fill(told, visitor); err != nil {
		return err
	}
	v.Frame = p.sessions.TakeFrame(w, r)
	return page.Render(w, r, http.StatusOK, classPage(v))
}

func (v *classView) fill(told store.ClassReport, visitor session.User) error {
	rows, kinds, err := progress.ClassRows(shortened(told.Students), visitor)
	if err != nil {
		return err
	}
	v.Done, v.Answer, v.Trying = doneWords(told.Students), answerOf(rows, kinds), tryingWords(told.Students)
	for _, a := range told.Drills {
		v.Drills = append(v.Drills, drillLineOf(a))
	}
	var courses courses
	for i, row := range rows {
		student := told.Students[i]
		line := classLine{ClassRow: row, In: student.Sets, Course: courses.add(student)}
		if row.Stint() != nil {
			line.Range, line.Likely = rangeWords(row.Wing), row.Drawn()
		}
		v.Rows = append(v.Rows, line)
	}
	v.Tells, v.Hides = tells(rows, courses), hides(rows, kinds)
	return nil
}

// sparkSets is how many sets have room in a row's drawing on paper.
const sparkSets = 8

// shortened gives where students stand, with as many sets as have room.
func shortened(students []store.ReportedStudent) []store.Standing {
	all := make([]store.Standing, len(students))
	for i, one := range students {
		all[i] = one.Standing
		all[i].Recent = one.Recent[max(0, len(one.Recent)-sparkSets):]
	}
	return all
}

func drillLineOf(a store.ListedAssignment) drillLine {
	says := ofWords(a.Done, a.For) + " have closed a set of it"
	if !a.Due.IsZero() {
		says = "due " + a.Due.Format("2 January 2006") + "; " + says
	}
	return drillLine{Name: a.DrillName, Says: says}
}

// key explains the bars.
func (v classView) key() []picture.LegendItem {
	rates := make([]picture.RateView, len(v.Rows))
	for i, row := range v.Rows {
		rates[i] = row.Wing
	}
	return picture.RateLegend(rates...)
}
