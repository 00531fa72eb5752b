package store_test

import (
	"errors"
	"reflect"
	"sync"
	"sync/atomic"
	"testing"

	"github.com/google/uuid"

	"breakwright/internal/store"
	"breakwright/internal/store/storetest"
	"breakwright/internal/table"
)

func TestJoin_OneGetsIn(t *testing.T) {
	t.Parallel()
	sc := storetest.NewScene(t, store.WithConnections(8))
	ctx := t.Context()
	added := must(sc.Store.AddStudents(ctx, sc.Coach, uuid.Nil, sc.Class, []store.NewStudent{{Name: "Tove"}}))(t)
	tove := store.Actor{Club: sc.Coach.Club, Person: added[0].ID, Role: store.Student}
	var joined atomic.Int64
	var trying sync.WaitGroup
	for range 8 {
		trying.Go(func() {
			switch err := sc.Store.JoinClub(ctx, tove, "$argon2id$pin", table.Right); {
			case err == nil:
				joined.Add(1)
			case !errors.Is(err, store.ErrConflict):
				t.Error(err)
			}
		})
	}
	trying.Wait()
	if n := joined.Load(); n != 1 {
		t.Errorf("%d joined with one code", n)
	}
	if p := must(sc.Store.GetPerson(ctx, tove, tove.Person))(t); p.Side != table.Right || p.Name != "Tove" {
		t.Errorf("joined as %+v", p)
	}
	if err := sc.Store.JoinClub(ctx, sc.StudentActor(0), "$argon2id$pin", table.Right); err != nil {
		t.Fatal(err)
	}
	if p := must(sc.Store.GetPerson(ctx, sc.Coach, sc.StudentActor(0).Person))(t); p.Side != table.Left {
		t.Errorf("the coach had said left, now it is %q", p.Side)
	}
	if err := sc.Store.JoinClub(ctx, sc.Coach, "$argon2id$pin", ""); !errors.Is(err, store.ErrNotAllowed) {
		t.Errorf("a coach joins by code: %v", err)
	}
}

func TestGet_OnlyWhatIsTheirs(t *testing.T) {
	t.Parallel()
	sc := storetest.NewScene(t)
	ctx, s := t.Context(), sc.Store
	if err := s.Ping(ctx); err != nil {
		t.Fatal(err)
	}
	p := proposed(t, sc, sc.StudentActor(0), -16)
	if got := must(s.GetPrescription(ctx, sc.StudentActor(0), p.ID))(t); !reflect.DeepEqual(got, p) {
		t.Errorf("got %+v, want %+v", got, p)
	}
	if _, err := s.GetPrescription(ctx, sc.StudentActor(1), p.ID); !errors.Is(err, store.ErrNotFound) {
		t.Errorf("another student's: %v", err)
	}
	if _, err := s.GetPerson(ctx, sc.StudentActor(1), sc.Coach.Person); !errors.Is(err, store.ErrNotFound) {
		t.Errorf("a student looks a coach up: %v", err)
	}
	if got := must(s.GetTable(ctx, sc.StudentActor(0), sc.Table.ID))(t); got != sc.Table {
		t.Errorf("the table is %+v", got)
	}
	if coaches := must(s.ListCoaches(ctx, sc.Coach))(t); len(coaches) != 1 || coaches[0].Login != sc.Login {
		t.Errorf("coaches: %+v", coaches)
	}
	if _, err := s.ListCoaches(ctx, sc.StudentActor(0)); !errors.Is(err, store.ErrNotAllowed) {
		t.Errorf("a student lists the coaches: %v", err)
	}
}

func TestParseID(t *testing.T) {
	t.Parallel()
	id := store.NewID[store.SetID]()
	if got, err := store.ParseID[store.SetID](id.String()); err != nil || got != id {
		t.Errorf("%v, %v", got, err)
	}
	if _, err := store.ParseID[store.SetID]("12"); !errors.Is(err, store.ErrNotFound) {
		t.Errorf("12: %v", err)
	}
	if !store.IsZero(store.SetID{}) || store.IsZero(id) {
		t.Error("zero and an id are told apart wrongly")
	}
}
