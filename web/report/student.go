package report

import (
	"context"
	"net/http"
	"slices"
	"strings"

	"github.com/go-chi/chi/v5"

	"breakwright/internal/say"
	"breakwright/internal/store"
	"breakwright/web/component"
	"breakwright/web/page"
	"breakwright/web/progress"
	"breakwright/web/route"
	"breakwright/web/session"
)

// studentReportView is the report of one student.
type studentReportView struct {
	reportSheetView
	To         reader
	Name, Side string
	// Period is from the first day of Way to the last.
	Period string
	// Story is what the pages about progress tell; its steps are in Way.
	Story    progress.Story
	Now      *presentStintView
	Next     *nextPractice
	Timeline []timelineLine
	Cards    []breakCardView
	// Before says what was done before the first line of Way, "" for nothing.
	Before string
	Open   string
}

// breakCardView is a break card that is in force.
type breakCardView struct {
	Table, Says, Issued string
	// Parts are the card's setup; none when it is the present one, which is
	// told above.
	Parts []component.SetupPart
}

// presentStintView is the stint that a student is in.
type presentStintView struct {
	Title, Says string
	Parts       []component.SetupPart
}

func (p *Pages) showStudentReport(w http.ResponseWriter, r *http.Request) error {
	id, err := store.ParseID[store.PersonID](chi.URLParam(r, "student"))
	if err != nil {
		return err
	}
	path := route.StudentPath(id)
	return p.renderStudent(w, r, id, page.NavLink{Path: path}, path+"/report")
}

// showOwnReport is the student's own.
func (p *Pages) showOwnReport(w http.ResponseWriter, r *http.Request) error {
	return p.renderStudent(w, r, session.MustUser(r).Person, page.NavLink{Path: "/my/progress", Words: "My progress"}, "/my/report")
}

func (p *Pages) renderStudent(w http.ResponseWriter, r *http.Request, id store.PersonID, back page.NavLink, path string) error {
	history, err := p.loadStory(r.Context(), session.MustUser(r).Actor, id)
	if err != nil {
		return err
	}
	v := studentReportView{reportSheetView: p.newSheetView(r, path), Name: history.Student.Name, To: reader(!session.MustUser(r).IsCoach())}
	v.Title, v.Back = v.Name+", break report", back
	if v.Back.Words == "" {
		v.Back.Words = v.Name
	}
	if history.Student.Side != "" {
		v.Side = "Breaks from the " + string(history.Student.Side) + "."
	}
	tasks, err := p.store.ListTasksOf(r.Context(), session.MustUser(r).Actor, id)
	if err != nil {
		return err
	}
	if err := v.fillReport(history, tasks, session.MustUser(r)); err != nil {
		return err
	}
	v.Frame = p.sessions.TakeFrame(w, r)
	return page.Render(w, r, http.StatusOK, studentReportPage(v))
}

// stintsOnPaper is how many stints have room on two sheets.
const stintsOnPaper = 5

// loadStory reads the latest part of a student's story, without proposals that gave way
// before anybody acted on them.
func (p *Pages) loadStory(ctx context.Context, actor store.Actor, id store.PersonID) (store.StudentProgress, error) {
	history, err := p.store.GetStudentProgress(ctx, actor, id, store.ProgressFilter{})
	history.Stints = history.Stints[:min(len(history.Stints), stintsOnPaper)]
	for i := range history.Stints {
		history.Stints[i].Changes = slices.DeleteFunc(history.Stints[i].Changes, func(p store.Prescription) bool {
			return !p.Superseded.IsZero() && p.Decision == ""
		})
	}
	return history, err
}

func (v *studentReportView) fillReport(history store.StudentProgress, tasks []store.Task, user session.User) (err error) {
	waiting := removeWaitingChange(&history)
	if v.Story, err = progress.BuildStory(history, user, v.Path); err != nil {
		return err
	}
	if n := len(history.Open); n > 0 {
		v.Open = say.Count(n, "set is", "sets are") + " open and not counted."
	}
	if len(history.Stints) == 0 {
		return nil
	}
	if waiting == nil {
		waiting = findDecisionInstead(history.Stints[0].Stint, tasks)
	}
	v.Now = newPresentStint(history.Stints[0].Stint, user.Units)
	v.Timeline, v.Cards = v.buildTimeline(), v.buildCards(history)
	oldest := history.Stints[len(history.Stints)-1]
	v.Period = progress.SpanWords(oldest.First, history.Stints[0].Last, user.Zone)
	if oldest.SetsBefore > 0 {
		v.Before = "Before this: " + say.Count(oldest.SetsBefore, "set", "sets") + " with " + say.Count(oldest.BreaksBefore, "break", "breaks") + "."
	}
	v.Next, err = chooseNextPractice(history, waiting, v.To, user.Units)
	if waiting != nil && waitsForDrill(*waiting, tasks) {
		v.Next.Says = append(v.Next.Says, "No drill of this setup is assigned now: it waits for the next.")
	}
	return err
}

func newPresentStint(x store.Stint, u say.Units) *presentStintView {
	says := "Scratches " + say.OfTotal(x.Scratches(), x.Breaks) + ", dry breaks " + say.OfWatched(x.Dry, x.Watched)
	if x.BallsOff > 0 {
		says += ", balls off the table in " + say.OfTotal(x.BallsOff, x.Breaks)
	}
	return &presentStintView{
		Title: say.Count(x.Sets, "set", "sets") + " under this setup on " + x.Table.Label() + ", " + component.KindWithMouths(x.Table.Kind, u),
		Says:  says + ".", Parts: component.ListSetupParts(x.Setup, x.Table.Kind, u),
	}
}

// buildCards are the story's, in the same order.
func (v *studentReportView) buildCards(history store.StudentProgress) []breakCardView {
	x := history.Stints[0]
	cards := make([]breakCardView, len(history.Cards))
	for i, c := range v.Story.Cards {
		cards[i] = breakCardView{Table: c.Table, Says: c.Says, Issued: c.Issued}
		if kept := history.Cards[i]; kept.Table.ID != x.Table.ID || !kept.Setup.SameAs(x.Setup) {
			cards[i].Parts = c.Parts
		}
	}
	return cards
}

// navPath is the entry of the navigation that the page belongs to.
func (v studentReportView) navPath() string {
	if v.To == oneself {
		return "/my/progress"
	}
	return "/students"
}

// whenWords says the side, the time and what is not counted, in a line.
func (v studentReportView) whenWords() string {
	period := v.Period
	if period != "" {
		period += "."
	}
	return strings.Join(listWords(v.Side, period, v.Open), " ")
}

func (v studentReportView) nowHeading() string {
	if v.To == oneself {
		return "Where you stand"
	}
	return "How it stands"
}

// extraCautions are said beside the usual ones.
func (v studentReportView) extraCautions() []string {
	if v.Next == nil {
		return nil
	}
	return listWords(v.Next.Caution)
}
