package coach

import (
	"fmt"
	"net/http"
	"time"

	"github.com/go-chi/chi/v5"

	"breakwright/internal/store"
	"breakwright/web/page"
	"breakwright/web/session"
)

// lockedLine is a student whom too many wrong PINs have locked out.
type lockedLine struct {
	ID         store.PersonID
	Name, Says string
}

// lockedLines are students only: a coach's lock opens by itself, and stands
// under Club.
func lockedLines(d store.Desk, zone *time.Location) []lockedLine {
	var lines []lockedLine
	for _, p := range d.Locked {
		if p.Role != store.Student {
			continue
		}
		lines = append(lines, lockedLine{ID: p.ID, Name: p.Name, Says: fmt.Sprintf(
			"%d wrong PINs on devices they had not used before, the last on %s: locked there. Ask whether it was them; if not, a new code is safer.",
			p.Wrong, formatTime(p.Locked, zone))})
	}
	return lines
}

// freeStudent lets a student try their PIN again.
func (p *Pages) freeStudent(w http.ResponseWriter, r *http.Request) error {
	id, err := store.ParseID[store.PersonID](chi.URLParam(r, "student"))
	if err != nil {
		return err
	}
	if err := p.store.FreePerson(r.Context(), session.MustUser(r).Actor, id); err != nil {
		return err
	}
	if page.IsPartial(r) {
		return page.Render(w, r, http.StatusOK, settledRow("Free. They can try again now.", nil))
	}
	p.sessions.SetFlash(w, r, "Free. They can try again now.")
	return page.Redirect(w, r, "/desk")
}
