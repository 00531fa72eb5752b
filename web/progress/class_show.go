package progress

import (
	"encoding/json"
	"fmt"
	"net/http"

	"breakwright/internal/advice"
	"breakwright/internal/evidence"
	"breakwright/internal/progress"
	"breakwright/internal/store"
	"breakwright/web/component"
	"breakwright/web/page"
	"breakwright/web/picture"
	"breakwright/web/session"
)

// classView is a class with every student in one row.
type classView struct {
	Frame       page.Frame
	Path, Name  string
	Answer      string
	Asked       asked
	Rows        []classRow
	All, Hidden int
	// Kinds are the kinds of table in the rows, the one most broke on first.
	Kinds []string
}

// classRow is where one student stands.
type classRow struct {
	Path, Name string
	Last       string // day of the latest set, "" before the first
	Sets       int    // closed ones, ever
	Table      string
	// Other is the kind of table, when it is not the one most of the class broke
	// on: rates there cannot be compared.
	Other                string
	Wing                 picture.RateView
	Window, Scratch, Dry string
	Recent               *picture.SparkView
	Finding, Trial       string
	fired                bool

	stint    *store.Stint
	standing progress.Standing
}

// Drawn is the rate the row is ordered by: drawn toward the class.
func (r classRow) Drawn() string { return fmt.Sprintf("%.0f %%", 100*r.standing.Rate) }

func (p *Pages) showClass(w http.ResponseWriter, r *http.Request) error {
	id, err := classID(r)
	if err != nil {
		return err
	}
	visitor := session.MustUser(r)
	class, all, err := p.store.GetClassProgress(r.Context(), visitor.Actor, id)
	if err != nil {
		return err
	}
	v := classView{Path: "/classes/" + class.ID.String(), Name: class.Name, Asked: readAsked(r.URL.Query()), All: len(all)}
	if v.Rows, v.Kinds, err = classRows(all, visitor); err != nil {
		return err
	}
	v.Answer = classAnswer(v.Rows)
	v.Rows = v.Asked.pick(v.Rows)
	v.Hidden = v.All - len(v.Rows)
	v.Asked.sort(v.Rows)
	if page.IsPartial(r) {
		return page.Render(w, r, http.StatusOK, standings(v))
	}
	v.Frame = p.sessions.TakeFrame(w, r)
	return page.Render(w, r, http.StatusOK, classPage(v))
}

// key lists the marks of the rows' bars.
func (v classView) key() []picture.LegendItem {
	rates := make([]picture.RateView, len(v.Rows))
	for i, row := range v.Rows {
		rates[i] = row.Wing
	}
	return picture.RateLegend(rates...)
}

// classAnswer is the first line: how the class stands as one.
func classAnswer(rows []classRow) string {
	made, of, broke := 0, 0, 0
	for _, row := range rows {
		if row.stint != nil && row.Other == "" {
			made, of, broke = made+row.stint.WingMade, of+row.stint.Breaks, broke+1
		}
	}
	if of == 0 {
		return "Nobody of this class has closed a set yet."
	}
	return fmt.Sprintf("%s on their present setups: the wing ball in its corner in %s.",
		count(broke, "student", "students"), ofWords(made, of))
}

func classRows(all []store.Standing, visitor session.User) ([]classRow, []string, error) {
	members := make([]progress.Member, len(all))
	for i, one := range all {
		if one.Stint != nil {
			members[i] = progress.Member{Kind: one.Stint.Table.Kind, Count: evidence.Count{Made: one.Stint.WingMade, Tried: one.Stint.Breaks}}
		}
	}
	rows := make([]classRow, len(all))
	kinds := map[int]string{}
	for i, standing := range progress.Stand(members) {
		row, err := classRowOf(all[i], visitor)
		if err != nil {
			return nil, nil, err
		}
		row.standing = standing
		if row.stint != nil {
			kinds[standing.Group] = row.stint.Table.Kind.String()
			if standing.Group > 0 {
				row.Other = row.stint.Table.Kind.String()
			}
		}
		rows[i] = row
	}
	var names []string
	for i := range len(kinds) {
		names = append(names, kinds[i])
	}
	return rows, names, nil
}

func classRowOf(one store.Standing, visitor session.User) (classRow, error) {
	id := one.ID.String()
	row := classRow{Path: "/students/" + id, Name: one.Name, stint: one.Stint}
	if one.InTrial != nil {
		row.Trial = changeWords(one.InTrial.Variable, one.InTrial.From, one.InTrial.To, one.InTrial.Unit)
	}
	if one.Stint == nil {
		return row, nil
	}
	x := one.Stint
	row.Last, row.Sets, row.Table = x.Last.In(visitor.Zone).Format("2 Jan"), x.SetsBefore+x.Sets, x.Table.Label()
	row.Wing = against(x.Targets.Wing, rate("w-"+id, "Wing ball of "+one.Name, x.WingMade, x.Breaks))
	row.Window, row.Scratch, row.Dry = ofWords(x.InWindow, x.Breaks), ofWords(x.Scratches(), x.Breaks), ofWords(x.Dry, x.Breaks)
	row.Recent = spark("s-"+id, "Wing ball of "+one.Name, one.Recent)
	row.Finding = verdictWords(one.Verdict)
	var f *advice.Finding
	if err := json.Unmarshal(one.Finding, &f); err != nil {
		return row, fmt.Errorf("read the finding of %s: %w", id, err)
	}
	if f != nil && f.Says != "" {
		row.Finding, row.fired = component.RewordForCoach(f.Says), true
	}
	return row, nil
}

func spark(id, label string, sets []store.RecentSet) *picture.SparkView {
	s := picture.SparkView{ID: id, Label: label}
	for i, set := range sets {
		s.Sets = append(s.Sets, picture.SetRate{
			Made: set.WingMade, Of: set.Breaks, NewSetup: i > 0 && set.Stint != sets[i-1].Stint,
		})
	}
	return &s
}
