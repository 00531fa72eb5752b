package store_test

import (
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"sync"
	"sync/atomic"
	"testing"

	"github.com/jackc/pgx/v5"

	"breakwright/internal/store"
	"breakwright/internal/store/storetest"
)

func TestWrites_TwiceIsOnce(t *testing.T) {
	t.Parallel()
	owner := storetest.NewDatabase(t)
	sc := storetest.AddScene(t, storetest.Open(t, owner))
	ownerConn := connect(t, owner)
	for _, w := range writes(t, sc) {
		if err := w.do(); err != nil {
			t.Fatalf("%s: %v", w.name, err)
		}
		before := everything(t, ownerConn)
		if err := w.do(); err != nil {
			t.Errorf("%s, again: %v", w.name, err)
		}
		if everything(t, ownerConn) != before {
			t.Errorf("%s, again: the database is another", w.name)
		}
	}
}

func TestWrites_EightAtOnceIsOne(t *testing.T) {
	t.Parallel()
	owner := storetest.NewDatabase(t)
	sc := storetest.AddScene(t, storetest.Open(t, owner, store.WithConnections(8)))
	ownerConn := connect(t, owner)
	for _, w := range writes(t, sc) {
		var clicks sync.WaitGroup
		var failed atomic.Pointer[error]
		for range 8 {
			clicks.Go(func() {
				if err := w.do(); err != nil {
					failed.Store(&err)
				}
			})
		}
		clicks.Wait()
		if err := failed.Load(); err != nil {
			t.Fatalf("%s, eight at once: %v", w.name, *err)
		}
		before := everything(t, ownerConn)
		if err := w.do(); err != nil {
			t.Errorf("%s, again: %v", w.name, err)
		}
		if everything(t, ownerConn) != before {
			t.Errorf("%s, again after eight: the database is another", w.name)
		}
	}
	var breaks, advice int
	err := ownerConn.QueryRow(t.Context(), `select
		(select count(*) from break where deleted_at is null and set_id in (select set_id from advice)), (select count(*) from advice)`).Scan(&breaks, &advice)
	if err != nil || breaks != 10+9 || advice != 2 { // one of the second set's ten was deleted
		t.Errorf("%d breaks and %d pieces of advice (%v), want 19 and 2", breaks, advice, err)
	}
}

// everything is a fingerprint of all rows of all tables.
func everything(t *testing.T, ownerConn *pgx.Conn) string {
	t.Helper()
	sum := sha256.New()
	for _, name := range names(t, ownerConn, "select tablename from pg_tables where schemaname = 'public' order by tablename") {
		for _, row := range names(t, ownerConn, fmt.Sprintf("select to_jsonb(r)::text from %s r order by 1", pgx.Identifier{name}.Sanitize())) {
			sum.Write([]byte(row + "\n"))
		}
	}
	return hex.EncodeToString(sum.Sum(nil))
}
