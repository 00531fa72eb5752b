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
// the protocol test: records with the revision they have here and the one the
// server is known to have.
type phone struct {
	harness syncHarness
	as      store.Actor
	set     store.SetID
	name    string

	started bool
	records map[store.BreakID]*record
	// given are the breaks that the student let go, after seeing both versions.
	given map[store.BreakID]bool
	made  int
}

type record struct {
	revision, acked, number int
	note                    string
	deleted                 bool
	refused                 *itemReply
}

func (r *record) unsent() bool { return r.revision > r.acked }

func newPhone(h syncHarness, set store.SetID, name string) *phone {
	return &phone{harness: h, as: h.StudentActor(0), set: set, name: name, records: map[store.BreakID]*record{}, given: map[store.BreakID]bool{}}
}

// record enters a break under the first number free here.
func (p *phone) record() {
	if n := p.free(store.BreakID{}); n > 0 {
		p.made++
		p.records[newBreakID()] = &record{revision: 1, number: n, note: fmt.Sprintf("%s's %d", p.name, p.made)}
	}
}

func (p *phone) free(but store.BreakID, taken ...int) int {
	for id, r := range p.records {
		if !r.deleted && id != but {
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

func (p *phone) edit(id store.BreakID) {
	p.made++
	r := p.records[id]
	r.revision++
	r.note, r.refused = fmt.Sprintf("%s's %d", p.name, p.made), nil
}

func (p *phone) delete(id store.BreakID) {
	r := p.records[id]
	r.revision++
	r.deleted, r.refused = true, nil
}

// ids gives the breaks here that a test may choose from, in a steady order.
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

// items is itemsOf in record-queue.js.
func (p *phone) items(t testing.TB) []batchItem {
	var items []batchItem
	if !p.started {
		items = append(items, p.harness.start(p.set))
	}
	unsent := p.ids(func(r *record) bool { return r.unsent() && r.refused == nil })
	slices.SortStableFunc(unsent, func(a, b store.BreakID) int {
		x, y := p.records[a], p.records[b]
		if x.deleted != y.deleted {
			return map[bool]int{true: -1, false: 1}[x.deleted]
		}
		return x.number - y.number
	})
	for _, id := range unsent {
		r := p.records[id]
		gone := batchItem{Kind: deleteBreak, Set: p.set, ID: id, Revision: r.revision, Reason: "undone at once"}
		switch {
		case !r.deleted:
			items = append(items, saved(t, p.set, id, r.revision, r.number, r.note))
		case r.acked > 0:
			items = append(items, gone)
		default:
			items = append(items, saved(t, p.set, id, r.revision-1, r.number, r.note), gone)
		}
	}
	return items
}

// note is take in record-queue.js.
func (p *phone) note(it batchItem, answer itemReply) {
	good := answer.Outcome != refused
	if it.Kind == startSet {
		p.started = p.started || good
		return
	}
	r := p.records[it.ID]
	switch {
	case r == nil:
	case good, it.Kind == deleteBreak && answer.Reason == gone:
		r.acked = max(r.acked, it.Revision)
	case r.revision == it.Revision:
		r.refused = &answer
	case r.deleted && it.Kind == saveBreak:
		r.acked = r.revision
	}
}

// sentBatch is a batch on its way.
type sentBatch struct {
	from  *phone
	items []batchItem
	body  []byte
}

func (p *phone) write(t testing.TB) sentBatch {
	items := p.items(t)
	return sentBatch{p, items, p.harness.body(t, p.as, time.Now(), items...)}
}

// arrive hands a letter to the server, and its answers to whom heard says.
func (l sentBatch) arrive(t testing.TB, heard bool) {
	status, body := l.from.harness.send(t, l.from.as, l.body)
	if status != http.StatusOK {
		return
	}
	var answer struct{ Answers []itemReply }
	if err := json.Unmarshal(body, &answer); err != nil {
		t.Fatal(err)
	}
	l.checkKept(t, answer.Answers)
	if !heard {
		return
	}
	for i, it := range l.items {
		l.from.note(it, answer.Answers[i])
	}
}

// checkKept fails the test when a break is said to be kept and is not there in
// that revision and with that content.
func (l sentBatch) checkKept(t testing.TB, answers []itemReply) {
	set := l.from.harness.set(t, l.from.as, l.from.set)
	for i, it := range l.items {
		later := slices.ContainsFunc(l.items[i+1:], func(o batchItem) bool { return o.ID == it.ID })
		if it.Kind != saveBreak || answers[i].Outcome == refused || later {
			continue
		}
		content, err := ReadBreak(it.Content)
		there := slices.ContainsFunc(set.Breaks, func(b store.Break) bool {
			return b.ID == it.ID && b.Revision == it.Revision && b.Note == content.Note
		})
		if err != nil || !there {
			t.Fatalf("%s: revision %d, %q, is said to be %s, and is not there", l.from.name, it.Revision, content.Note, answers[i].Outcome)
		}
	}
}

// fetch is merge in record-queue.js.
func (p *phone) fetch(t testing.TB) {
	_, body := p.harness.call(t, p.as, p.harness.desk.getSnapshot, httptest.NewRequest(http.MethodGet, "/sync", nil))
	var h snapshot
	if err := json.Unmarshal(body, &h); err != nil {
		t.Fatal(err)
	}
	for _, set := range h.Sets {
		if set.ID != p.set {
			continue
		}
		p.started = true
		there := map[store.BreakID]bool{}
		for _, b := range set.Breaks {
			there[b.ID] = true
			if r := p.records[b.ID]; r == nil || (!r.unsent() && r.revision < b.Revision) {
				p.records[b.ID] = &record{revision: b.Revision, acked: b.Revision, number: b.Content.Number, note: b.Content.Note}
			}
		}
		for id, r := range p.records {
			if !r.unsent() && !r.deleted && !there[id] {
				delete(p.records, id)
			}
		}
	}
}

// settle is settle in record-store.js: the student saw both versions of a
// break and chose; mine says which way.
func (p *phone) settle(id store.BreakID, mine bool) {
	r := p.records[id]
	there := r.refused.Current
	own := there != nil && there.ID == id
	switch {
	case mine && (own || there == nil):
		if own {
			r.revision, r.acked = max(r.revision, there.Revision), there.Revision
		}
		r.revision++
		r.refused = nil
	case mine && p.free(id, there.Content.Number) > 0:
		r.number, r.refused = p.free(id, there.Content.Number), nil
	case own:
		p.records[id] = &record{revision: there.Revision, acked: there.Revision, number: there.Content.Number, note: there.Content.Note}
	default:
		p.given[id] = true
		delete(p.records, id)
	}
}
