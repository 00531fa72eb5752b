package sync

import (
	"encoding/json"
	"time"

	"breakwright/internal/store"
	"breakwright/internal/table"
)

// batch is what a phone sends at a time. Its items are taken one after another
// in their order; each is kept or refused by itself.
type batch struct {
	// Person is whose the items are.
	Person string `json:"person"`
	// Sent is the phone's clock when it sent.
	Sent  time.Time   `json:"sent"`
	Items []batchItem `json:"items"`
}

// itemKind says what an item does.
type itemKind string

const (
	startSet    itemKind = "start"
	saveBreak   itemKind = "break"
	deleteBreak itemKind = "delete"
	closeSet    itemKind = "close"
	reopenSet   itemKind = "reopen"
	moveSet     itemKind = "move"
	discardSet  itemKind = "discard"
	postNote    itemKind = "note"
)

// batchItem is one thing done on a phone. Which fields it has depends on its kind:
//
//	start    set, assignment or training, table, at, setup, window, breaks
//	break    set, id, revision, content
//	delete   set, id, revision, reason
//	close    set, breaks: how many the phone counts in it
//	reopen   set
//	move     set, table, assignment
//	discard  set
//	note     set, note, text: breaks that found no place, in words for the coach
type batchItem struct {
	Kind       itemKind           `json:"kind"`
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
	// Training says what is broken without an assignment, Window where its cue
	// ball should stop: left, right, head, foot.
	Training string          `json:"training,omitempty"`
	Window   [4]table.Inches `json:"window,omitzero"`
	Note     store.MessageID `json:"note,omitzero"`
	Text     string          `json:"text,omitempty"`

	// unreadable says that it could not be read: only this item is refused.
	unreadable bool
}

// UnmarshalJSON reads an item, and never fails: what cannot be read in one must
// not hold up the others of a batch.
func (it *batchItem) UnmarshalJSON(text []byte) error {
	type fields batchItem
	it.unreadable = json.Unmarshal(text, (*fields)(it)) != nil
	return nil
}

// itemOutcome says what became of an item.
type itemOutcome string

const (
	accepted    itemOutcome = "accepted"
	alreadyKept itemOutcome = "had"
	refused     itemOutcome = "refused"
)

// refusalReason is the kind of a refusal, for the script.
type refusalReason string

const (
	stale    refusalReason = "stale"    // changed or deleted meanwhile
	conflict refusalReason = "conflict" // something else is there
	closed   refusalReason = "closed"   // the set is closed
	invalid  refusalReason = "invalid"  // it cannot have happened
	gone     refusalReason = "gone"     // no such set, drill, table or break of this person
	waiting  refusalReason = "waiting"  // something before it has to be settled first
)

// itemReply answers one item.
type itemReply struct {
	Outcome itemOutcome   `json:"is"`
	Reason  refusalReason `json:"because,omitempty"`
	// Sentence is a sentence for the student.
	Sentence string `json:"why,omitempty"`
	// Current is what the server keeps instead, when that is another version of
	// the break or another break of its number.
	Current *currentBreak `json:"there,omitempty"`
}

// currentBreak is a break as the server keeps it.
type currentBreak struct {
	ID       store.BreakID `json:"id"`
	Revision int           `json:"revision"`
	// Coach says that a coach wrote this revision.
	Coach   bool      `json:"coach,omitempty"`
	Content breakJSON `json:"content"`
}
