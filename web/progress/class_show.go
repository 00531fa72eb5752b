package progress

import (
	"context"
	"fmt"
	"io"
	"net/http"
	"strconv"

	"github.com/a-h/templ"

	"breakwright/internal/evidence"
	"breakwright/internal/progress"
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

// classProgressView is a class with every student in one row.
type classProgressView struct {
	Frame       page.Frame
	Path, Name  string
	Answer      string
	Query       classQuery
	Rows        []ClassRow
	All, Hidden int
	// Kinds are the kinds of table in the rows, the one most broke on first.
	Kinds []string
}

// ClassRow is where one student of a class stands, in words and pictures.
type ClassRow struct {
	Path, Name string
	Last       string // day of the latest set, "" before the first
	Sets       int    // closed ones, ever
	Table      string
	// Other says what kind of table it is, when it is not the one most of the class
	// broke on: rates there cannot be compared.
	Other                string
	Wing                 picture.RateView
	Window, Scratch, Dry string
	// Leave counts the shots and racks run out, where they were noted.
	Leave            []string
	Recent           *picture.SparkView
	Finding, InTrial string
	hasFinding       bool

	stint    *store.Stint
	standing progress.RankedMember
}

// LikelyWords is the rate the row is ordered by: drawn toward the class.
func (r ClassRow) LikelyWords() string { return fmt.Sprintf("%.0f %%", 100*r.standing.Rate) }

// showClassProgress answers with the page as it was made before, while nothing that
// it tells has changed since.
func (p *Pages) showClassProgress(w http.ResponseWriter, r *http.Request) error {
	id, err := parseClassID(r)
	if err != nil {
		return err
	}
	user := session.MustUser(r)
	mark, err := p.store.GetClassProgressMark(r.Context(), user.Actor, id)
	if err != nil {
		return err
	}
	frame := p.sessions.TakeFrame(w, r)
	build := func(w io.Writer) error {
		v, err := p.loadClassProgress(r, id)
		if err != nil {
			return err
		}
		if page.IsPartial(r) {
			return standingsTable(v).Render(r.Context(), w)
		}
		v.Frame = frame
		return classProgressPage(v).Render(r.Context(), w)
	}
	if frame.Flash != "" { // is said once
		return page.Render(w, r, http.StatusOK, templ.ComponentFunc(func(_ context.Context, w io.Writer) error { return build(w) }))
	}
	kept, err := p.kept.findOrMake(keyOfPage(r, user, frame.Person, id, mark), build)
	if err != nil {
		return err
	}
	return kept.serve(w, r)
}

// keyOfPage is all that the page depends on.
func keyOfPage(r *http.Request, user session.User, person page.Person, class store.ClassID, mark string) string {
	q := readClassQuery(r.URL.Query())
	return fmt.Sprintf("%q", []string{
		user.Actor.Club.String(), user.Person.String(), person.Name, person.Club, person.Theme, user.Zone.String(), strconv.Itoa(int(user.Units)),
		class.String(), mark, q.Sort, q.Show, q.Search, strconv.FormatBool(q.Down), strconv.FormatBool(page.IsPartial(r)),
	})
}

func (p *Pages) loadClassProgress(r *http.Request, id store.ClassID) (classProgressView, error) {
	user := session.MustUser(r)
	class, all, err := p.store.GetClassProgress(r.Context(), user.Actor, id)
	if err != nil {
		return classProgressView{}, err
	}
	v := classProgressView{Path: route.ClassPath(class.ID), Name: class.Name, Query: readClassQuery(r.URL.Query()), All: len(all)}
	if v.Rows, v.Kinds, err = buildClassRows(all, user); err != nil {
		return v, err
	}
	v.Answer = headlineOfClass(v.Rows)
	v.Rows = v.Query.filterRows(v.Rows)
	v.Hidden = v.All - len(v.Rows)
	v.Query.sortRows(v.Rows)
	return v, nil
}

// legend lists the marks of the rows' bars.
func (v classProgressView) legend() []picture.LegendItem {
	rates := make([]picture.RateView, len(v.Rows))
	for i, row := range v.Rows {
		rates[i] = row.Wing
	}
	return picture.RateLegend(rates...)
}

// headlineOfClass is the first line: how the class stands as one.
func headlineOfClass(rows []ClassRow) string {
	made, of, broke := 0, 0, 0
	for _, row := range rows {
		if row.stint != nil && row.Other == "" {
			made, of, broke = made+row.stint.WingMade, of+row.stint.Watched, broke+1
		}
	}
	switch {
	case broke == 0:
		return "Nobody of this class has done a set yet."
	case of == 0:
		return say.Count(broke, "student", "students") + " on their present setups, and nobody watched the wing ball."
	}
	return fmt.Sprintf("%s on their present setups: the wing ball in its corner in %s.",
		say.Count(broke, "student", "students"), say.OfTotal(made, of))
}

func buildClassRows(all []store.Standing, user session.User) ([]ClassRow, []string, error) {
	members := make([]progress.CountedMember, len(all))
	for i, one := range all {
		if one.Stint != nil {
			members[i] = progress.CountedMember{Kind: one.Stint.Table.Kind, Count: evidence.Count{Made: one.Stint.WingMade, Tried: one.Stint.Watched}}
		}
	}
	rows := make([]ClassRow, len(all))
	kinds, others, usual := map[int]string{}, map[int]bool{}, table.Kind{}
	for i, standing := range progress.RankMembers(members) {
		row, err := newClassRow(all[i], user)
		if err != nil {
			return nil, nil, err
		}
		row.standing = standing
		if row.stint != nil {
			kinds[standing.Group] = component.KindWithMouths(row.stint.Table.Kind, user.Units)
			if standing.Group == 0 {
				usual = row.stint.Table.Kind
			} else {
				others[i] = true
			}
		}
		rows[i] = row
	}
	for i := range others {
		rows[i].Other = component.OtherKindWords(rows[i].stint.Table.Kind, usual, user.Units)
	}
	var names []string
	for i := range len(kinds) {
		names = append(names, kinds[i])
	}
	return rows, names, nil
}

func newClassRow(one store.Standing, user session.User) (ClassRow, error) {
	id := one.ID.String()
	row := ClassRow{Path: route.StudentPath(one.ID), Name: one.Name, stint: one.Stint}
	if one.InTrial != nil {
		row.InTrial = component.ArrowWords(one.InTrial.Before, one.InTrial.After, one.InTrial.Kind, user.Units)
	}
	if one.Stint == nil {
		return row, nil
	}
	x := one.Stint
	row.Last, row.Sets, row.Table = say.ShortDay(x.Last.In(user.Zone)), x.SetsBefore+x.Sets, x.Table.Label()
	row.Wing = withTarget(x.Targets.Wing, newRate("w-"+id, "Wing ball of "+one.Name, x.WingMade, x.Watched))
	row.Window, row.Scratch, row.Dry = say.OfTotal(x.InWindow, x.Breaks), say.OfTotal(x.Scratches(), x.Breaks), say.OfWatched(x.Dry, x.Watched)
	if share := component.NewLeaveShare(one.LeaveBreaks, x.Setup, x.Table.Kind, x.Targets, ""); share != nil {
		row.Leave = share.Counts
	}
	row.Recent = newSpark("s-"+id, "Wing ball of "+one.Name, one.Recent)
	row.Finding = say.Sentence(component.VerdictWords(one.Verdict))
	f, err := setreview.ReadFinding(one.Finding)
	if err != nil {
		return row, fmt.Errorf("read the finding of %s: %w", id, err)
	}
	if f != nil && f.Says != "" {
		row.Finding, row.hasFinding = f.Statement.Text(user.Reader().BreakingFrom(x.Setup.Side)), true
	}
	return row, nil
}

func newSpark(id, label string, sets []store.RecentSet) *picture.SparkView {
	s := picture.SparkView{ID: id, Label: label}
	for i, set := range sets {
		if set.Watched == 0 {
			continue
		}
		s.Sets = append(s.Sets, picture.SetRate{
			Made: set.WingMade, Of: set.Watched, NewSetup: i > 0 && set.Stint != sets[i-1].Stint,
		})
	}
	return &s
}
