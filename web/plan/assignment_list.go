package plan

import (
	"net/http"
	"time"

	"breakwright/internal/store"
	"breakwright/web/page"
	"breakwright/web/session"
)

// assignmentsView is the list of assignments.
type assignmentsView struct {
	Frame page.Frame
	All   bool // ended ones too
	Rows  []store.ListedAssignment
	Today string
}

func (p *Plan) listAssignments(w http.ResponseWriter, r *http.Request) error {
	visitor := session.From(r)
	v := assignmentsView{
		All:   r.URL.Query().Get("all") == "1",
		Today: p.now().In(visitor.Zone).Format(time.DateOnly),
	}
	var err error
	if v.Rows, err = p.store.ListAssignments(r.Context(), visitor.Viewer, store.Which(v.All)); err != nil {
		return err
	}
	v.Frame = p.sessions.Frame(w, r)
	return page.Render(w, r, http.StatusOK, assignmentsPage(v))
}

// answer is the page's first line: how many are open, and how many of these
// wait for students beyond their day.
func (v assignmentsView) answer() string {
	open, late := 0, 0
	for _, a := range v.Rows {
		if !a.Ended.IsZero() {
			continue
		}
		open++
		if !a.Due.IsZero() && dateField(a.Due) < v.Today && a.Done < a.For {
			late++
		}
	}
	words := count(open, "assignment is open", "assignments are open")
	if late > 0 {
		words += ", " + count(late, "of them past its day and not done by all", "of them past their day and not done by all")
	}
	return words + "."
}
