package privacy

import (
	"net/http"
	"net/url"
	"strconv"
	"time"

	"github.com/google/uuid"

	"breakwright/internal/say"
	"breakwright/internal/store"
	"breakwright/web/page"
	"breakwright/web/session"
)

// auditView is the audit log.
type auditView struct {
	Frame page.Frame
	Lines []auditLine
	// Of is the name of the only one that the lines are about; "" for all.
	Of string
	// Older leads on; "" at the end.
	Older string
}

type auditLine struct {
	When, Who, Act, Place, About, AboutPath, Times string
}

// showAudit lists who saw, changed, exported or erased what.
func (p *Pages) showAudit(w http.ResponseWriter, r *http.Request) error {
	user := session.MustUser(r)
	query := r.URL.Query()
	about, _ := uuid.Parse(query.Get("about")) // anything else is about everybody
	before, err := time.Parse(time.RFC3339Nano, query.Get("before"))
	if err != nil {
		before = p.now().Add(time.Minute) // the database's clock may be a little ahead
	}
	notes, err := p.store.ListNotes(r.Context(), user.Actor, about, before)
	if err != nil {
		return err
	}
	v := auditView{Frame: p.sessions.TakeFrame(w, r)}
	for _, n := range notes {
		v.Lines = append(v.Lines, newAuditLine(n, user.Zone))
		if about != uuid.Nil {
			v.Of = n.AboutName
		}
	}
	if len(notes) == store.NotesAtATime {
		v.Older = "/audit?" + url.Values{"about": {query.Get("about")}, "before": {notes[len(notes)-1].Last.Format(time.RFC3339Nano)}}.Encode()
	}
	return page.Render(w, r, http.StatusOK, auditPage(v))
}

func newAuditLine(n store.NoteLine, zone *time.Location) auditLine {
	l := auditLine{When: say.ShortWeekdayMoment(n.Last.In(zone)), Who: n.ByName, Act: actWords(n.Act, n.Place), Place: PlaceWords(n.Place), About: n.AboutName}
	if n.AboutName != "" && n.About != n.By.UUID {
		l.AboutPath = "/audit?about=" + n.About.String()
	}
	if n.Times > 1 {
		l.Times = strconv.Itoa(n.Times) + " times that day"
	}
	return l
}
