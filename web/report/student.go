package report

import (
	"context"
	"net/http"
	"slices"
	"strings"

	"breakwright/internal/store"
	"breakwright/web/component"
	"breakwright/web/page"
	"breakwright/web/progress"
	"breakwright/web/session"

	"github.com/go-chi/chi/v5"
)

// studentView is the report of one student.
type studentView struct {
	sheetView
	To         reader
	Name, Side string
	// Period is from the first day of Way to the last.
	Period string
	// Story is what the pages about progress tell; its steps are in Way.
	Story progress.Story
	Now   *nowView
	Next  *nextView
	Way   []wayLine
	Cards []cardView
	// Before says what was done before the first line of Way, "" for nothing.
	Before string
	Open   string
}

// cardView is a break card that is in force.
type cardView struct {
	Table, Says, Issued string
	// Parts are the card's setup; none when it is the present one, which is
	// told above.
	Parts []component.SetupPart
}

// nowView is the stint that a student is in.
type nowView struct {
	Title, Says string
	Parts       []component.SetupPart
}

func (p *Pages) showStudent(w http.ResponseWriter, r *http.Request) error {
	id, err := store.ParseID[store.PersonID](chi.URLParam(r, "student"))
	if err != nil {
		return err
	}
	path := "/students/" + id.String()
	return p.renderStudent(w, r, id, page.NavLink{Path: path}, path+"/report")
}

// showMine is the student's own.
func (p *Pages) showMine(w http.ResponseWriter, r *http.Request) error {
	return p.renderStudent(w, r, session.MustUser(r).Person, page.NavLink{Path: "/my/progress", Words: "My progress"}, "/my/report")
}

func (p *Pages) renderStudent(w http.ResponseWriter, r *http.Request, id store.PersonID, back page.NavLink, path string) error {
	told, err := p.story(r.Context(), session.MustUser(r).Actor, id)
	if err != nil {
		return err
	}
	v := studentView{sheetView: p.sheetView(r, path), Name: told.Student.Name, To: reader(!session.MustUser(r).IsCoach())}
	v.Title, v.Back = v.Name+", break report", back
	if v.Back.Words == "" {
		v.Back.Words = v.Name
	}
	if told.Student.Side != "" {
		v.Side = "Breaks from the " + string(told.Student.Side) + "."
	}
	if err := v.fill(told, session.MustUser(r)); err != nil {
		return err
	}
	v.Frame = p.sessions.TakeFrame(w, r)
	return page.Render(w, r, http.StatusOK, studentPage(v))
}

// wayStints is how many stints have room on two sheets.
const wayStints = 5

// story reads the latest part of a student's story, without proposals that newer
// ones replaced: nobody acted on them.
func (p *Pages) story(ctx context.Context, viewer store.Actor, id store.PersonID) (store.StudentProgress, error) {
	told, err := p.store.GetStudentProgress(ctx, viewer, id, store.ProgressFilter{})
	told.Stints = told.Stints[:min(len(told.Stints), wayStints)]
	for i := range told.Stints {
		told.Stints[i].Changes = slices.DeleteFunc(told.Stints[i].Changes, func(p store.Prescription) bool {
			return !p.Superseded.IsZero()
		})
	}
	return told, err
}

func (v *studentView) fill(told store.StudentProgress, visitor session.User) (err error) {
	waiting := takeWaiting(&told)
	if v.Story, err = progress.Tell(told, visitor, v.Path); err != nil {
		return err
	}
	if n := len(told.Open); n > 0 {
		v.Open = count(n, "set is", "sets are") + " open and not counted."
	}
	if len(told.Stints) == 0 {
		return nil
	}
	v.Now = nowOf(told.Stints[0].Stint, v.To)
	v.Way, v.Cards = v.way(), v.cards(told)
	oldest := told.Stints[len(told.Stints)-1]
	v.Period = progress.SpanWords(oldest.First, told.Stints[0].Last, visitor.Zone)
	if oldest.SetsBefore > 0 {
		v.Before = "Before this: " + count(oldest.SetsBefore, "set", "sets") + " with " + count(oldest.BreaksBefore, "break", "breaks") + "."
	}
	v.Next, err = nextOf(told, waiting, v.To)
	return err
}

func nowOf(x store.Stint, to reader) *nowView {
	says := "Scratches " + ofWords(x.Scratches(), x.Breaks) + ", dry breaks " + ofWords(x.Dry, x.Breaks)
	if x.BallsOff > 0 {
		says += ", balls off the table in " + ofWords(x.BallsOff, x.Breaks)
	}
	return &nowView{
		Title: count(x.Sets, "set", "sets") + " under this setup on " + x.Table.Label() + ", " + x.Table.Kind.String(),
		Says:  says + ".", Parts: to.parts(component.ListSetupParts(x.Setup, x.Table.Kind)),
	}
}

// cards are the story's, in the same order.
func (v *studentView) cards(told store.StudentProgress) []cardView {
	x := told.Stints[0]
	cards := make([]cardView, len(told.Cards))
	for i, c := range v.Story.Cards {
		cards[i] = cardView{Table: c.Table, Says: c.Says, Issued: c.Issued}
		if kept := told.Cards[i]; kept.Table.ID != x.Table.ID || !kept.Setup.SameAs(x.Setup) {
			cards[i].Parts = v.To.parts(c.Parts)
		}
	}
	return cards
}

// here is the entry of the navigation that the page belongs to.
func (v studentView) here() string {
	if v.To == oneself {
		return "/my/progress"
	}
	return "/classes"
}

// when says the side, the time and what is not counted, in a line.
func (v studentView) when() string {
	period := v.Period
	if period != "" {
		period += "."
	}
	return strings.Join(v.To.sentences(v.Side, period, v.Open), " ")
}

func (v studentView) nowHeading() string {
	if v.To == oneself {
		return "Where you stand"
	}
	return "How it stands"
}

// cautions are said beside the usual ones.
func (v studentView) cautions() []string {
	if v.Next == nil {
		return nil
	}
	return v.To.sentences(v.Next.Caution)
}
