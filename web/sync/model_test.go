package sync

import (
	"maps"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/google/uuid"
	"pgregory.net/rapid"

	"breakwright/internal/store"
	"breakwright/internal/table"
)

// Two phones of one student begin sets, record, change, take out, close and open
// again, while what they send is lost, doubled, cut off or comes late and in
// another order, and so are the answers; and while the coach ends the drill, puts
// the table away and corrects breaks. At every moment no break is kept twice.
// When the lines are good again, both have sent, and every break that found no
// place was given one, all that a phone had said "saved" to is kept once, in its
// last version, but for what a student took out or let go.
func TestSync_Model(t *testing.T) {
	h := newSyncHarness(t)
	rapid.Check(t, func(rt *rapid.T) {
		c := newCourt(t, rt, h)
		rt.Repeat(map[string]func(*rapid.T){
			"begin": c.begin, "record": c.record, "record more": c.record, "edit": c.edit, "delete": c.delete,
			"close": c.close, "reopen": c.reopen, "send": c.send, "late": c.deliverLate, "fetch": c.fetch,
			"coach ends the drill": c.endDrill, "coach puts the table away": c.archiveTable, "coach corrects": c.correct,
			"": func(*rapid.T) { c.check() },
		})
		c.settle()
		c.checkSettled()
	})
}

// court is two phones, the server, and the bad lines between them.
type court struct {
	t          *testing.T
	rt         *rapid.T
	hall       syncHarness
	student    store.Actor
	assignment store.AssignmentID
	table      store.TableID
	phones     []*phone
	late       []letter
	// ever are all breaks that anybody saved; takenOut those that a student
	// deleted, gaveWay those for which a student chose what was there.
	ever, takenOut, gaveWay map[store.BreakID]bool
	versions                int
}

// newCourt makes a student, a drill and a table of its own: the last two come to
// an end.
func newCourt(t *testing.T, rt *rapid.T, h syncHarness) *court {
	c := &court{t: t, rt: rt, hall: h, ever: map[store.BreakID]bool{}, takenOut: map[store.BreakID]bool{}, gaveWay: map[store.BreakID]bool{}}
	added, err := h.Store.AddStudents(t.Context(), h.Coach, uuid.Nil, h.Class, []store.NewStudent{{Name: "Wim", Side: table.Left}})
	if err != nil {
		t.Fatal(err)
	}
	c.student = store.Actor{Club: h.Coach.Club, Person: added[0].ID, Role: store.Student}
	if c.assignment, err = h.Store.AssignDrill(t.Context(), h.Coach, store.Assignment{Drill: h.Drill.ID, Class: h.Class}); err != nil {
		t.Fatal(err)
	}
	made, err := h.Store.SaveTable(t.Context(), h.Coach, store.Table{Name: "T " + c.assignment.String()[24:], Kind: h.Table.Kind})
	if err != nil {
		t.Fatal(err)
	}
	c.table = made.ID
	c.phones = []*phone{newPhone(c, "left"), newPhone(c, "right")}
	c.phones[0].begin()
	return c
}

// start is the item that begins a set.
func (c *court) start(set *phoneSet) batchItem {
	it := batchItem{Kind: startSet, Set: set.id, Assignment: set.assignment, Table: c.table, At: set.begun}
	if store.IsZero(set.assignment) { // training: on the club's other table
		setup := setupToJSON(c.hall.Drill.Setup)
		it.Training, it.Setup, it.Table = "Without a place", &setup, c.hall.Table.ID
	}
	return it
}

func (c *court) phone(rt *rapid.T) *phone { return rapid.SampledFrom(c.phones).Draw(rt, "phone") }

func (c *court) chooseSet(rt *rapid.T, which func(*phoneSet) bool, do func(*phone, *phoneSet)) {
	p := c.phone(rt)
	ids := p.setIDs(which)
	if len(ids) == 0 {
		rt.Skip("no such set on that phone")
	}
	do(p, p.sets[ids[rapid.IntRange(0, len(ids)-1).Draw(rt, "set")]])
}

func isOpen(set *phoneSet) bool { return !set.closed && !set.startRefused }

func (c *court) begin(rt *rapid.T) {
	p := c.phone(rt)
	if len(p.sets) < 3 {
		p.begin()
	}
}

func (c *court) record(rt *rapid.T) {
	c.chooseSet(rt, isOpen, func(p *phone, set *phoneSet) { p.record(set.id) })
}

func (c *court) chooseBreak(rt *rapid.T, do func(store.BreakID, *record)) {
	p := c.phone(rt)
	ids := p.ids(func(r *record) bool { return !r.deleted && r.refused == nil && isOpen(p.sets[r.set]) })
	if len(ids) == 0 {
		rt.Skip("no break on that phone")
	}
	id := ids[rapid.IntRange(0, len(ids)-1).Draw(rt, "break")]
	do(id, p.records[id])
}

func (c *court) edit(rt *rapid.T) {
	c.chooseBreak(rt, func(id store.BreakID, r *record) { r.revision, r.note = r.revision+1, c.version(id) })
}

func (c *court) delete(rt *rapid.T) {
	c.chooseBreak(rt, func(id store.BreakID, r *record) { r.revision, r.deleted, c.takenOut[id] = r.revision+1, true, true })
}

func (c *court) close(rt *rapid.T) {
	c.chooseSet(rt, isOpen, func(_ *phone, set *phoneSet) { set.closed = true })
}

func (c *court) reopen(rt *rapid.T) {
	c.chooseSet(rt, func(set *phoneSet) bool { return set.closed }, func(p *phone, set *phoneSet) { p.reopen(set) })
}

func (c *court) fetch(rt *rapid.T) { c.phone(rt).fetch(c.t) }

// send sends what a phone has of a set, and something happens on the way.
func (c *court) send(rt *rapid.T) {
	c.chooseSet(rt, func(*phoneSet) bool { return true }, func(p *phone, set *phoneSet) {
		l := p.write(c.t, set.id)
		switch rapid.SampledFrom([]string{"arrives", "answer lost", "lost", "doubled", "cut off", "late", "half kept"}).Draw(rt, "the letter") {
		case "arrives":
			l.arrive(c.t, true)
		case "answer lost":
			l.arrive(c.t, false)
		case "doubled":
			l.arrive(c.t, false)
			l.arrive(c.t, true)
		case "cut off":
			l.body = l.body[:rapid.IntRange(0, len(l.body)-1).Draw(rt, "after")]
			l.arrive(c.t, true)
		case "late":
			c.late = append(c.late, l)
		case "half kept": // the server dies after some of the items
			n := rapid.IntRange(0, len(l.items)).Draw(rt, "items")
			letter{p, l.items[:n], c.hall.body(c.t, c.student, time.Now(), l.items[:n]...)}.arrive(c.t, false)
		}
	})
}

// deliverLate brings one of the letters that are late, in any order; its phone
// has given up waiting for the answer.
func (c *court) deliverLate(rt *rapid.T) {
	if len(c.late) == 0 {
		rt.Skip("none is late")
	}
	i := rapid.IntRange(0, len(c.late)-1).Draw(rt, "which")
	c.late[i].arrive(c.t, false)
	c.late = slices.Delete(c.late, i, i+1)
}

func (c *court) endDrill(rt *rapid.T) {
	if err := c.hall.Store.EndAssignment(c.t.Context(), c.hall.Coach, c.assignment); err != nil {
		rt.Fatal(err)
	}
}

func (c *court) archiveTable(rt *rapid.T) {
	if err := c.hall.Store.ArchiveTable(c.t.Context(), c.hall.Coach, c.table); err != nil {
		rt.Fatal(err)
	}
}

// correct is a coach who changes a break that is kept.
func (c *court) correct(rt *rapid.T) {
	kept := c.kept()
	ids := slices.SortedFunc(maps.Keys(kept), func(a, b store.BreakID) int { return slices.Compare(a.UUID[:], b.UUID[:]) })
	if len(ids) == 0 {
		rt.Skip("nothing is kept")
	}
	there := kept[ids[rapid.IntRange(0, len(ids)-1).Draw(rt, "break")]]
	b := there.Break
	b.Revision, b.Note = b.Revision+1, c.version(b.ID)
	_, _ = c.hall.Store.SaveBreak(c.t.Context(), c.hall.Coach, there.set, b) // in a closed set it is refused
}

// keptBreak is a break on the server.
type keptBreak struct {
	store.Break
	set store.SetID
}

// kept are the breaks on the server that these phones ever saved. No break is
// there twice, and no number twice in a set.
func (c *court) kept() map[store.BreakID]keptBreak {
	c.t.Helper()
	sets, err := c.hall.Store.ListSets(c.t.Context(), c.student, c.student.Person)
	if err != nil {
		c.t.Fatal(err)
	}
	ours := map[store.SetID]bool{}
	for _, p := range c.phones {
		for id := range p.sets {
			ours[id] = true
		}
	}
	kept, versions := map[store.BreakID]keptBreak{}, map[string]bool{}
	for _, listed := range sets {
		if !ours[listed.ID] && listed.Assignment != c.assignment {
			continue
		}
		set := c.hall.set(c.t, c.student, listed.ID)
		numbers := map[int]bool{}
		for _, b := range set.Breaks {
			origin, _, _ := strings.Cut(b.Note, ",")
			if numbers[b.Number] || versions[origin] {
				c.rt.Fatalf("number %d or break %s is on the server twice", b.Number, b.ID)
			}
			numbers[b.Number], versions[origin] = true, true
			kept[b.ID] = keptBreak{b, set.ID}
		}
	}
	return kept
}

// check holds at every moment.
func (c *court) check() { c.kept() }

// settle lets everything arrive, and the student settle what does not fit.
func (c *court) settle() {
	for len(c.late) > 0 {
		c.deliverLate(c.rt)
	}
	for round := 0; ; round++ {
		busy := false
		for _, p := range c.phones {
			for _, id := range p.setIDs(func(*phoneSet) bool { return true }) {
				p.write(c.t, id).arrive(c.t, true)
			}
			p.fetch(c.t)
			c.settleStuck(p, round)
			for _, id := range p.ids(func(r *record) bool { return r.refused != nil && !p.stuck(r) }) {
				// After many rounds both phones' students agree on what is there.
				p.settle(id, round < 5 && rapid.Bool().Draw(c.rt, "keep mine"))
			}
			busy = busy || len(p.ids(func(r *record) bool { return r.unsent() })) > 0
			for id := range p.sets {
				busy = busy || len(p.items(c.t, id)) > 0
			}
		}
		if !busy && round > 0 {
			return
		}
		if round > 40 {
			c.rt.Fatal("the phones do not come to rest")
		}
	}
}

// settleStuck takes the ways on: a set opened again, where that is a way, else a
// new one.
func (c *court) settleStuck(p *phone, round int) {
	for _, id := range p.setIDs(func(*phoneSet) bool { return true }) {
		if len(p.ids(func(r *record) bool { return r.set == id && p.stuck(r) })) == 0 {
			continue
		}
		if set := p.sets[id]; set.closeSent && round < 5 && rapid.Bool().Draw(c.rt, "open it again") {
			p.reopen(set)
		} else {
			p.putElsewhere(id)
		}
	}
}

func (c *court) checkSettled() {
	kept := c.kept()
	for id := range c.ever {
		b, there := kept[id]
		if !there && !c.takenOut[id] && !c.gaveWay[id] {
			c.rt.Fatalf("break %s is lost: nobody took it out or let it go", id)
		}
		for _, p := range c.phones {
			r := p.records[id]
			switch {
			case r == nil:
			case r.deleted && there && r.revision >= b.Revision:
				c.rt.Fatalf("break %d was taken out as revision %d on %s, and is there as %d", b.Number, r.revision, p.name, b.Revision)
			case !r.deleted && !there && (r.unsent() || !c.takenOut[id] && !c.gaveWay[id]):
				c.rt.Fatalf("break %d, %q, is only on %s", r.number, r.note, p.name)
			case !r.deleted && r.revision == b.Revision && (r.note != b.Note || r.number != b.Number):
				c.rt.Fatalf("%s has revision %d, %q, the server %q", p.name, r.revision, r.note, b.Note)
			}
		}
	}
}
