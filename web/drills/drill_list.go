package drills

import (
	"net/http"

	"breakwright/internal/say"
	"breakwright/internal/store"
	"breakwright/web/page"
	"breakwright/web/picture"
	"breakwright/web/route"
	"breakwright/web/session"
)

// drillsView is the list of the club's drills.
type drillsView struct {
	Frame page.Frame
	All   bool // archived ones too
	Rows  []drillListRow
	// Open counts the assignments that students are at.
	Open int
}

// drillListRow is one drill of the list.
type drillListRow struct {
	store.Drill
	Path string
}

// thumbnail is the drill's picture at the size of a stamp: what tells drills apart
// at a glance and nothing else.
func (d drillListRow) thumbnail() picture.TableView {
	view := picture.DrillTable("small-"+d.ID.String(), d.Drill.Drill)
	view.Title, view.Distances = d.Name, false
	return view
}

func (p *Pages) listDrills(w http.ResponseWriter, r *http.Request) error {
	actor := session.MustUser(r).Actor
	v := drillsView{All: r.URL.Query().Get("all") == "1"}
	drills, err := p.store.ListDrills(r.Context(), actor, store.ArchiveFilter(v.All))
	if err != nil {
		return err
	}
	open, err := p.store.PageAssignments(r.Context(), actor, store.AssignmentFilter{Most: 1})
	if err != nil {
		return err
	}
	v.Open = open.Total
	for _, d := range drills {
		v.Rows = append(v.Rows, drillListRow{Drill: d, Path: route.DrillPath(d.ID)})
	}
	v.Frame = p.sessions.TakeFrame(w, r)
	return page.Render(w, r, http.StatusOK, drillsPage(v))
}

// toolsSummary names what can be done with a drill as a whole.
func toolsSummary(d store.Drill) string {
	if d.Archived {
		return "Copy, mirror or restore"
	}
	return "Copy, mirror or archive"
}

// headline is the page's first line.
func (v drillsView) headline() string {
	live := 0
	for _, d := range v.Rows {
		if !d.Archived {
			live++
		}
	}
	if v.Open == 0 {
		return "You have " + say.Count(live, "drill", "drills") + "; nobody is at one just now."
	}
	return "You have " + say.Count(live, "drill", "drills") + ", and " + say.Count(v.Open, "assignment is", "assignments are") + " open."
}
