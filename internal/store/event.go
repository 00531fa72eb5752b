package store

import "encoding/json"

// Channel is the NOTIFY channel on which every change is published after its commit.
const Channel = "breakwright"

// Event says what changed, not how: who listens asks the store again. It is
// published as JSON on [Channel].
type Event struct {
	Club    ClubID    `json:"club"`
	Kind    EventKind `json:"kind"`
	Student PersonID  `json:"student,omitzero"`
	Set     SetID     `json:"set,omitzero"`
}

// EventKind says what an event is about.
type EventKind string

// The kinds.
const (
	SetStarted          EventKind = "set started"
	BreakSaved          EventKind = "break" // saved or deleted
	SetClosed           EventKind = "set closed"
	PrescriptionDecided EventKind = "decided"
	MessagePosted       EventKind = "message"
	DrillAssigned       EventKind = "assigned"
	PersonErased        EventKind = "erased" // does not say who
)

func (e Event) encodeJSON() string {
	text, err := json.Marshal(e)
	if err != nil {
		panic("store: an event that does not marshal: " + err.Error())
	}
	return string(text)
}

// queueEvent announces a change once the transaction is committed.
func (t *tx) queueEvent(kind EventKind, student PersonID, set SetID) {
	t.events = append(t.events, Event{Club: t.actor.Club, Kind: kind, Student: student, Set: set})
}
