package drills

import (
	"net/http"
	"net/url"
	"strconv"
	"time"

	"breakwright/internal/say"
	"breakwright/internal/store"
	"breakwright/web/page"
	"breakwright/web/session"
)

// assignmentsView is the list of assignments.
type assignmentsView struct {
	Frame page.Frame
	// Ended shows those that have ended instead of the open ones.
	Ended bool
	store.AssignmentPage
	// From counts the rows before these.
	From  int
	Today string
}

// assignmentsPerPage is how many assignments a page lists.
const assignmentsPerPage = 50

func (p *Pages) listAssignments(w http.ResponseWriter, r *http.Request) error {
	user := session.MustUser(r)
	v := assignmentsView{
		Ended: r.URL.Query().Get("ended") == "1",
		Today: p.now().In(user.Zone).Format(time.DateOnly),
	}
	v.From = readOffset(r.URL.Query().Get("from"))
	var err error
	v.AssignmentPage, err = p.store.PageAssignments(r.Context(), user.Actor, store.AssignmentFilter{Ended: v.Ended, Skip: v.From, Most: assignmentsPerPage})
	if err != nil {
		return err
	}
	v.Frame = p.sessions.TakeFrame(w, r)
	return page.Render(w, r, http.StatusOK, assignmentsPage(v))
}

// readOffset reads how many rows stand before the page; nonsense is the first page.
func readOffset(typed string) int {
	from, err := strconv.Atoi(typed)
	if err != nil || from < 0 || from > 1_000_000 {
		return 0
	}
	return from
}

// listPath is that of the page which begins after so many rows.
func (v assignmentsView) listPath(from int) string {
	q := url.Values{}
	if v.Ended {
		q.Set("ended", "1")
	}
	if from > 0 {
		q.Set("from", strconv.Itoa(from))
	}
	if len(q) == 0 {
		return "/assignments"
	}
	return "/assignments?" + q.Encode()
}

// headline is the page's first line: how many there are, and how many of those
// listed wait for students beyond their day.
func (v assignmentsView) headline() string {
	if v.Ended {
		return say.Count(v.Total, "assignment has ended.", "assignments have ended.")
	}
	late := 0
	for _, a := range v.List {
		if !a.Due.IsZero() && formatDateField(a.Due) < v.Today && a.Done < a.For {
			late++
		}
	}
	words := say.Count(v.Total, "assignment is open", "assignments are open")
	if late > 0 {
		words += ", " + say.Count(late, "of them past its day and not done by all", "of them past their day and not done by all")
	}
	return words + "."
}

// rangeWords says which part of a long list this is; "" for all of it.
func (v assignmentsView) rangeWords() string {
	if len(v.List) == v.Total {
		return ""
	}
	return strconv.Itoa(v.From+1) + " to " + strconv.Itoa(v.From+len(v.List)) + " of " + strconv.Itoa(v.Total)
}
