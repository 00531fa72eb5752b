package leave

import (
	"net/http"
	"slices"

	"breakwright/internal/drill"
	"breakwright/internal/leave"
	"breakwright/internal/rack"
	"breakwright/internal/rackplan"
	"breakwright/internal/say"
	"breakwright/internal/store"
	"breakwright/web/component"
	"breakwright/web/page"
	"breakwright/web/picture"
	"breakwright/web/session"
)

// The page's choices.
const (
	fieldRack = "rack"
	fieldGoal = "goal"
)

// mostDrawn is how many of the latest leaves the map is made of.
const mostDrawn = 100

// leaveView is the page.
type leaveView struct {
	Frame page.Frame
	Own   bool
	Name  string
	// Back is the student's page, Path this one.
	Back, Path string
	Form       *page.Form
	Racks      []page.Option // none before the first closed set
	Goals      []page.Option // none in eight-ball, where they are one
	Answer     string
	Ball       string // what is shot at
	Shots      picture.RateView
	Worth      string
	Map        *picture.ShotMapView
	WindowSays string
	Plan       planView
}

func (v leaveView) navPath() string {
	if v.Own {
		return "/my/progress"
	}
	return "/students"
}

// rackChoice is a rack on a table, broken from one side: what leaves and plans are
// kept apart by.
type rackChoice struct {
	key, words string
	sets       []drill.Set
	last       store.SetID
}

// listRackChoices groups sets, oldest first; the group broken last comes first.
func listRackChoices(h store.History) []rackChoice {
	var all []rackChoice
	for i, set := range h.Sets {
		s := set.Setup
		words := set.Table + ", " + s.Game.Words() + " from the " + string(s.Side)
		if len(s.Game.Spots()) > 1 {
			words += ", " + component.RackSpotWords(s.Spot) + " on the spot"
		}
		key := set.Table + "|" + set.Kind.String() + "|" + string(s.Game) + "|" + string(s.Spot) + "|" + string(s.Side)
		at := slices.IndexFunc(all, func(c rackChoice) bool { return c.key == key })
		c := rackChoice{key: key, words: words}
		if at >= 0 {
			c = all[at]
			all = slices.Delete(all, at, at+1)
		}
		c.sets, c.last = append(c.sets, set), h.IDs[i]
		all = slices.Insert(all, 0, c)
	}
	return all
}

func (p *Pages) render(w http.ResponseWriter, r *http.Request, v leaveView, student store.PersonID) error {
	actor := session.MustUser(r).Actor
	history, err := p.store.GetHistory(r.Context(), actor, student)
	if err != nil {
		return err
	}
	v.Form = page.NewForm(map[string]string{fieldRack: r.URL.Query().Get(fieldRack), fieldGoal: r.URL.Query().Get(fieldGoal)})
	v.Answer = "What the breaks leave stands here, from the first set on."
	if choices := listRackChoices(history); len(choices) > 0 {
		at := max(0, slices.IndexFunc(choices, func(c rackChoice) bool { return c.key == v.Form.Text(fieldRack) }))
		for _, c := range choices {
			v.Racks = append(v.Racks, page.Option{Value: c.key, Words: c.words})
		}
		last, err := p.store.GetSet(r.Context(), actor, choices[at].last)
		if err != nil {
			return err
		}
		if err := v.look(choices[at], last, leave.FitPlayer(history.Sets), say.UnitsOf(r.Context())); err != nil {
			return err
		}
	}
	v.Frame = p.sessions.TakeFrame(w, r)
	return page.Render(w, r, http.StatusOK, leavePage(v))
}

func listGoals() []page.Option {
	return []page.Option{
		{Value: string(rackplan.GoalPosition), Words: "A shot on the lowest ball, and position on the next"},
		{Value: string(rackplan.GoalShot), Words: "A shot on the lowest ball"},
	}
}

// look fills the page with one rack's leaves and its plan.
func (v *leaveView) look(c rackChoice, last store.Set, player leave.Player, units say.Units) error {
	game := last.Setup.Game
	v.Ball = leave.TargetWords(game)
	if game != rack.EightBall {
		v.Goals = listGoals()
	}
	var leaves []leave.Leave
	for _, set := range c.sets {
		for _, b := range set.Breaks {
			leaves = append(leaves, leave.FromBreak(b, set.Setup, set.Kind))
		}
	}
	counts := leave.CountShots(leaves, player)
	v.Answer = counts.Describe(last.Window)
	v.Shots = component.ShotRate("shots", game, counts, last.Targets.Shot)
	v.Worth = worthWords(counts)
	v.drawMap(leaves, player, last, units)
	return v.plan(c.sets, last, units)
}
