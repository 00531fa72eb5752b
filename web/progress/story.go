package progress

import (
	"errors"
	"net/http"
	"time"

	"breakwright/internal/evidence"
	"breakwright/internal/progress"
	"breakwright/internal/setreview"
	"breakwright/internal/store"
	"breakwright/web/component"
	"breakwright/web/page"
	"breakwright/web/picture"
	"breakwright/web/session"
)

// Story is one student's way so far, for the coach or for the student.
type Story struct {
	// You says that the student themself reads it.
	You    bool
	Name   string
	Path   string // of the page it stands on
	Answer string
	// Says is the adviser's latest sentence, "" before it.
	Says string
	// Open are sets that are not closed.
	Open []setLine
	// Now are the counts of the present stint; nil before the first closed set.
	Now       []picture.RateView
	Shown     *shown
	Curve     *picture.CurveView
	CurveSays string
	Chart     *picture.ControlView
	ChartSays string
	Steps     []step
	Earlier   string // the address of what came before, ""
	Newest    string // of the newest, where this is not it
	Talk      []talkLine
	Cards     []cardView
	// Issue offers to issue a card for the present stint; nil for no reason to.
	Issue *issueForm
}

// issueForm issues a card; the id makes a second click harmless.
type issueForm struct{ Path, Card, Set, Says string }

// talkLine is a message with where to answer it.
type talkLine struct{ Who, Body, When, Path, Set string }

// cardView is a break card.
type cardView struct {
	ID, Table, Issued, Says string
	Parts                   []component.SetupPart
}

// Load gives the story of a student for whoever asks: the request's "before" and
// "stint" say which part. path is the page it stands on.
func Load(r *http.Request, s *store.Store, student store.PersonID, path string) (Story, error) {
	visitor := session.MustUser(r)
	ask, err := readAsk(r)
	if err != nil {
		return Story{}, err
	}
	told, err := s.GetStudentProgress(r.Context(), visitor.Actor, student, ask)
	if err != nil {
		return Story{}, err
	}
	v, err := Tell(told, visitor, path)
	if err != nil {
		return Story{}, err
	}
	v.addPages(told, ask)
	return v, nil
}

// Tell puts a story that was read into words and pictures for whoever asks; path
// is the page it stands on.
func Tell(told store.StudentProgress, visitor session.User, path string) (Story, error) {
	v := Story{You: !visitor.IsCoach(), Name: told.Student.Name, Path: path}
	v.Answer = v.answer(told, visitor.Zone)
	if err := v.addAdvice(told); err != nil {
		return Story{}, err
	}
	v.addOpen(told, visitor.Zone)
	v.addNow(told)
	v.addChart(told)
	v.Shown = v.shown(told, visitor.Zone)
	v.Steps = v.steps(told, visitor.Zone)
	v.addTalk(told, visitor.Zone)
	v.addCards(told, visitor.Zone)
	return v, nil
}

// readAsk reads the address; what is no moment or no id is a page that is not
// there.
func readAsk(r *http.Request) (ask store.ProgressFilter, err error) {
	q := r.URL.Query()
	if before := q.Get("before"); before != "" {
		if ask.Before, err = time.Parse(time.RFC3339Nano, before); err != nil {
			return ask, errors.Join(store.ErrNotFound, err)
		}
	}
	if stint := q.Get("stint"); stint != "" {
		ask.Show, err = store.ParseID[store.StintID](stint)
	}
	return ask, err
}

func (v Story) answer(told store.StudentProgress, zone *time.Location) string {
	if len(told.Recent) == 0 {
		if v.You {
			return "Your way will be told here, from your first closed set on."
		}
		return "No closed set yet. The way will be told here from the first on."
	}
	last := told.Recent[len(told.Recent)-1].Started.In(zone).Format("2 January")
	return count(told.Breaks, "break", "breaks") + " in " + count(told.Sets, "set", "sets") + ", the last on " + last + "."
}

// addAdvice shows what was said last, and what the places tried say.
func (v *Story) addAdvice(told store.StudentProgress) error {
	if told.Advice == nil {
		return nil
	}
	a, err := setreview.ReadAdvice(told.Advice)
	if err != nil {
		return err
	}
	v.Says = v.said(a.Says)
	if a.Places != nil && len(told.Stints) > 0 {
		v.Curve, v.CurveSays = curve(a.Places, told.Stints[0].Stint), v.said(a.Places.Says)
	}
	if a.Card != nil && !v.You {
		v.offerCard(told, v.said(a.Card.Says))
	}
	return nil
}

// said gives a sentence of the adviser as the reader reads it.
func (v Story) said(sentence string) string {
	if v.You {
		return sentence
	}
	return component.RewordForCoach(sentence)
}

// offerCard offers a card unless the one in force is the same.
func (v *Story) offerCard(told store.StudentProgress, says string) {
	for _, stint := range told.Stints {
		if !stint.Latest {
			continue
		}
		for _, c := range told.Cards {
			if c.Table.ID == stint.Table.ID && c.Setup == stint.Setup {
				return
			}
		}
		v.Issue = &issueForm{
			Path: "/students/" + told.Student.ID.String() + "/cards", Card: store.NewID[store.CardID]().String(),
			Set: stint.LastSet.String(), Says: says,
		}
	}
}

func (v *Story) addOpen(told store.StudentProgress, zone *time.Location) {
	for _, set := range told.Open {
		v.Open = append(v.Open, setLine{
			Path: v.setPath(set.ID), When: set.Started.In(zone).Format("2 January 2006, 15:04"),
			Says: ofWords(set.Breaks, set.Planned) + " breaks recorded",
		})
	}
}

// addNow counts the present stint.
func (v *Story) addNow(told store.StudentProgress) {
	if len(told.Stints) == 0 || !told.Stints[0].Latest {
		return
	}
	x := told.Stints[0]
	v.Now = []picture.RateView{
		against(x.Targets.Wing, rate("now-wing", "Wing ball in its corner", x.WingMade, x.Breaks)),
		against(x.Targets.Window, rate("now-window", "Cue ball in the window", x.InWindow, x.Breaks)),
	}
}

// addChart charts the latest sets on the kind of table of the latest.
func (v *Story) addChart(told store.StudentProgress) {
	if len(told.Recent) == 0 {
		return
	}
	sets := sameKind(told.Recent)
	chart, ok := progress.Watch(counts(sets))
	v.ChartSays = chartWords(chart, ok, len(sets), v.You)
	if ok {
		v.Chart = control(chart, sets)
	}
}

// sameKind are the sets on the kind of table of the last one.
func sameKind(sets []store.RecentSet) []store.RecentSet {
	var same []store.RecentSet
	for _, set := range sets {
		if set.Kind == sets[len(sets)-1].Kind {
			same = append(same, set)
		}
	}
	return same
}

func counts(sets []store.RecentSet) []evidence.Count {
	all := make([]evidence.Count, len(sets))
	for i, set := range sets {
		all[i] = evidence.Count{Made: set.WingMade, Tried: set.Breaks}
	}
	return all
}

func (v *Story) addTalk(told store.StudentProgress, zone *time.Location) {
	for _, m := range told.Messages {
		line := talkLine{Who: v.Name, Body: m.Body, When: m.At.In(zone).Format("2 January, 15:04"), Path: v.setPath(m.Set), Set: m.SetName}
		switch {
		case m.FromCoach && v.You:
			line.Who = "Your coach"
		case m.FromCoach:
			line.Who = "Coach"
		case v.You:
			line.Who = "You"
		}
		v.Talk = append(v.Talk, line)
	}
}

// setPath is the page of a set for whoever reads.
func (v Story) setPath(set store.SetID) string {
	if v.You {
		return "/my/sets/" + set.String()
	}
	return "/sets/" + set.String()
}

func (v *Story) addCards(told store.StudentProgress, zone *time.Location) {
	for _, c := range told.Cards {
		v.Cards = append(v.Cards, cardView{
			ID: c.ID.String(), Table: c.Table.Label(), Issued: day(c.Issued, zone), Parts: component.ListSetupParts(c.Setup, c.Table.Kind),
			Says: "Wing ball in its corner " + ofWords(c.WingMade, c.Breaks) + ", cue ball in the window " + ofWords(c.InWindow, c.Breaks) + ".",
		})
	}
}

// stintKey lists the marks of the stints' bars.
func (v Story) stintKey() []picture.LegendItem {
	var rates []picture.RateView
	for _, s := range v.Steps {
		if s.Stint != nil {
			rates = append(rates, s.Stint.Wing)
		}
	}
	return picture.RateLegend(rates...)
}

func (v *Story) addPages(told store.StudentProgress, ask store.ProgressFilter) {
	if !told.Earlier.IsZero() {
		v.Earlier = v.Path + "?before=" + told.Earlier.Format(time.RFC3339Nano) + "#way"
	}
	if !ask.Before.IsZero() {
		v.Newest = v.Path + "#way"
	}
}

// showMine is the student's own page.
func (p *Pages) showMine(w http.ResponseWriter, r *http.Request) error {
	story, err := Load(r, p.store, session.MustUser(r).Person, "/my/progress")
	if err != nil {
		return err
	}
	return page.Render(w, r, http.StatusOK, minePage(p.sessions.TakeFrame(w, r), story))
}
