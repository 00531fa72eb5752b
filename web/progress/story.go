package progress

import (
	"cmp"
	"errors"
	"net/http"
	"time"

	"breakwright/internal/advice"
	"breakwright/internal/say"
	"breakwright/internal/setreview"
	"breakwright/internal/store"
	"breakwright/internal/table"
	"breakwright/web/component"
	"breakwright/web/page"
	"breakwright/web/picture"
	"breakwright/web/route"
	"breakwright/web/session"
)

// Story is one student's way so far, for the coach or for the student.
type Story struct {
	// Units are those of the reader.
	Units say.Units
	// Side is the one that is broken from now.
	Side table.Side
	// You says that the student themself reads it.
	You    bool
	Name   string
	Path   string // of the page it stands on
	Answer string
	// Says is the adviser's latest sentence, "" before it, and where it asks for a change
	// or one waits to be played: what was decided on that is Change's to say.
	Says string
	// Open are sets that are not closed.
	Open []storySetLine
	// Now are the counts of the present stint; nil before the first closed set.
	Now []picture.RateView
	// Present is the setup of the latest stint, and Table where it was broken; nil
	// before the first closed set.
	Present *component.SetupView
	Table   string
	// Change is the latest change, nil for none; Decide is where it is decided, ""
	// when there is nothing to decide.
	Change *component.ChangeView
	Decide string
	// LastSet is the page of the latest closed set, "" before it.
	LastSet string
	// Tried is what was tried and what came of it; nil before a second setup.
	Tried     *picture.TriedView
	Shown     *shownStintView
	Leave     *component.LeaveShare // of the breaks that are drawn; nil where nothing is known
	Curve     *picture.CurveView
	CurveSays string
	Chart     *picture.ControlView
	ChartSays string
	Steps     []storyStep
	Earlier   string // the address of what came before, ""
	Newest    string // of the newest, where this is not it
	Messages  []messageLine
	Cards     []breakCardView
	// Issue offers to issue a card for the present stint; nil for no reason to.
	Issue *issueForm
}

// hasBegun reports whether a set was closed: the part that is shown, or a newer one, has
// steps.
func (v Story) hasBegun() bool { return len(v.Steps) > 0 || v.Newest != "" }

// issueForm issues a card; the id makes a second click harmless.
type issueForm struct{ Path, Card, Set, Says string }

// messageLine is a message with where to answer it, "" for one beside no set.
type messageLine struct{ Who, Body, When, Path, Set string }

// breakCardView is a break card.
type breakCardView struct {
	ID, Table, Issued, Says string
	Parts                   []component.SetupPart
}

// LoadStory returns the story of a student for whoever asks: the request's "before" and
// "stint" say which part. path is the page it stands on.
func LoadStory(r *http.Request, s *store.Store, student store.PersonID, path string) (Story, error) {
	user := session.MustUser(r)
	filter, err := readStoryFilter(r)
	if err != nil {
		return Story{}, err
	}
	history, err := s.GetStudentProgress(r.Context(), user.Actor, student, filter)
	if err != nil {
		return Story{}, err
	}
	v, err := BuildStory(history, user, path)
	if err != nil {
		return Story{}, err
	}
	v.addPageLinks(history, filter)
	return v, nil
}

// BuildStory puts a story that was read into words and pictures for whoever asks; path
// is the page it stands on.
func BuildStory(history store.StudentProgress, user session.User, path string) (Story, error) {
	v := Story{You: !user.IsCoach(), Name: history.Student.Name, Path: path, Units: user.Units}
	if len(history.Stints) > 0 {
		v.Side = history.Stints[0].Setup.Side
	}
	v.Answer = v.headline(history, user.Zone)
	v.addOpenSets(history, user.Zone)
	v.addPresentCounts(history)
	v.addPresent(history)
	v.Tried = v.buildTried(history, user.Zone)
	if err := v.addAdvice(history); err != nil {
		return Story{}, err
	}
	v.addChart(history, user.Zone)
	v.Shown = v.buildShownStint(history, user.Zone)
	if x := history.Shown; x != nil {
		v.Leave = component.NewLeaveShare(x.Breaks, x.Setup, x.Table.Kind, x.Targets, v.leavePath(history.Student.ID))
	}
	v.Steps = v.buildSteps(history, user.Zone)
	v.addMessages(history, user.Zone)
	v.addBreakCards(history, user.Zone)
	return v, nil
}

// leavePath is the page about what the breaks leave.
func (v Story) leavePath(student store.PersonID) string {
	if v.You {
		return "/my/leave"
	}
	return route.StudentPath(student) + "/leave"
}

// readStoryFilter reads the address; what is no moment or no id is a page that is not
// there.
func readStoryFilter(r *http.Request) (filter store.ProgressFilter, err error) {
	q := r.URL.Query()
	if before := q.Get("before"); before != "" {
		if filter.Before, err = time.Parse(time.RFC3339Nano, before); err != nil {
			return filter, errors.Join(store.ErrNotFound, err)
		}
	}
	if stint := q.Get("stint"); stint != "" {
		filter.Show, err = store.ParseID[store.StintID](stint)
	}
	return filter, err
}

func (v Story) headline(history store.StudentProgress, zone *time.Location) string {
	if len(history.Recent) == 0 {
		if v.You {
			return "Your progress stands here, from your first set on."
		}
		return "No set done yet. The history begins with the first."
	}
	last := say.DayOfYear(history.Recent[len(history.Recent)-1].Started.In(zone))
	return say.Count(history.Breaks, "break", "breaks") + " in " + say.Count(history.Sets, "set", "sets") + ", the last on " + last + "."
}

// addAdvice shows what was said last, and what the places tried say.
func (v *Story) addAdvice(history store.StudentProgress) error {
	if history.Advice == nil {
		return nil
	}
	a, err := setreview.ReadAdvice(history.Advice)
	if err != nil {
		return err
	}
	if p := a.Prescription; (p == nil || p.Variable == advice.VaryNone) && (v.Change == nil || !v.Change.IsToBePlayed()) {
		v.Says = a.Statement.Text(v.reader())
	}
	if a.Places != nil && len(history.Stints) > 0 {
		v.Curve, v.CurveSays = newPlaceCurve(a.Places, history.Stints[0].Stint), a.Places.Statement.Text(v.reader())
	}
	if a.Card != nil && a.Verdict == advice.Keep && !v.You { // cards once came before it
		v.offerCard(history, a.Card.Statement.Text(v.reader()))
	}
	return nil
}

// reader is who reads the story.
func (v Story) reader() say.Reader {
	if v.You {
		return say.Reader{Units: v.Units, Side: v.Side}
	}
	return say.Reader{Who: say.Coach, Units: v.Units, Side: v.Side}
}

// offerCard offers a card unless the one in force is the same.
func (v *Story) offerCard(history store.StudentProgress, says string) {
	for _, stint := range history.Stints {
		if !stint.Latest {
			continue
		}
		for _, c := range history.Cards {
			if c.Table.ID == stint.Table.ID && c.Setup == stint.Setup {
				return
			}
		}
		v.Issue = &issueForm{
			Path: route.StudentPath(history.Student.ID) + "/cards", Card: store.NewID[store.CardID]().String(),
			Set: stint.LastSet.String(), Says: says,
		}
	}
}

func (v *Story) addOpenSets(history store.StudentProgress, zone *time.Location) {
	for _, set := range history.Open {
		v.Open = append(v.Open, storySetLine{
			Path: v.setPagePath(set.ID), Title: cmp.Or(set.Title, set.Name), When: say.MomentOfYear(set.Started.In(zone)),
			Says: say.OfTotal(set.Breaks, set.Planned) + " breaks recorded",
		})
	}
}

// addPresentCounts counts the present stint.
func (v *Story) addPresentCounts(history store.StudentProgress) {
	if len(history.Stints) == 0 || !history.Stints[0].Latest {
		return
	}
	x := history.Stints[0]
	v.Now = []picture.RateView{
		withTarget(x.Targets.Wing, newRate("now-wing", "Wing ball in its corner", x.WingMade, x.Watched)),
		withTarget(x.Targets.Window, newRate("now-window", "Cue ball in the window", x.InWindow, x.Breaks)),
	}
}

// addChart charts the latest sets on the kind of table of the latest.
func (v *Story) addChart(history store.StudentProgress, zone *time.Location) {
	if len(history.Recent) == 0 {
		return
	}
	sets, chart, ok := component.ChartRecentSets(history.Recent)
	v.ChartSays = chartWords(chart, ok, len(sets))
	if ok {
		v.Chart = newControlChart(chart, sets, zone)
	}
}

func (v *Story) addMessages(history store.StudentProgress, zone *time.Location) {
	for _, m := range history.Messages {
		line := messageLine{Who: v.Name, Body: m.Body, When: say.Moment(m.At.In(zone))}
		if !store.IsZero(m.Set) {
			line.Path, line.Set = v.setPagePath(m.Set), say.Moment(m.SetStarted.In(zone))
		}
		switch {
		case m.FromCoach && v.You:
			line.Who = "Your coach"
		case m.FromCoach:
			line.Who = "Coach"
		case v.You:
			line.Who = "You"
		}
		v.Messages = append(v.Messages, line)
	}
}

// setPagePath is the page of a set for whoever reads.
func (v Story) setPagePath(set store.SetID) string {
	if v.You {
		return route.OwnSetPath(set)
	}
	return route.SetPath(set)
}

func (v *Story) addBreakCards(history store.StudentProgress, zone *time.Location) {
	for _, c := range history.Cards {
		v.Cards = append(v.Cards, breakCardView{
			ID: c.ID.String(), Table: c.Table.Label(), Issued: say.Day(c.Issued.In(zone)), Parts: component.ListSetupParts(c.Setup, c.Table.Kind, v.Units),
			Says: "Wing ball in its corner " + say.OfWatched(c.WingMade, c.Watched) + ", cue ball in the window " + say.OfTotal(c.InWindow, c.Breaks) + ".",
		})
	}
}

// stintLegend lists the marks of the stints' bars.
func (v Story) stintLegend() []picture.LegendItem {
	var rates []picture.RateView
	for _, s := range v.Steps {
		if s.Stint != nil {
			rates = append(rates, s.Stint.Wing)
		}
	}
	return picture.RateLegend(rates...)
}

func (v *Story) addPageLinks(history store.StudentProgress, filter store.ProgressFilter) {
	if !history.Earlier.IsZero() {
		v.Earlier = v.Path + "?before=" + history.Earlier.Format(time.RFC3339Nano) + "#way"
	}
	if !filter.Before.IsZero() {
		v.Newest = v.Path + "#way"
	}
}

// showOwnStory is the student's own page.
func (p *Pages) showOwnStory(w http.ResponseWriter, r *http.Request) error {
	story, err := LoadStory(r, p.store, session.MustUser(r).Person, "/my/progress")
	if err != nil {
		return err
	}
	return page.Render(w, r, http.StatusOK, ownStoryPage(p.sessions.TakeFrame(w, r), story))
}
