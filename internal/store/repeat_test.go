package store_test

import (
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"sync"
	"sync/atomic"
	"testing"
	"time"

	"github.com/google/uuid"
	"github.com/jackc/pgx/v5"

	"breakwright/internal/account"
	"breakwright/internal/drill"
	"breakwright/internal/store"
	"breakwright/internal/store/storetest"
	"breakwright/internal/table"
)

// write is something a page or a phone asks for, with its ids made beforehand.
type write struct {
	name string
	do   func(storetest.Scene) error
}

// writes are all of them; prepared are made against a scene first.
func writes(t *testing.T, sc storetest.Scene) []write {
	t.Helper()
	ctx, s := t.Context(), sc.Store
	odile, bram := sc.Student(0), sc.Student(1)
	open := sc.Record(t, odile, 9)
	closed := sc.Record(t, odile, 10)
	sc.Close(t, odile, closed, -16)
	proposal := must(s.GetSet(ctx, odile, closed))(t).Prescription.ID
	tenth, gone := storetest.NewBreak(10), must(s.GetSet(ctx, odile, open))(t).Breaks[3].ID
	ids := newIDs()
	tight := sc.Table
	tight.Kind.CornerMouth = 4.25
	edited := sc.Drill.Drill
	edited.Breaks = 12
	_, token := account.NewToken()
	return []write{
		{"change the club", func(sc storetest.Scene) error {
			return s.ChangeClub(ctx, sc.Coach, store.Club{Name: "Quay", Zone: "Asia/Tokyo"})
		}},
		{"add a coach", func(sc storetest.Scene) error {
			_, err := s.AddCoach(ctx, sc.Coach, store.NewCoach{ID: ids.person, Name: "Levi", Login: "levi-" + ids.form.String(), SecretHash: "$argon2id$v=19$x"})
			return err
		}},
		{"make a class", func(sc storetest.Scene) error {
			_, err := s.SaveClass(ctx, sc.Coach, store.Class{ID: ids.class, Name: "Friday"})
			return err
		}},
		{"add students", func(sc storetest.Scene) error {
			_, err := s.AddStudents(ctx, sc.Coach, ids.form, ids.class, []store.NewStudent{{Name: "Ada"}, {Name: "Ada"}})
			return err
		}},
		{"add to a class", func(sc storetest.Scene) error { return s.AddMember(ctx, sc.Coach, ids.class, bram.Person) }},
		{"take out of a class", func(sc storetest.Scene) error { return s.RemoveMember(ctx, sc.Coach, ids.class, bram.Person) }},
		{"rename", func(sc storetest.Scene) error { return s.RenamePerson(ctx, sc.Coach, bram.Person, "Bram K") }},
		{"set a side", func(sc storetest.Scene) error { return s.SetSide(ctx, sc.Coach, bram.Person, table.Right) }},
		{"archive a person", func(sc storetest.Scene) error { return s.ArchivePerson(ctx, sc.Coach, bram.Person) }},
		{"restore a person", func(sc storetest.Scene) error { return s.RestorePerson(ctx, sc.Coach, bram.Person) }},
		{"make a table", func(sc storetest.Scene) error {
			_, err := s.SaveTable(ctx, sc.Coach, store.Table{ID: ids.table, Name: "South", Kind: table.EightFoot()})
			return err
		}},
		{"make a drill", func(sc storetest.Scene) error {
			_, err := s.SaveDrill(ctx, sc.Coach, ids.drill, storetest.StandardDrill())
			return err
		}},
		{"copy a drill", func(sc storetest.Scene) error {
			_, err := s.CopyDrill(ctx, sc.Coach, ids.drill, ids.copied, "A copy")
			return err
		}},
		{"assign to a class", func(sc storetest.Scene) error {
			_, err := s.Assign(ctx, sc.Coach, store.Assignment{ID: ids.assignment, Drill: ids.drill, Class: sc.Class})
			return err
		}},
		{"assign to students", func(sc storetest.Scene) error {
			_, err := s.Assign(ctx, sc.Coach, store.Assignment{ID: ids.direct, Drill: ids.drill, Students: []store.PersonID{odile.Person}})
			return err
		}},
		{"change an assignment", func(sc storetest.Scene) error {
			return s.ChangeAssignment(ctx, sc.Coach, ids.assignment, time.Date(2026, 3, 6, 0, 0, 0, 0, time.UTC), "Slowly.")
		}},
		{"edit an assigned drill", func(sc storetest.Scene) error {
			_, err := s.SaveDrill(ctx, sc.Coach, ids.drill, edited)
			return err
		}},
		{"start a set", func(sc storetest.Scene) error {
			_, err := s.StartSet(ctx, odile, store.Start{ID: ids.set, Assignment: ids.assignment, Table: sc.Table.ID})
			return err
		}},
		{"save a break", func(sc storetest.Scene) error {
			_, err := s.SaveBreak(ctx, odile, open, tenth)
			return err
		}},
		{"delete a break", func(sc storetest.Scene) error { return s.DeleteBreak(ctx, odile, open, gone, 2, "twice") }},
		{"close a set", func(sc storetest.Scene) error { return s.CloseSet(ctx, odile, open, storetest.MoveTo(-18)) }},
		{"save a break of a closed set", func(sc storetest.Scene) error {
			_, err := s.SaveBreak(ctx, odile, open, tenth)
			return err
		}},
		{"decide", func(sc storetest.Scene) error {
			err := s.Decide(ctx, sc.Coach, proposal, store.Decision{Answer: store.Approved, Note: "Yes."})
			if errors.Is(err, store.ErrConflict) {
				return nil // superseded by the set closed above
			}
			return err
		}},
		{"ask", func(sc storetest.Scene) error { return s.Say(ctx, odile, ids.question, open, "Why?") }},
		{"answer", func(sc storetest.Scene) error { return s.Say(ctx, sc.Coach, ids.answer, open, "Look at the rails.") }},
		{"end an assignment", func(sc storetest.Scene) error { return s.EndAssignment(ctx, sc.Coach, ids.assignment) }},
		{"archive a drill", func(sc storetest.Scene) error { return s.ArchiveDrill(ctx, sc.Coach, sc.Drill.ID) }},
		{"change a table that was broken on", func(sc storetest.Scene) error {
			_, err := s.SaveTable(ctx, sc.Coach, tight)
			return err
		}},
		{"archive a table", func(sc storetest.Scene) error { return s.ArchiveTable(ctx, sc.Coach, ids.table) }},
		{"archive a class", func(sc storetest.Scene) error { return s.ArchiveClass(ctx, sc.Coach, ids.class) }},
		{"import", func(sc storetest.Scene) error {
			_, err := s.Import(ctx, sc.Coach, paperSets())
			return err
		}},
		{"set a secret", func(sc storetest.Scene) error { return s.SetSecret(ctx, odile, "$argon2id$v=19$x") }},
		{"revoke a session", func(sc storetest.Scene) error { return s.RevokeSession(ctx, token) }},
		{"revoke all", func(sc storetest.Scene) error { return s.RevokeAll(ctx, sc.Coach, odile.Person) }},
	}
}

type ids struct {
	form               uuid.UUID
	person             store.PersonID
	class              store.ClassID
	table              store.TableID
	drill, copied      store.DrillID
	assignment, direct store.AssignmentID
	set                store.SetID
	question, answer   store.MessageID
}

func newIDs() ids {
	return ids{
		form: uuid.New(), person: store.NewID[store.PersonID](), class: store.NewID[store.ClassID](),
		table: store.NewID[store.TableID](), drill: store.NewID[store.DrillID](), copied: store.NewID[store.DrillID](),
		assignment: store.NewID[store.AssignmentID](), direct: store.NewID[store.AssignmentID](),
		set: store.NewID[store.SetID](), question: store.NewID[store.MessageID](), answer: store.NewID[store.MessageID](),
	}
}

func paperSets() []drill.Set {
	k := table.NineFoot()
	return []drill.Set{{
		Student: "Odile", Name: "a1", Table: "North 2", Kind: k, Setup: storetest.StandardDrill().Setup,
		Breaks: []drill.Break{storetest.NewBreak(1).Break, storetest.NewBreak(2).Break},
	}}
}

func TestWrites_TwiceIsOnce(t *testing.T) {
	t.Parallel()
	owner := storetest.Database(t)
	sc := storetest.AddScene(t, storetest.Open(t, owner))
	keeper := connect(t, owner)
	for _, w := range writes(t, sc) {
		if err := w.do(sc); err != nil {
			t.Fatalf("%s: %v", w.name, err)
		}
		before := everything(t, keeper)
		if err := w.do(sc); err != nil {
			t.Errorf("%s, again: %v", w.name, err)
		}
		if everything(t, keeper) != before {
			t.Errorf("%s, again: the database is another", w.name)
		}
	}
}

func TestWrites_EightAtOnceIsOne(t *testing.T) {
	t.Parallel()
	owner := storetest.Database(t)
	sc := storetest.AddScene(t, storetest.Open(t, owner, store.WithConnections(8)))
	keeper := connect(t, owner)
	for _, w := range writes(t, sc) {
		var clicks sync.WaitGroup
		var failed atomic.Pointer[error]
		for range 8 {
			clicks.Go(func() {
				if err := w.do(sc); err != nil {
					failed.Store(&err)
				}
			})
		}
		clicks.Wait()
		if err := failed.Load(); err != nil {
			t.Fatalf("%s, eight at once: %v", w.name, *err)
		}
		before := everything(t, keeper)
		if err := w.do(sc); err != nil {
			t.Errorf("%s, again: %v", w.name, err)
		}
		if everything(t, keeper) != before {
			t.Errorf("%s, again after eight: the database is another", w.name)
		}
	}
	var breaks, advice int
	err := keeper.QueryRow(t.Context(), `select
		(select count(*) from break where deleted_at is null and set_id in (select set_id from advice)), (select count(*) from advice)`).Scan(&breaks, &advice)
	if err != nil || breaks != 10+9 || advice != 2 { // one of the second set's ten was deleted
		t.Errorf("%d breaks and %d pieces of advice (%v), want 19 and 2", breaks, advice, err)
	}
}

// everything is a fingerprint of all rows of all tables.
func everything(t *testing.T, keeper *pgx.Conn) string {
	t.Helper()
	sum := sha256.New()
	for _, name := range names(t, keeper, "select tablename from pg_tables where schemaname = 'public' order by tablename") {
		for _, row := range names(t, keeper, fmt.Sprintf("select to_jsonb(r)::text from %s r order by 1", pgx.Identifier{name}.Sanitize())) {
			sum.Write([]byte(row + "\n"))
		}
	}
	return hex.EncodeToString(sum.Sum(nil))
}
