package sync

import (
	"maps"
	"slices"
	"testing"

	"breakwright/internal/store"

	"pgregory.net/rapid"
)

// Two phones of one student record, change and delete breaks of one set, while
// what they send is lost, doubled, cut off or comes late and in another order,
// and so are the answers. When the lines are good again and both have sent, and
// every disagreement was settled, nothing is lost, nothing doubled, and of every
// break the last revision stands.
func TestProtocol_TwoPhonesOnABadLine(t *testing.T) {
	h := newSyncHarness(t)
	rapid.Check(t, func(rt *rapid.T) {
		// Other sets of the student must not stand in the way.
		set := store.NewID[store.SetID]()
		a, b := newPhone(h, set, "left"), newPhone(h, set, "right")
		w := &lossyNetwork{t: t, rt: rt, phones: []*phone{a, b}, ever: map[store.BreakID]bool{}}
		a.write(t).arrive(t, true) // the set is begun on one phone
		b.fetch(t)
		rt.Repeat(map[string]func(*rapid.T){
			"record": w.record, "edit": w.edit, "delete": w.delete,
			"send": w.send, "late": w.deliverLate, "fetch": w.fetch, "": w.check,
		})
		w.settle()
		w.checkSettled()
		closed := h.postItems(t, a.as, batchItem{Kind: closeSet, Set: set, Breaks: len(h.set(t, a.as, set).Breaks)})
		if closed[0].Outcome != accepted {
			rt.Fatalf("settled, but not closed: %+v", closed[0])
		}
	})
}

// lossyNetwork joins the phones to the server, badly.
type lossyNetwork struct {
	t      *testing.T
	rt     *rapid.T
	phones []*phone
	late   []sentBatch
	// ever are all breaks that anybody entered.
	ever map[store.BreakID]bool
}

func (w *lossyNetwork) phone(rt *rapid.T) *phone {
	return rapid.SampledFrom(w.phones).Draw(rt, "phone")
}

func (w *lossyNetwork) remember() {
	for _, p := range w.phones {
		for id := range p.records {
			w.ever[id] = true
		}
	}
}

func (w *lossyNetwork) record(rt *rapid.T) { w.phone(rt).record(); w.remember() }

func (w *lossyNetwork) choose(rt *rapid.T, do func(*phone, store.BreakID)) {
	p := w.phone(rt)
	ids := p.ids(func(r *record) bool { return !r.deleted && r.refused == nil })
	if len(ids) == 0 {
		rt.Skip("no break on that phone")
	}
	do(p, ids[rapid.IntRange(0, len(ids)-1).Draw(rt, "break")])
}

func (w *lossyNetwork) edit(rt *rapid.T)   { w.choose(rt, (*phone).edit) }
func (w *lossyNetwork) delete(rt *rapid.T) { w.choose(rt, (*phone).delete) }
func (w *lossyNetwork) fetch(rt *rapid.T)  { w.phone(rt).fetch(w.t); w.remember() }

// send sends what a phone has, and something happens on the way.
func (w *lossyNetwork) send(rt *rapid.T) {
	l := w.phone(rt).write(w.t)
	switch rapid.SampledFrom([]string{"arrives", "answer lost", "lost", "doubled", "cut off", "late", "half kept"}).Draw(rt, "the letter") {
	case "arrives":
		l.arrive(w.t, true)
	case "answer lost":
		l.arrive(w.t, false)
	case "doubled":
		l.arrive(w.t, false)
		l.arrive(w.t, true)
	case "cut off":
		l.body = l.body[:rapid.IntRange(0, len(l.body)-1).Draw(rt, "after")]
		l.arrive(w.t, true)
	case "late":
		w.late = append(w.late, l)
	case "half kept": // the server dies after some of the items
		n := rapid.IntRange(0, len(l.items)).Draw(rt, "items")
		sentBatch{l.from, l.items[:n], l.from.harness.body(w.t, l.from.as, l.from.harness.desk.now(), l.items[:n]...)}.arrive(w.t, false)
	}
}

// deliverLate brings one of the letters that are late, in any order; its phone
// has given up waiting for the answer.
func (w *lossyNetwork) deliverLate(rt *rapid.T) {
	if len(w.late) == 0 {
		rt.Skip("none is late")
	}
	i := rapid.IntRange(0, len(w.late)-1).Draw(rt, "which")
	w.late[i].arrive(w.t, false)
	w.late = slices.Delete(w.late, i, i+1)
}

// check holds at every moment: no number stands twice on the server.
func (w *lossyNetwork) check(rt *rapid.T) {
	p := w.phones[0]
	seen := map[int]bool{}
	for _, b := range p.harness.set(w.t, p.as, p.set).Breaks {
		if seen[b.Number] {
			rt.Fatalf("break %d is on the server twice", b.Number)
		}
		seen[b.Number] = true
	}
}

// settle lets everything arrive, and the student settle what does not fit.
func (w *lossyNetwork) settle() {
	for len(w.late) > 0 {
		w.deliverLate(w.rt)
	}
	for round := 0; ; round++ {
		busy := false
		for _, p := range w.phones {
			p.write(w.t).arrive(w.t, true)
			p.fetch(w.t)
			for _, id := range p.ids(func(r *record) bool { return r.refused != nil }) {
				// After many rounds both phones' students agree on what is there.
				p.settle(id, round < 5 && rapid.Bool().Draw(w.rt, "keep mine"))
			}
			busy = busy || len(p.items(w.t)) > 0 || len(p.ids(func(r *record) bool { return r.unsent() })) > 0
		}
		if !busy && round > 0 {
			return
		}
		if round > 30 {
			w.rt.Fatal("the phones do not come to rest")
		}
	}
}

func (w *lossyNetwork) checkSettled() {
	p := w.phones[0]
	for _, p := range w.phones {
		p.fetch(w.t)
	}
	kept := map[store.BreakID]store.Break{}
	for _, b := range p.harness.set(w.t, p.as, p.set).Breaks {
		kept[b.ID] = b
	}
	for _, id := range slices.Collect(maps.Keys(w.ever)) {
		b, there := kept[id]
		for _, p := range w.phones {
			r := p.records[id]
			switch {
			case r != nil && r.deleted && there && r.revision >= b.Revision:
				w.rt.Fatalf("break %d was deleted as revision %d on %s, and is there as %d", b.Number, r.revision, p.name, b.Revision)
			case r != nil && !r.deleted && !there:
				w.rt.Fatalf("break %d, %q, is only on %s", r.number, r.note, p.name)
			case r != nil && there && !r.deleted && (r.revision != b.Revision || r.note != b.Note || r.number != b.Number):
				w.rt.Fatalf("%s has revision %d, %q, the server %d, %q", p.name, r.revision, r.note, b.Revision, b.Note)
			}
		}
		if !there && !w.deletedOrGiven(id) {
			w.rt.Fatalf("break %s is lost: nobody deleted it or let it go", id)
		}
	}
}

// deletedOrGiven says whether a student took the break out.
func (w *lossyNetwork) deletedOrGiven(id store.BreakID) bool {
	return slices.ContainsFunc(w.phones, func(p *phone) bool {
		r := p.records[id]
		return p.given[id] || (r != nil && r.deleted)
	})
}
