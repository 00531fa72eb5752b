package sync

import (
	"encoding/json"
	"fmt"
	"net/http"
	"time"

	"breakwright/internal/breaklog"
	"breakwright/internal/drill"
	"breakwright/internal/table"
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
	r.Body = http.MaxBytesReader(w, r.Body, MaxBytes)
	var log stuckBreaks
	if err := json.Unmarshal([]byte(r.PostFormValue("log")), &log); err != nil {
		return writeJSON(w, http.StatusBadRequest, batchError{"unreadable", "These breaks could not be read. They are still on the phone."})
	}
	set, err := log.toSet(session.MustUser(r))
	if err != nil {
		return writeJSON(w, http.StatusBadRequest, batchError{"unreadable", err.Error()})
	}
	h := w.Header()
	h.Set("Content-Type", "text/csv; charset=utf-8")
	h.Set("Content-Disposition", `attachment; filename="breaks-`+log.Started.UTC().Format("2006-01-02")+`.csv"`)
	h.Set("Cache-Control", "no-store")
	return breaklog.Write(w, []drill.Set{set})
}

// toSet returns the breaks as a set of the visitor's, numbered without gaps.
func (log stuckBreaks) toSet(visitor session.User) (drill.Set, error) {
	setup, err := log.Setup.toSetup()
	if err != nil {
		return drill.Set{}, err
	}
	set := drill.Set{
		Student: visitor.Name, Name: log.Started.In(visitor.Zone).Format("2006-01-02 15:04") + " from the phone", Table: log.Label,
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
	if err := set.Check(); err != nil {
		return drill.Set{}, fmt.Errorf("these breaks cannot have happened like that: %w", err)
	}
	return set, nil
}
