package sync

import (
	"encoding/json"
	"errors"
	"net/http"
	"time"

	"breakwright/internal/breaklog"
	"breakwright/internal/drill"
	"breakwright/internal/table"
	"breakwright/web/page"
	"breakwright/web/session"
)

// stuckBreaks is what a phone has of breaks that found no place on the server.
type stuckBreaks struct {
	Label   string            `json:"label"`
	Started time.Time         `json:"started"`
	Drill   string            `json:"drill"`
	Kind    kindJSON          `json:"kind"`
	Setup   setupJSON         `json:"setup"`
	Breaks  []json.RawMessage `json:"breaks"`
}

// writeBreakLog returns breaks that are only on a phone as a break log, which a coach
// can take over. It keeps nothing.
func (d *Endpoint) writeBreakLog(w http.ResponseWriter, r *http.Request) error {
	form, err := page.ReadForm(w, r)
	if err != nil {
		return err
	}
	log, set := readStuckBreaks(form, session.MustUser(r))
	if !form.IsValid() {
		return refuseBreakLog(w, r, form)
	}
	h := w.Header()
	h.Set("Content-Type", "text/csv; charset=utf-8")
	h.Set("Content-Disposition", `attachment; filename="breaks-`+log.Started.UTC().Format("2006-01-02")+`.csv"`)
	h.Set("Cache-Control", "no-store")
	return breaklog.Write(w, []drill.Set{set})
}

// fieldLog holds what a phone wrote of breaks that are only on it.
const fieldLog = "log"

// readStuckBreaks reads the breaks of a form, as they are and as a set of the
// user's, or notes in the form what is wrong with them.
func readStuckBreaks(form *page.Form, user session.User) (log stuckBreaks, set drill.Set) {
	err := json.Unmarshal([]byte(form.RawText(fieldLog)), &log)
	if err == nil {
		set, err = log.toSet(user)
	}
	var problems drill.Problems
	switch {
	case errors.As(err, &problems):
		form.Reject(fieldLog, "these breaks cannot have happened like that: "+problems[0].Message)
	case err != nil:
		form.Reject(fieldLog, "these breaks could not be read")
	}
	return log, set
}

// refuseBreakLog says what is wrong: to a person on a page that gives back what was
// sent, to a script in a sentence.
func refuseBreakLog(w http.ResponseWriter, r *http.Request, form *page.Form) error {
	if page.WantsJSON(r) {
		return writeJSON(w, http.StatusUnprocessableEntity, batchError{"unreadable", form.ErrorFor(fieldLog)})
	}
	return page.Render(w, r, http.StatusUnprocessableEntity, breakLogPage(page.Frame{Person: session.PagePerson(r)}, form))
}

// toSet returns the breaks as a set of the user's, numbered without gaps.
func (log stuckBreaks) toSet(user session.User) (drill.Set, error) {
	setup, err := log.Setup.toSetup()
	if err != nil {
		return drill.Set{}, err
	}
	set := drill.Set{
		Student: user.Name, Name: log.Started.In(user.Zone).Format("2006-01-02 15:04") + " from the phone", Table: log.Label,
		Kind: table.Kind{Feet: log.Kind.Feet, Small: log.Kind.Small, CornerMouth: log.Kind.Corner, SideMouth: log.Kind.Side}, Setup: setup,
	}
	for i, text := range log.Breaks {
		b, err := ReadBreak(text)
		if err != nil {
			return drill.Set{}, err
		}
		b.Number = i + 1
		set.Breaks = append(set.Breaks, b)
	}
	return set, set.Check()
}
