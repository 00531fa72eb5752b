package store_test

import (
	"context"
	"fmt"
	"io/fs"
	"maps"
	"math/rand/v2"
	"slices"
	"testing"
	"time"

	"github.com/jackc/pgx/v5"
	"github.com/jackc/pgx/v5/stdlib"
	"github.com/pressly/goose/v3"

	"breakwright/internal/drill"
	"breakwright/internal/rack"
	"breakwright/internal/store"
	"breakwright/internal/store/storetest"
	"breakwright/internal/table"
	migrations "breakwright/sql"
)

// counted is what stands in the counts of one set or stint.
type counted struct {
	id, stint, last string
	sets, before    int
	latest          bool
	store.Tally
}

const tallyColumns = `breaks, watched, wing_made, miss_side, miss_foot, miss_kissed, miss_jaws, in_window,
	scratch_head, scratch_side, scratch_foot, cue_off, balls_off, dry, weak, weak_known`

func scanTally(t *store.Tally) []any {
	return []any{&t.Breaks, &t.Watched, &t.WingMade, &t.MissSide, &t.MissFoot, &t.MissKissed, &t.MissJaws, &t.InWindow,
		&t.ScratchHead, &t.ScratchSide, &t.ScratchFoot, &t.CueOff, &t.BallsOff, &t.Dry, &t.Weak, &t.WeakKnown}
}

// kept reads all counts as the owner sees them, in the students' order.
func kept(t *testing.T, ownerConn *pgx.Conn) (sets, stints []counted) {
	t.Helper()
	read := func(query string, into func(*counted) []any) (all []counted) {
		rows, err := ownerConn.Query(t.Context(), query)
		if err != nil {
			t.Fatal(err)
		}
		for rows.Next() {
			var c counted
			if err := rows.Scan(into(&c)...); err != nil {
				t.Fatal(err)
			}
			all = append(all, c)
		}
		return all
	}
	sets = read("select set_id::text, coalesce(stint_id::text, ''), "+tallyColumns+" from set_tally order by student_id, started_at, set_id",
		func(c *counted) []any { return append([]any{&c.id, &c.stint}, scanTally(&c.Tally)...) })
	stints = read("select id::text, last_set_id::text, latest, sets_before, sets, "+tallyColumns+" from stint order by student_id, first_started_at, id",
		func(c *counted) []any {
			return append([]any{&c.id, &c.last, &c.latest, &c.before, &c.sets}, scanTally(&c.Tally)...)
		})
	return sets, stints
}

// recounted counts everything again from the breaks, by the nouns' own rules.
func recounted(t *testing.T, sc storetest.Scene) (sets, stints []counted) {
	t.Helper()
	people := must(sc.Store.ListStudents(t.Context(), sc.Coach, store.WithArchived))(t)
	slices.SortFunc(people, func(a, b store.Person) int { return slices.Compare(a.ID.UUID[:], b.ID.UUID[:]) })
	for _, who := range people {
		listed := must(sc.Store.ListSets(t.Context(), sc.Coach, who.ID))(t)
		slices.Reverse(listed)
		var closed []drill.Set
		tallies := map[string]int{}
		for _, l := range listed {
			set := must(sc.Store.GetSet(t.Context(), sc.Coach, l.ID))(t)
			c := counted{id: set.ID.String()}
			for _, b := range set.Breaks {
				c.Tally = c.Tally.Plus(store.TallyOf(b.Break, set.Setup, set.Window))
			}
			tallies[c.id] = len(sets)
			sets = append(sets, c)
			if !set.Closed.IsZero() {
				seen := set.DrillSet()
				seen.Name, seen.Table = c.id, set.Table.ID.String()
				closed = append(closed, seen)
			}
		}
		before := 0
		for i, stint := range drill.GroupStints(closed) {
			c := counted{id: stint.Sets[0].Name, last: stint.Sets[len(stint.Sets)-1].Name, before: before, sets: len(stint.Sets),
				latest: i == len(drill.GroupStints(closed))-1}
			for _, set := range stint.Sets {
				at := &sets[tallies[set.Name]]
				at.stint = c.id
				c.Tally = c.Tally.Plus(at.Tally)
			}
			before += c.sets
			stints = append(stints, c)
		}
	}
	return sets, stints
}

func compareCounts(t *testing.T, when string, ownerConn *pgx.Conn, sc storetest.Scene) {
	t.Helper()
	sets, stints := kept(t, ownerConn)
	wantSets, wantStints := recounted(t, sc)
	if len(wantSets) == 0 {
		t.Fatalf("%s: nothing to count", when)
	}
	if !slices.Equal(sets, wantSets) {
		t.Errorf("%s: the counts of sets are %v, counted again %v", when, sets, wantSets)
	}
	if !slices.Equal(stints, wantStints) {
		t.Errorf("%s: the stints are %v, grouped again %v", when, stints, wantStints)
	}
}

// Whatever is done, in whatever order, the counts are those of the breaks.
func TestCounts_AreThoseOfTheBreaks(t *testing.T) {
	t.Parallel()
	for seed := range uint64(4) {
		t.Run(fmt.Sprint("seed ", seed), func(t *testing.T) {
			t.Parallel()
			w := newWorld(t, seed)
			w.cueOnly = true
			for step := range 150 {
				w.step(t)
				if step%50 == 49 {
					compareCounts(t, fmt.Sprint("after ", step+1, " steps"), w.ownerConn, w.Scene)
				}
			}
		})
	}
}

// world is a club in which things happen by chance.
type world struct {
	storetest.Scene
	ownerConn *pgx.Conn
	rng       *rand.Rand
	tables    []store.Table
	speeds    []table.Mph
	open      []opened
	closed    []opened
	imports   int
	cueOnly   bool // of some breaks only the cue ball was watched
}

type opened struct {
	who  store.Actor
	set  store.Set
	revs map[store.BreakID]int
	at   map[int]store.BreakID
}

func newWorld(t *testing.T, seed uint64) *world {
	t.Helper()
	owner := storetest.NewDatabase(t)
	w := &world{Scene: storetest.AddScene(t, storetest.Open(t, owner)), ownerConn: connect(t, owner), rng: rand.New(rand.NewPCG(seed, 5))}
	odd := w.Drill.Drill
	odd.Name, odd.Window = "Off centre", table.Window{Left: -9, Right: -1, Head: 20, Foot: 55}
	d := must(w.Store.SaveDrill(t.Context(), w.Coach, store.DrillID{}, odd))(t)
	w.Assignment = must(w.Store.AssignDrill(t.Context(), w.Coach, store.Assignment{Drill: d.ID, Class: w.Class}))(t)
	small := must(w.Store.SaveTable(t.Context(), w.Coach, store.Table{Name: "Bar box", Kind: table.SevenFoot()}))(t)
	w.tables = []store.Table{w.Table, small}
	w.speeds = []table.Mph{0, 17.6, 18, 18.4, 18.9}
	return w
}

func (w *world) step(t *testing.T) {
	t.Helper()
	switch n := w.rng.IntN(24); {
	case n < 3 || len(w.open) == 0:
		w.start(t)
	case n < 13:
		w.save(t)
	case n < 15:
		w.remove(t)
	case n < 19:
		w.shut(t)
	case n < 20:
		w.take(t)
	case n < 22:
		w.reopen(t)
	default:
		w.move(t)
	}
}

// reopen opens a set again that was closed a moment ago.
func (w *world) reopen(t *testing.T) {
	if len(w.closed) == 0 {
		return
	}
	i := w.rng.IntN(len(w.closed))
	o := w.closed[i]
	w.closed = slices.Delete(w.closed, i, i+1)
	for range 2 {
		if err := w.Store.ReopenSet(t.Context(), o.who, o.set.ID); err != nil {
			t.Fatal(err)
		}
	}
	w.open = append(w.open, o)
}

// move says that a set was broken on the other table: its student while it is
// open, a coach afterwards.
func (w *world) move(t *testing.T) {
	all, who := w.open, w.open[0].who
	if len(w.closed) > 0 && w.rng.IntN(2) == 0 {
		all, who = w.closed, w.Coach
	}
	i := w.rng.IntN(len(all))
	o := all[i]
	if !who.IsCoach() {
		who = o.who
	}
	to := w.tables[w.rng.IntN(2)].ID
	if err := w.Store.MoveSet(t.Context(), who, o.set.ID, store.SetMove{Table: to}, storetest.ProposeMove(o.set.Setup.Cue.X)); err != nil {
		t.Fatal(err)
	}
	all[i].set = must(w.Store.GetSet(t.Context(), o.who, o.set.ID))(t)
	for _, b := range all[i].set.Breaks {
		o.revs[b.ID] = b.Revision
	}
}

// start begins a set, now or, from a phone that was out of reach, long ago.
func (w *world) start(t *testing.T) {
	who := w.StudentActor(w.rng.IntN(3))
	where := w.tables[w.rng.IntN(2)]
	setup := drill.StandardSetup(rack.NineBall, w.Students[w.rng.IntN(3)].Side, where.Kind)
	setup.Speed = w.speeds[w.rng.IntN(len(w.speeds))]
	set := must(w.Store.StartSet(t.Context(), who, store.NewSet{
		Assignment: w.Assignment, Table: where.ID, Setup: setup,
		At: time.Date(2026, 1, 1+w.rng.IntN(300), w.rng.IntN(24), w.rng.IntN(60), w.rng.IntN(60), 0, time.UTC),
	}))(t)
	w.open = append(w.open, opened{who, set, map[store.BreakID]int{}, map[int]store.BreakID{}})
}

func (w *world) save(t *testing.T) {
	o := w.open[w.rng.IntN(len(w.open))]
	number := 1 + w.rng.IntN(10)
	id, there := o.at[number]
	if !there {
		id = store.NewID[store.BreakID]()
	}
	b := store.Break{ID: id, Revision: o.revs[id] + 1, Break: w.anyBreak(number, o.set.Setup, o.set.Table.Kind)}
	must(w.Store.SaveBreak(t.Context(), o.who, o.set.ID, b))(t)
	must(w.Store.SaveBreak(t.Context(), o.who, o.set.ID, b))(t) // sent twice
	o.revs[id], o.at[number] = b.Revision, id
}

func (w *world) remove(t *testing.T) {
	o := w.open[w.rng.IntN(len(w.open))]
	numbers := slices.Sorted(maps.Keys(o.at))
	if len(numbers) == 0 {
		return
	}
	id := o.at[numbers[0]]
	o.revs[id]++
	if err := w.Store.DeleteBreak(t.Context(), o.who, o.set.ID, id, o.revs[id], "slip"); err != nil {
		t.Fatal(err)
	}
	if w.rng.IntN(2) == 0 { // the next of that number has another id
		delete(o.at, numbers[0])
	}
}

func (w *world) shut(t *testing.T) {
	i := w.rng.IntN(len(w.open))
	o := w.open[i]
	w.open = slices.Delete(w.open, i, i+1)
	for range 2 {
		if err := w.Store.CloseSet(t.Context(), o.who, o.set.ID, storetest.ProposeMove(o.set.Setup.Cue.X)); err != nil {
			t.Fatal(err)
		}
	}
	w.closed = append(w.closed, o)
}

// take takes sets over from a log, older and newer than those there are.
func (w *world) take(t *testing.T) {
	who := w.Students[w.rng.IntN(3)]
	var sets []drill.Set
	day := 1 + w.rng.IntN(200)
	for n := range 3 {
		w.imports++
		where := w.tables[w.rng.IntN(2)]
		set := drill.Set{Student: who.Name, Name: fmt.Sprint("paper ", w.imports), Table: where.Label(), Kind: where.Kind,
			Setup: drill.StandardSetup(rack.NineBall, who.Side, where.Kind)}
		set.Setup.Speed = w.speeds[w.rng.IntN(len(w.speeds))]
		for i := range 1 + w.rng.IntN(5) {
			b := w.anyBreak(i+1, set.Setup, where.Kind)
			b.At = time.Date(2026, 1, day+n*20, 12, i, 0, 0, time.UTC)
			set.Breaks = append(set.Breaks, b)
		}
		sets = append(sets, set)
	}
	for range 2 {
		must(w.Store.ImportSets(t.Context(), w.Coach, sets))(t)
	}
}

// anyBreak makes a valid break of everything that is counted.
func (w *world) anyBreak(number int, s drill.Setup, k table.Kind) drill.Break {
	b := drill.Break{Number: number, Cue: drill.CueEnd{How: drill.Stopped, Place: table.Place{
		X: table.Inches(w.rng.Float64()*30 - 15), Y: table.Inches(5 + w.rng.Float64()*60)}}}
	pockets := table.Pockets()
	switch w.rng.IntN(6) {
	case 0:
		b.Cue = drill.CueEnd{How: drill.Scratched, Scratch: pockets[w.rng.IntN(6)]}
	case 1:
		b.Cue = drill.CueEnd{How: drill.OffTable}
	}
	misses := append(drill.WingMisses(), "")
	switch w.rng.IntN(4) {
	case 0:
		b.Pocketed = append(b.Pocketed, drill.Pocketed{Ball: s.WingBall(), Pocket: s.WingPocket()})
	case 1:
		b.Pocketed = append(b.Pocketed, drill.Pocketed{Ball: s.WingBall(), Pocket: pockets[w.rng.IntN(6)]})
	default:
		b.WingMiss = misses[w.rng.IntN(len(misses))]
	}
	if w.rng.IntN(3) == 0 {
		b.Pocketed = append(b.Pocketed, drill.Pocketed{Ball: 2, Pocket: pockets[w.rng.IntN(6)]})
	}
	if w.rng.IntN(6) == 0 {
		b.Off = []rack.Ball{3}
	}
	if w.cueOnly && w.rng.IntN(4) == 0 {
		b.WingMiss = drill.NotWatched
	}
	if w.rng.IntN(2) == 0 {
		b.Rails = drill.ObservedCount(w.rng.IntN(8))
	}
	return b
}

// However long a history is, the newest set is grouped with its own stint alone: rows of
// those before are not written again (xmin is another after each write, PostgreSQL's
// manual, 5.6).
func TestCloseSet_LeavesEarlierStintsAlone(t *testing.T) {
	t.Parallel()
	owner := storetest.NewDatabase(t)
	sc := storetest.AddScene(t, storetest.Open(t, owner))
	odile := sc.StudentActor(0)
	p := proposed(t, sc, odile, -16)
	if err := sc.Store.DecidePrescription(t.Context(), sc.Coach, p.ID, store.Decision{Answer: store.Approved}); err != nil {
		t.Fatal(err)
	}
	ownerConn := connect(t, owner)
	closeNext := func() (writes []string) {
		sc.CloseSet(t, odile, sc.RecordBreaks(t, odile, 2), -16)
		return names(t, ownerConn, "select xmin::text from stint order by first_started_at")
	}
	before, after := closeNext(), closeNext()
	if len(before) != 2 || len(after) != 2 || after[0] != before[0] || after[1] == before[1] {
		t.Errorf("the writes of both stints: %v, and %v after one more set of the second", before, after)
	}
}

// What was recorded before there were counts is counted once, to the same
// numbers.
func TestCounts_OfWhatWasThereBefore(t *testing.T) {
	t.Parallel()
	w := newWorld(t, 99)
	for range 250 {
		w.step(t)
	}
	compareCounts(t, "before", w.ownerConn, w.Scene)
	wantSets, wantStints := kept(t, w.ownerConn)
	db := stdlib.OpenDB(*w.ownerConn.Config())
	defer db.Close()
	provider := must(goose.NewProvider(goose.DialectPostgres, db, must(fs.Sub(migrations.Migrations, "migrations"))(t)))(t)
	must(provider.DownTo(context.Background(), 7))(t)
	must(provider.Up(t.Context()))(t)
	sets, stints := kept(t, w.ownerConn)
	if !slices.Equal(sets, wantSets) {
		t.Errorf("sets counted afterwards: %v, want %v", sets, wantSets)
	}
	if !slices.Equal(stints, wantStints) || len(stints) < 10 {
		t.Errorf("%d stints grouped afterwards: %v, want %v", len(stints), stints, wantStints)
	}
	compareCounts(t, "afterwards", w.ownerConn, w.Scene)
}

// The history that pages are measured on is as the store would have written it.
func TestCounts_OfTheMadeUpHistory(t *testing.T) {
	t.Parallel()
	owner := storetest.NewDatabase(t)
	sc := storetest.AddScene(t, storetest.Open(t, owner))
	h := storetest.SimulatedHistory{Students: 5, Sets: 14, Seed: 3, Until: time.Now()}
	students := h.FillDatabase(t, owner, sc)
	compareCounts(t, "made up", connect(t, owner), sc)
	if got := names(t, connect(t, owner), "select count(*)::text from break"); got[0] != fmt.Sprint(h.Breaks()) {
		t.Errorf("%s breaks, not %d", got[0], h.Breaks())
	}
	story := must(sc.Store.GetStudentProgress(t.Context(), sc.Coach, students[0].ID, store.ProgressFilter{}))(t)
	if story.Sets != 14 || story.Breaks != 140 || story.Advice == nil || len(story.Recent) != 14 {
		t.Errorf("the story has %d sets of %d breaks, %d recent", story.Sets, story.Breaks, len(story.Recent))
	}
}
