package report

import (
	"net/http"

	"github.com/go-chi/chi/v5"

	"breakwright/internal/say"
	"breakwright/internal/store"
	"breakwright/web/page"
	"breakwright/web/picture"
	"breakwright/web/progress"
	"breakwright/web/route"
	"breakwright/web/session"
)

// classReportView is the report of a class.
type classReportView struct {
	reportSheetView
	Name string
	// Period is the time that sets are counted in, Done what was done in it.
	Period, Done string
	// Answer says how the class stands as one.
	Answer string
	Drills []drillReportLine
	Trying string
	Rows   []classReportRow
	// Tells and Hides are what the counts allow to be said, and what not.
	Allowed, Forbidden []string
}

// drillReportLine is a drill that the class is given.
type drillReportLine struct{ Name, Says string }

// classReportRow is one student's row.
type classReportRow struct {
	progress.ClassRow
	// In is how many sets were closed in the period.
	In int
	// Range is where the true rate may lie, Drawn the rate drawn toward the class.
	Range, Likely string
	// Course is what the sets say one after another.
	Course string
}

func (p *Pages) showClassReport(w http.ResponseWriter, r *http.Request) error {
	id, err := store.ParseID[store.ClassID](chi.URLParam(r, "class"))
	if err != nil {
		return err
	}
	user, now := session.MustUser(r), p.now()
	span := findTimeSpan(r.URL.Query().Get(fieldSpan))
	report, err := p.store.GetClassReport(r.Context(), user.Actor, id, span.storeSpan(now, user.Zone))
	if err != nil {
		return err
	}
	path := route.ClassPath(id)
	v := classReportView{reportSheetView: p.newSheetView(r, path+"/report"), Name: report.Class.Name, Period: span.spanWords(now, user.Zone)}
	v.Title, v.Back = v.Name+", class report", page.NavLink{Path: path + "/progress", Words: v.Name + ", progress"}
	v.Form.Values.Set(fieldSpan, span.key)
	if err := v.fillReport(report, user); err != nil {
		return err
	}
	v.Frame = p.sessions.TakeFrame(w, r)
	return page.Render(w, r, http.StatusOK, classReportPage(v))
}

func (v *classReportView) fillReport(report store.ClassReport, user session.User) error {
	rows, kinds, err := progress.ClassRows(withLatestSets(report.Students), user)
	if err != nil {
		return err
	}
	v.Done, v.Answer, v.Trying = doneInPeriodWords(report.Students), classHeadline(rows, kinds), tryingWords(report.Students)
	for _, a := range report.Drills {
		v.Drills = append(v.Drills, newDrillLine(a))
	}
	var courses courseGroups
	for i, row := range rows {
		student := report.Students[i]
		line := classReportRow{ClassRow: row, In: student.Sets, Course: courses.addStudent(student)}
		if row.Stint() != nil {
			line.Range, line.Likely = rateRangeWords(row.Wing), row.LikelyWords()
		}
		v.Rows = append(v.Rows, line)
	}
	v.Allowed, v.Forbidden = allowedConclusions(rows, courses), forbiddenConclusions(rows, kinds)
	return nil
}

// sparkSets is how many sets have room in a row's drawing on paper.
const sparkSets = 8

// withLatestSets returns where students stand, with as many sets as have room.
func withLatestSets(students []store.ReportedStudent) []store.Standing {
	all := make([]store.Standing, len(students))
	for i, one := range students {
		all[i] = one.Standing
		all[i].Recent = one.Recent[max(0, len(one.Recent)-sparkSets):]
	}
	return all
}

func newDrillLine(a store.ListedAssignment) drillReportLine {
	says := say.OfTotal(a.Done, a.For) + " have closed a set of it"
	if !a.Due.IsZero() {
		says = "due " + say.Day(a.Due) + "; " + says
	}
	return drillReportLine{Name: a.DrillName, Says: says}
}

// legend explains the bars.
func (v classReportView) legend() []picture.LegendItem {
	rates := make([]picture.RateView, len(v.Rows))
	for i, row := range v.Rows {
		rates[i] = row.Wing
	}
	return picture.RateLegend(rates...)
}
