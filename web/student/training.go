package student

import (
	"cmp"
	"net/http"
	"slices"
	"strings"

	"github.com/go-chi/chi/v5"

	"breakwright/internal/drill"
	"breakwright/internal/library"
	"breakwright/internal/say"
	"breakwright/internal/store"
	"breakwright/internal/table"
	"breakwright/web/component"
	"breakwright/web/page"
	"breakwright/web/picture"
	"breakwright/web/session"
	"breakwright/web/sync"
)

// trainingsView lists what can be trained without an assignment.
type trainingsView struct {
	Frame  page.Frame
	Person store.PersonID
	// Cards, Sets and Lessons are the student's break cards, their latest setups
	// and the library's lessons.
	Cards, Sets, Lessons []trainingLine
	// Begin are the tables of kinds that the student has not broken on yet.
	Begin []trainingLine
}

type trainingLine struct{ Path, Name, Words string }

// trainingView is one thing to train, before the first break.
type trainingView struct {
	Frame  page.Frame
	Person store.PersonID
	Path   string
	Drill  drill.Drill
	Table  store.Table
	Tables []page.Option
	Form   *page.Form
	SetID  string
	// Plan is how to break, as the page shows it, for the form that starts.
	Plan string
	// Watch is what is asked at the table, for the same form.
	Watch string
	// IsBegin says that the drill tells where to begin on a table, and why.
	IsBegin bool
	// Hurt is where the student said that it hurts, "" for nowhere.
	Hurt string
}

// What an address begins with that says what is trained: /my/training/lesson-….
const (
	fromCard   = "card"
	fromSet    = "set"
	fromLesson = "lesson"
	fromBegin  = "begin" // on a table of a kind that is new to the student
)

const trainingPath = "/my/training"

// setsToTrain is how many of the student's latest setups are offered.
const setsToTrain = 6

func (p *Pages) showTrainings(w http.ResponseWriter, r *http.Request) error {
	user := session.MustUser(r)
	cards, err := p.store.ListCards(r.Context(), user.Actor, user.Person)
	if err != nil {
		return err
	}
	sets, err := p.store.ListSets(r.Context(), user.Actor, user.Person)
	if err != nil {
		return err
	}
	v := trainingsView{Frame: p.sessions.TakeFrame(w, r), Person: user.Person}
	line := func(from, id, name, words string) trainingLine {
		return trainingLine{trainingPath + "/" + from + "-" + id, name, words}
	}
	for _, c := range cards {
		v.Cards = append(v.Cards, line(fromCard, c.ID.String(), "Your break for "+c.Table.Label(), "wing ball "+say.OfWatched(c.WingMade, c.Watched)))
	}
	for _, set := range listSetupsHad(sets) {
		v.Sets = append(v.Sets, line(fromSet, set.ID.String(), setName(set), setupHadWords(set, user)))
	}
	today, err := p.store.GetToday(r.Context(), user.Actor)
	if err != nil {
		return err
	}
	for _, t := range listNewTables(today.Tables, sets) {
		v.Begin = append(v.Begin, line(fromBegin, t.ID.String(), beginName(t), "your best setup, carried to "+component.KindWithMouths(t.Kind, user.Units)))
	}
	for _, l := range library.AllLessons() {
		v.Lessons = append(v.Lessons, line(fromLesson, l.Key, l.Name, l.Watch))
	}
	return page.Render(w, r, http.StatusOK, trainingsPage(v))
}

// listSetupsHad lists the latest sets with a break, the newest of each setup on each
// table alone: nobody can tell two lines of one setup apart.
func listSetupsHad(sets []store.ListedSet) []store.ListedSet {
	type had struct {
		name, table string
		setup       drill.Setup
	}
	seen := map[had]bool{}
	var latest []store.ListedSet
	for _, set := range sets {
		key := had{setName(set), set.TableLabel, set.Setup}
		if set.Breaks > 0 && !seen[key] && len(latest) < setsToTrain {
			latest, seen[key] = append(latest, set), true
		}
	}
	return latest
}

// setupHadWords tells one setup from another: where from, how fast, which table, when.
func setupHadWords(set store.ListedSet, user session.User) string {
	return say.Capitalize(picture.CuePlaceWords(set.Setup.Cue, set.Kind, user.Units)) + "; " +
		component.SpeedWords(set.Setup.Speed, user.Units) + "; on " + set.TableLabel + ", " + formatTime(set.Started, user.Zone)
}

func (p *Pages) showTraining(w http.ResponseWriter, r *http.Request) error {
	v, err := p.loadTraining(r)
	if err != nil {
		return err
	}
	return p.renderTraining(w, r, http.StatusOK, v)
}

func (p *Pages) renderTraining(w http.ResponseWriter, r *http.Request, status int, v trainingView) error {
	v.Frame, v.SetID = p.sessions.TakeFrame(w, r), store.NewID[store.SetID]().String()
	return page.Render(w, r, status, trainingPage(v))
}

// loadTraining fills the page for the table that was asked for, as a drill's page
// does.
func (p *Pages) loadTraining(r *http.Request) (trainingView, error) {
	user := session.MustUser(r)
	today, err := p.store.GetToday(r.Context(), user.Actor)
	if err != nil {
		return trainingView{}, err
	}
	d, own, err := p.findTraining(r, user, today)
	if err != nil {
		return trainingView{}, err
	}
	if today.Student.Side != "" && d.Setup.Side != today.Student.Side && strings.HasPrefix(chi.URLParam(r, "from"), fromLesson) {
		d = d.ForSide(today.Student.Side)
	}
	v := trainingView{Person: user.Person, Path: trainingPath + "/" + chi.URLParam(r, "from"), Hurt: hurtPath(today)}
	v.IsBegin = strings.HasPrefix(chi.URLParam(r, "from"), fromBegin)
	v.Table = chooseTable(today, store.Task{Drill: store.Drill{Drill: d}}, cmp.Or(r.FormValue("table"), own))
	v.Drill = d.CarryToKind(v.Table.Kind)
	next := store.Instruction{Setup: v.Drill.Setup, Window: v.Drill.Window, Targets: v.Drill.Targets, Breaks: v.Drill.Breaks}
	if v.Plan, err = sync.WriteShownPlan(next, v.Table.Kind, nil, user.Units); err != nil {
		return trainingView{}, err
	}
	if v.Watch, err = sync.WriteWatchList(v.Drill.WatchList); err != nil {
		return trainingView{}, err
	}
	v.Form = page.NewForm(map[string]string{"table": v.Table.ID.String()})
	v.Tables = tableOptions(today)
	return v, nil
}

// findTraining returns what the address names as a drill, for the table that it was
// made on, and the id of that table where it is one of the club's.
func (p *Pages) findTraining(r *http.Request, user session.User, today store.Today) (d drill.Drill, own string, err error) {
	from, id, _ := strings.Cut(chi.URLParam(r, "from"), "-")
	switch from {
	case fromLesson:
		if l, found := library.FindLesson(id); found {
			return l.DrillFor(l.Games[0], table.NineFoot()), "", nil
		}
	case fromBegin:
		if i := slices.IndexFunc(today.Tables, func(t store.Table) bool { return t.ID.String() == id }); i >= 0 {
			d, err = p.suggestStart(r, user, today.Tables[i])
			return d, id, err
		}
	case fromSet:
		which, err := store.ParseID[store.SetID](id)
		if err != nil {
			return drill.Drill{}, "", err
		}
		set, err := p.store.GetSet(r.Context(), user.Actor, which)
		if err != nil {
			return drill.Drill{}, "", err
		}
		return trainingOf(set.Title(), set.Table.Kind, set.Setup, set.Window), set.Table.ID.String(), nil
	case fromCard:
		cards, err := p.store.ListCards(r.Context(), user.Actor, user.Person)
		if err != nil {
			return drill.Drill{}, "", err
		}
		for _, c := range cards {
			if c.ID.String() == id {
				return trainingOf("Your break for "+c.Table.Label(), c.Table.Kind, c.Setup, c.Table.Kind.StandardWindow()), c.Table.ID.String(), nil
			}
		}
	}
	return drill.Drill{}, "", store.ErrNotFound
}

// trainingOf is a setup as a drill of ten breaks.
func trainingOf(name string, k table.Kind, s drill.Setup, w table.Window) drill.Drill {
	return drill.Drill{
		Name: name, Kind: k, Setup: s, Window: w, Breaks: drill.UsualBreaks,
		Targets: drill.StandardTargets(k), WatchList: drill.UsualWatchList(),
	}
}

func (p *Pages) startTraining(w http.ResponseWriter, r *http.Request) error {
	form, err := page.ReadForm(w, r)
	if err != nil {
		return err
	}
	v, err := p.loadTraining(r)
	if err != nil {
		return err
	}
	if asksToStop(v.Hurt, form) {
		v.Form.Reject(fieldOver, sayStillHurts)
		return p.renderTraining(w, r, http.StatusUnprocessableEntity, v)
	}
	return p.startShownSet(w, r, form, store.NewSet{
		Training: v.Drill.Name, Table: v.Table.ID, Window: v.Drill.Window, Breaks: v.Drill.Breaks, Setup: v.Drill.Setup,
	})
}
