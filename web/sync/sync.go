package sync

import (
	"encoding/json"
	"errors"
	"fmt"
	"net/http"
	"time"

	"breakwright/internal/store"
	"breakwright/web/route"
	"breakwright/web/session"
)

// Bounds of a batch. A phone that was away for a week sends several.
const (
	MaxBytes = 512 << 10
	MaxItems = 200
)

// Endpoint is the two ends of the exchange.
type Endpoint struct {
	store *store.Store
	judge store.Judge
	now   func() time.Time
}

// New makes it; judge advises on a set when it is closed, now is the clock.
func New(s *store.Store, judge store.Judge, now func() time.Time) *Endpoint {
	return &Endpoint{store: s, judge: judge, now: now}
}

// Routes are the rows of the route table.
func (d *Endpoint) Routes() []route.Route {
	return []route.Route{
		route.Get("/sync", route.Student, d.getSnapshot),
		route.Post("/sync", route.Student, d.postBatch),
		route.Post("/table/log", route.Student, d.writeBreakLog),
	}
}

// batchError is the answer when no item was looked at.
type batchError struct {
	// Error is a word for the script, Says a sentence for people.
	Error string `json:"error"`
	Says  string `json:"says"`
}

// postBatch keeps what a phone sends.
func (d *Endpoint) postBatch(w http.ResponseWriter, r *http.Request) error {
	var b batch
	decoder := json.NewDecoder(http.MaxBytesReader(w, r.Body, MaxBytes))
	if err := decoder.Decode(&b); err != nil {
		return writeJSON(w, http.StatusBadRequest, batchError{"unreadable", "What the phone sent was cut off or is too long. Nothing of it was kept; it will be sent again."})
	}
	if decoder.More() || len(b.Items) > MaxItems {
		return writeJSON(w, http.StatusBadRequest, batchError{"unreadable", fmt.Sprintf("At most %d items are taken at a time.", MaxItems)})
	}
	user := session.MustUser(r).Actor
	if b.Person != user.Person.String() {
		return writeJSON(w, http.StatusConflict, batchError{"person", "These breaks were recorded by somebody else on this phone. They stay here until that person signs in."})
	}
	answers, err := d.applyBatch(r.Context(), user, b)
	if errors.Is(err, store.ErrUnavailable) {
		return writeJSON(w, http.StatusServiceUnavailable, batchError{"unavailable", "The database does not answer just now. Nothing is lost; it will be sent again."})
	}
	if err != nil {
		return err
	}
	return writeJSON(w, http.StatusOK, struct {
		Answers []itemReply `json:"answers"`
	}{answers})
}

func writeJSON(w http.ResponseWriter, status int, content any) error {
	body, err := encodeJSON(content)
	if err != nil {
		return fmt.Errorf("sync: write the answer: %w", err)
	}
	h := w.Header()
	h.Set("Content-Type", "application/json")
	h.Set("Cache-Control", "no-store")
	w.WriteHeader(status)
	// A phone that went away asks again.
	_, _ = w.Write(body)
	return nil
}
