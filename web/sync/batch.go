package sync

import (
	"encoding/json"
	"time"

	"breakwright/internal/store"
)

// batch is what a phone sends at a time. Its items are taken one after another
// in their order; each is kept or refused by itself.
type batch struct {
	// Person is whose the items are.
	Person string `json:"person"`
	// Sent is the phone's clock when it sent.
	Sent  time.Time `json:"sent"`
	Items []item    `json:"items"`
}

// kind says what an item does.
type kind string

const (
	startSet    kind = "start"
	saveBreak   kind = "break"
	deleteBreak kind = "delete"
	closeSet    kind = "close"
)

// item is one thing done on a phone. Which fields it has depends on its kind:
//
//	start   set, assignment, table, at, setup
//	break   set, id, revision, content
//	delete  set, id, revision, reason
//	close   set, breaks: how many the phone counts in it
type item struct {
	Kind       kind               `json:"kind"`
	Set        store.SetID        `json:"set"`
	Assignment store.AssignmentID `json:"assignment,omitzero"`
	Table      store.TableID      `json:"table,omitzero"`
	At         time.Time          `json:"at,omitzero"`
	Setup      *setupJSON         `json:"setup,omitempty"`
	ID         store.BreakID      `json:"id,omitzero"`
	Revision   int                `json:"revision,omitempty"`
	Content    json.RawMessage    `json:"content,omitempty"`
	Reason     string             `json:"reason,omitempty"`
	Breaks     int                `json:"breaks,omitempty"`
}

// is says what became of an item.
type is string

const (
	accepted is = "accepted"
	had      is = "had"
	refused  is = "refused"
)

// because is the kind of a refusal, for the script.
type because string

const (
	stale    because = "stale"    // changed or deleted meanwhile
	conflict because = "conflict" // something else is there
	closed   because = "closed"   // the set is closed
	invalid  because = "invalid"  // it cannot have happened
	gone     because = "gone"     // no such set, drill, table or break of this person
	waiting  because = "waiting"  // something before it has to be settled first
)

// reply answers one item.
type reply struct {
	Is      is      `json:"is"`
	Because because `json:"because,omitempty"`
	// Why is a sentence for the student.
	Why string `json:"why,omitempty"`
	// There is what the server keeps instead, when that is another version of
	// the break or another break of its number.
	There *breakThere `json:"there,omitempty"`
}

// breakThere is a break as the server keeps it.
type breakThere struct {
	ID       store.BreakID `json:"id"`
	Revision int           `json:"revision"`
	// Coach says that a coach wrote this revision.
	Coach   bool      `json:"coach,omitempty"`
	Content breakJSON `json:"content"`
}
