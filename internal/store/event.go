package store

import "encoding/json"

// Channel is the NOTIFY channel on which every change is told after its commit.
const Channel = "breakwright"

// Event says what changed, not how: who listens asks the store again. It is
// told as JSON on [Channel].
type Event struct {
	Club    ClubID   `json:"club"`
	Kind    Kind     `json:"kind"`
	Student PersonID `json:"student,omitzero"`
	Set     SetID    `json:"set,omitzero"`
}

// Kind says what an event is about.
type Kind string

// The kinds.
const (
	SetStarted Kind = "set started"
	BreakSaved Kind = "break" // saved or deleted
	SetClosed  Kind = "set closed"
	Decided    Kind = "decided"
	Said       Kind = "message"
	Assigned   Kind = "assigned"
)

func (e Event) payload() string {
	text, err := json.Marshal(e)
	if err != nil {
		panic("store: an event that does not marshal: " + err.Error())
	}
	return string(text)
}

// tell announces a change once the transaction is committed.
func (t *tx) tell(kind Kind, student PersonID, set SetID) {
	t.events = append(t.events, Event{Club: t.viewer.Club, Kind: kind, Student: student, Set: set})
}
