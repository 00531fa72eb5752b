//go:build !quick

package store_test

import (
	"errors"
	"testing"
	"time"

	"github.com/jackc/pgx/v5"

	"breakwright/internal/localpg/localpgtest"
	"breakwright/internal/store"
	"breakwright/internal/store/storetest"
)

// shortLimits keep a test's wait short; a call without a limit would hang it.
func shortLimits() store.Option {
	return store.WithTimeLimits(store.TimeLimits{
		Connection: 300 * time.Millisecond, Statement: 300 * time.Millisecond,
		IdleTransaction: 300 * time.Millisecond, Unacknowledged: 300 * time.Millisecond,
	})
}

// untilAvailable calls until the database is there, and returns what came of the last call.
func untilAvailable(call func() error) error {
	err := call()
	for errors.Is(err, store.ErrUnavailable) {
		time.Sleep(10 * time.Millisecond)
		err = call()
	}
	return err
}

// A database that stands still is noticed, and is there again when it goes on.
func TestTimeLimits_FrozenDatabase(t *testing.T) {
	t.Parallel()
	server := localpgtest.NewServer(t)
	sc := addHurriedScene(t, storetest.MigrateOn(t, server))
	calls := map[string]func() error{
		"a read": func() error { _, err := sc.Store.GetClub(t.Context(), sc.Coach); return err },
		"a write": func() error {
			_, err := sc.Store.SaveClass(t.Context(), sc.Coach, store.Class{Name: "Frost"})
			return err
		},
		"the session":  func() error { _, err := sc.Store.FindSession(t.Context(), make([]byte, 32), time.Now()); return err },
		"the question": func() error { return sc.Store.Ping(t.Context()) },
	}
	thaw := localpgtest.Freeze(t, server)
	for name, call := range calls {
		if err := call(); !errors.Is(err, store.ErrUnavailable) {
			t.Errorf("%s of a frozen database: %v", name, err)
		}
	}
	thaw()
	for name, call := range calls {
		untilAvailable(call) // until connections that were given up are gone
		if err := call(); err != nil && !errors.Is(err, store.ErrNotFound) {
			t.Errorf("%s afterwards: %v", name, err)
		}
	}
}

// A database that is stopped while a store is open, and started again.
func TestTimeLimits_StoppedDatabase(t *testing.T) {
	t.Parallel()
	server := localpgtest.NewServer(t)
	sc := addHurriedScene(t, storetest.MigrateOn(t, server))
	read := func() error { _, err := sc.Store.GetClub(t.Context(), sc.Coach); return err }
	server.Stop()
	for range 3 { // more often than there are connections that have to be noticed
		if err := read(); !errors.Is(err, store.ErrUnavailable) {
			t.Errorf("a read of a stopped database: %v", err)
		}
	}
	localpgtest.StartIn(t, server.Dir)
	if err := untilAvailable(read); err != nil { // one that only just began may not keep the limits
		t.Errorf("a read afterwards: %v", err)
	}
}

// A statement that waits for a lock is ended by PostgreSQL itself.
func TestTimeLimits_StatementThatWaits(t *testing.T) {
	t.Parallel()
	dsn := storetest.NewDatabase(t)
	sc := addHurriedScene(t, dsn)
	owner := must(pgx.Connect(t.Context(), dsn))(t)
	defer owner.Close(t.Context())
	locking := must(owner.Begin(t.Context()))(t)
	if _, err := locking.Exec(t.Context(), "lock table class"); err != nil {
		t.Fatal(err)
	}
	if _, err := sc.Store.SaveClass(t.Context(), sc.Coach, store.Class{Name: "Queue"}); !errors.Is(err, store.ErrUnavailable) {
		t.Errorf("a write to a locked table: %v", err)
	}
	if err := locking.Rollback(t.Context()); err != nil {
		t.Fatal(err)
	}
	must(sc.Store.SaveClass(t.Context(), sc.Coach, store.Class{Name: "Queue"}))(t)
}

// When all connections are at work, the next caller is told so, and the
// database is not called gone. A transaction in which nothing is asked ends by
// itself, so that it holds its connection for a while only.
func TestTimeLimits_NoConnectionFree(t *testing.T) {
	t.Parallel()
	dsn := storetest.NewDatabase(t)
	sc := storetest.AddScene(t, storetest.Open(t, dsn))
	set := sc.RecordBreaks(t, sc.StudentActor(0), 1) // at leisure, as the rest of the club
	sc.Store = storetest.Open(t, dsn, shortLimits(), store.WithConnections(1))
	judging, release, closed := make(chan struct{}), make(chan struct{}), make(chan error)
	go func() {
		closed <- sc.Store.CloseSet(t.Context(), sc.Coach, set, func(c store.Case) (store.Judgement, error) {
			close(judging)
			<-release
			return storetest.ProposeMove(0)(c)
		})
	}()
	<-judging
	if _, err := sc.Store.GetClub(t.Context(), sc.Coach); !errors.Is(err, store.ErrUnavailable) {
		t.Errorf("a read without a free connection: %v", err)
	}
	if err := sc.Store.Ping(t.Context()); err != nil {
		t.Errorf("the database is said to be gone: %v", err)
	}
	time.Sleep(50 * time.Millisecond) // with the wait above, longer than a transaction may be idle
	close(release)
	if err := <-closed; !errors.Is(err, store.ErrUnavailable) {
		t.Errorf("closing after a long silence: %v", err)
	}
	if _, err := sc.Store.GetClub(t.Context(), sc.Coach); err != nil {
		t.Errorf("a read afterwards: %v", err)
	}
}

// While there is no news a listener keeps its line, so that nobody draws everything anew
// for nothing; and when there is some, it is heard.
func TestTimeLimits_ListenerWithoutNews(t *testing.T) {
	t.Parallel()
	dsn := storetest.NewDatabase(t)
	sc := addHurriedScene(t, dsn)
	events := must(sc.Store.Subscribe(t.Context(), sc.Coach))(t)
	waitForEvent(t, events, store.EventsMissed)
	waitForEvent(t, events, store.EventsMissed) // the line is up
	select {
	case e := <-events:
		t.Errorf("heard %+v of nothing", e)
	case <-time.After(3 * time.Second): // more than a line may be silent
	}
	set := sc.RecordBreaks(t, sc.StudentActor(0), 1)
	if e := waitForEvent(t, events, store.BreakSaved); e.Set != set {
		t.Errorf("heard %+v", e)
	}
}

// addHurriedScene makes a club at leisure, of which everything is then asked within the
// short limits.
func addHurriedScene(t *testing.T, dsn string) storetest.Scene {
	t.Helper()
	sc := storetest.AddScene(t, storetest.Open(t, dsn))
	sc.Store = storetest.Open(t, dsn, shortLimits())
	return sc
}
