package sync

import (
	"encoding/json"
	"fmt"
	"net/http"
	"net/http/httptest"
	"slices"
	"testing"
	"time"

	"breakwright/internal/store"
)

// phone is what static/js/record-store.js and record-queue.js keep and do, for
// the model: the states and transitions of the package comment.
type phone struct {
	court   *court
	name    string
	sets    map[store.SetID]*phoneSet
	records map[store.BreakID]*record
}

// phoneSet is a set on a phone.
type phoneSet struct {
	id           store.SetID
	assignment   store.AssignmentID // zero: training
	begun        time.Time
	started      bool
	startRefused bool
	closed       bool
	closeSent    bool
	reopening    bool
}

// record is a break on a phone: the revision it has here and the one the server
// is known to have.
type record struct {
	set                     store.SetID
	revision, acked, number int
	// note says which break it is, and which version of it.
	note    string
	deleted bool
	refused *itemReply
}

func (r *record) unsent() bool { return r.revision > r.acked }

// stuck is bw.isStuck.
func (p *phone) stuck(r *record) bool {
	if r.deleted || r.acked > 0 {
		return false
	}
	set := p.sets[r.set]
	return set.startRefused || r.refused != nil && slices.Contains([]refusalReason{closed, "full", gone}, r.refused.Reason)
}

func newPhone(c *court, name string) *phone {
	return &phone{court: c, name: name, sets: map[store.SetID]*phoneSet{}, records: map[store.BreakID]*record{}}
}

// GoString is what a failed check says of a phone.
func (p *phone) GoString() string { return p.name }

// begin starts a set here.
func (p *phone) begin() *phoneSet {
	set := &phoneSet{id: store.NewID[store.SetID](), assignment: p.court.assignment, begun: time.Now()}
	p.sets[set.id] = set
	return set
}

// record enters a break under the first number free here.
func (p *phone) record(set store.SetID) {
	if n := p.free(set, store.BreakID{}); n > 0 {
		id := newBreakID()
		p.records[id] = &record{set: set, revision: 1, number: n, note: p.court.version(id)}
	}
}

func (p *phone) free(set store.SetID, but store.BreakID, taken ...int) int {
	for id, r := range p.records {
		if !r.deleted && id != but && r.set == set {
			taken = append(taken, r.number)
		}
	}
	for n := 1; n <= 10; n++ {
		if !slices.Contains(taken, n) {
			return n
		}
	}
	return 0
}

// ids returns the breaks here that a test may choose from, in a steady order.
func (p *phone) ids(which func(*record) bool) []store.BreakID {
	var ids []store.BreakID
	for id, r := range p.records {
		if which(r) {
			ids = append(ids, id)
		}
	}
	slices.SortFunc(ids, func(a, b store.BreakID) int { return slices.Compare(a.UUID[:], b.UUID[:]) })
	return ids
}

func (p *phone) setIDs(which func(*phoneSet) bool) []store.SetID {
	var ids []store.SetID
	for id, set := range p.sets {
		if which(set) {
			ids = append(ids, id)
		}
	}
	slices.SortFunc(ids, func(a, b store.SetID) int { return slices.Compare(a.UUID[:], b.UUID[:]) })
	return ids
}

// items is itemsOf in record-queue.js.
func (p *phone) items(t testing.TB, id store.SetID) []batchItem {
	set := p.sets[id]
	if set.startRefused {
		return nil
	}
	var items []batchItem
	if !set.started {
		items = append(items, p.court.start(set))
	}
	if set.reopening {
		items = append(items, batchItem{Kind: reopenSet, Set: id})
	}
	unsent := p.ids(func(r *record) bool { return r.set == id && r.unsent() && r.refused == nil })
	slices.SortStableFunc(unsent, func(a, b store.BreakID) int {
		x, y := p.records[a], p.records[b]
		if x.deleted != y.deleted {
			return map[bool]int{true: -1, false: 1}[x.deleted]
		}
		return x.number - y.number
	})
	for _, b := range unsent {
		r := p.records[b]
		gone := batchItem{Kind: deleteBreak, Set: id, ID: b, Revision: r.revision, Reason: "undone at once"}
		switch {
		case !r.deleted:
			items = append(items, saved(t, id, b, r.revision, r.number, r.note))
		case r.acked > 0:
			items = append(items, gone)
		default:
			items = append(items, saved(t, id, b, r.revision-1, r.number, r.note), gone)
		}
	}
	live := p.ids(func(r *record) bool { return r.set == id && !r.deleted })
	refused := slices.ContainsFunc(live, func(b store.BreakID) bool { return p.records[b].refused != nil })
	if set.closed && !set.closeSent && !refused {
		items = append(items, batchItem{Kind: closeSet, Set: id, Breaks: len(live)})
	}
	return items
}

// note is take in record-queue.js.
func (p *phone) note(it batchItem, answer itemReply) {
	good := answer.Outcome != refused
	set := p.sets[it.Set]
	if set == nil {
		return
	}
	switch it.Kind {
	case startSet:
		set.started, set.startRefused = set.started || good, set.startRefused || !good
		return
	case closeSet:
		set.closeSent = set.closeSent || good
		return
	case reopenSet:
		set.reopening = false
		if !good {
			set.closed, set.closeSent = true, true
		}
		return
	}
	p.noteBreak(it, answer, good)
}

// noteBreak is takeBreak.
func (p *phone) noteBreak(it batchItem, answer itemReply, good bool) {
	r := p.records[it.ID]
	if r == nil {
		return
	}
	if good || it.Kind == deleteBreak && answer.Reason == gone {
		r.acked = max(r.acked, it.Revision)
		return
	}
	if answer.Reason == closed {
		p.sets[it.Set].closed, p.sets[it.Set].closeSent = true, true
	}
	switch {
	case r.revision != it.Revision:
		if r.deleted && answer.Reason == conflict && it.Kind == saveBreak {
			r.acked = r.revision
		}
	case it.Kind == saveBreak && answer.Reason == conflict && answer.Current != nil && answer.Current.ID != it.ID:
		if n := p.free(r.set, it.ID, answer.Current.Content.Number); n > 0 {
			r.number, r.revision = n, r.revision+1
		} else {
			answer.Reason = "full"
			r.refused = &answer
		}
	default:
		r.refused = &answer
	}
}

// letter is a batch on its way.
type letter struct {
	from  *phone
	items []batchItem
	body  []byte
}

func (p *phone) write(t testing.TB, set store.SetID) letter {
	items := p.items(t, set)
	return letter{p, items, p.court.hall.body(t, p.court.student, time.Now(), items...)}
}

// arrive hands a letter to the server, and its answers to whom heard says.
func (l letter) arrive(t testing.TB, isHeard bool) {
	status, body := l.from.court.hall.send(t, l.from.court.student, l.body)
	if status != http.StatusOK || !isHeard {
		return
	}
	var answer struct{ Answers []itemReply }
	if err := json.Unmarshal(body, &answer); err != nil {
		t.Fatal(err)
	}
	for i, it := range l.items {
		l.from.note(it, answer.Answers[i])
	}
}

// fetch is merge and tidy in record-queue.js.
func (p *phone) fetch(t testing.TB) {
	_, body := p.court.hall.call(t, p.court.student, p.court.hall.desk.getSnapshot, httptest.NewRequest(http.MethodGet, "/sync", nil))
	var h snapshot
	if err := json.Unmarshal(body, &h); err != nil {
		t.Fatal(err)
	}
	open := map[store.SetID]bool{}
	for _, there := range h.Sets {
		open[there.ID] = true
		set := p.sets[there.ID]
		if set == nil {
			set = &phoneSet{id: there.ID, assignment: there.Assignment}
			p.sets[there.ID] = set
		}
		set.started = true
		if set.closeSent {
			set.closed, set.closeSent = false, false
		}
		p.merge(there)
	}
	for _, id := range p.setIDs(func(set *phoneSet) bool { return set.started && !open[set.id] && !(set.closed && !set.closeSent) }) {
		left := p.ids(func(r *record) bool { return r.set == id && r.unsent() })
		if len(left) == 0 && h.All {
			for _, b := range p.ids(func(r *record) bool { return r.set == id }) {
				delete(p.records, b)
			}
			delete(p.sets, id)
		}
	}
}

func (p *phone) merge(there setSnapshot) {
	known := map[store.BreakID]bool{}
	for _, b := range there.Breaks {
		known[b.ID] = true
		if r := p.records[b.ID]; r == nil || (!r.unsent() && r.revision < b.Revision) {
			p.records[b.ID] = &record{set: there.ID, revision: b.Revision, acked: b.Revision, number: b.Content.Number, note: b.Content.Note}
		}
	}
	for id, r := range p.records {
		if r.set == there.ID && !r.unsent() && !r.deleted && !known[id] {
			delete(p.records, id)
		}
	}
}

// settle is what a student does about what does not fit: mine says which way.
func (p *phone) settle(id store.BreakID, mine bool) {
	r := p.records[id]
	there := r.refused.Current
	switch {
	case mine && (there != nil || r.refused.Reason == stale):
		if there != nil {
			r.revision, r.acked = max(r.revision, there.Revision), there.Revision
		}
		r.revision++
		r.refused = nil
	case there != nil && there.ID == id:
		p.court.gaveWay[id] = true
		p.records[id] = &record{set: r.set, revision: there.Revision, acked: there.Revision, number: there.Content.Number, note: there.Content.Note}
	default:
		p.court.gaveWay[id] = true
		delete(p.records, id)
	}
}

// reopen is bw.reopenSet.
func (p *phone) reopen(set *phoneSet) {
	set.reopening = set.closeSent || set.reopening
	set.closed, set.closeSent = false, false
	for _, id := range p.ids(func(r *record) bool { return r.set == set.id && r.refused != nil && r.refused.Reason == closed }) {
		p.records[id].refused = nil
	}
}

// putElsewhere is bw.putElsewhere, into a set without a drill.
func (p *phone) putElsewhere(id store.SetID) {
	moved := p.ids(func(r *record) bool { return r.set == id && p.stuck(r) })
	next := &phoneSet{id: store.NewID[store.SetID](), begun: p.sets[id].begun}
	p.sets[next.id] = next
	for i, b := range moved {
		r := p.records[b]
		p.records[b] = &record{set: next.id, revision: r.revision, number: i + 1, note: r.note}
	}
	if left := p.ids(func(r *record) bool { return r.set == id && !r.deleted }); !p.sets[id].started && len(left) == 0 {
		for _, b := range p.ids(func(r *record) bool { return r.set == id }) {
			delete(p.records, b)
		}
		delete(p.sets, id)
	}
}

// version is what the next version of a break says, which tells all versions of
// all breaks apart.
func (c *court) version(id store.BreakID) string {
	c.versions++
	c.ever[id] = true
	return fmt.Sprintf("%s, version %d", id, c.versions)
}
