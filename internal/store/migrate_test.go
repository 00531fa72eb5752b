package store_test

import (
	"errors"
	"io/fs"
	"slices"
	"sync"
	"testing"

	"github.com/jackc/pgx/v5/stdlib"
	"github.com/pressly/goose/v3"

	"breakwright/internal/localpg/localpgtest"
	"breakwright/internal/store"
	"breakwright/internal/store/storetest"
	migrations "breakwright/sql"
)

const schema = `select table_name || '.' || column_name || ' ' || data_type from information_schema.columns
	where table_schema not in ('pg_catalog', 'information_schema') order by 1`

func TestMigrations_UpDownUp(t *testing.T) {
	t.Parallel()
	owner := storetest.NewEmptyDatabase(t)
	done := must(store.Migrate(t.Context(), owner, ""))(t)
	if done.From != 0 || done.To != store.SchemaVersion() {
		t.Errorf("from an empty database: %+v, this program is at %d", done, store.SchemaVersion())
	}
	ownerConn := connect(t, owner)
	up := names(t, ownerConn, schema)
	if len(up) < 100 {
		t.Fatalf("only %d columns", len(up))
	}
	db := stdlib.OpenDB(*ownerConn.Config())
	defer db.Close()
	provider := must(goose.NewProvider(goose.DialectPostgres, db, must(fs.Sub(migrations.Migrations, "migrations"))(t)))(t)
	must(provider.DownTo(t.Context(), 0))(t)
	if left := names(t, ownerConn, "select tablename from pg_tables where schemaname not in ('pg_catalog', 'information_schema')"); !slices.Equal(left, []string{"goose_db_version"}) {
		t.Errorf("going down leaves %v", left)
	}
	if left := names(t, ownerConn, "select nspname from pg_namespace where nspname in ('wall', 'door')"); len(left) > 0 {
		t.Errorf("going down leaves the schemas %v", left)
	}
	if left := names(t, ownerConn, "select relname from pg_class c, aclexplode(relacl) a where a.grantee = 'breakwright_app'::regrole"); len(left) > 0 {
		t.Errorf("going down leaves grants on %v", left)
	}
	must(store.Migrate(t.Context(), owner, ""))(t)
	if again := names(t, ownerConn, schema); !slices.Equal(up, again) {
		t.Error("up, down and up again is another schema")
	}
	again := must(store.Migrate(t.Context(), owner, ""))(t)
	if again.From != store.SchemaVersion() || again.To != store.SchemaVersion() {
		t.Errorf("a second time: %+v", again)
	}
}

func TestMigrate_ManyProgramsAtOnce(t *testing.T) {
	t.Parallel()
	owner := storetest.NewEmptyDatabase(t)
	var programs sync.WaitGroup
	for range 4 {
		programs.Go(func() {
			if _, err := store.Migrate(t.Context(), owner, ""); err != nil {
				t.Error(err)
			}
		})
	}
	programs.Wait()
	storetest.AddScene(t, storetest.Open(t, owner))
}

// A role that owns the database but is no superuser, as hosted
// servers give it: all works, and the owner can still read everything out.
func TestMigrate_AsAnOrdinaryOwner(t *testing.T) {
	t.Parallel()
	admin := storetest.NewEmptyDatabase(t)
	server := connect(t, admin)
	name := server.Config().Database
	for _, statement := range []string{
		"create role owner_of_" + name + " login createrole",
		"alter database " + name + " owner to owner_of_" + name,
	} {
		if _, err := server.Exec(t.Context(), statement); err != nil {
			t.Fatal(err)
		}
	}
	owner := localpgtest.Server(t).DSN("owner_of_"+name, name)
	must(store.Migrate(t.Context(), owner, ""))(t)
	sc := storetest.AddScene(t, storetest.Open(t, owner))
	furnish(t, sc)
	if _, err := store.Open(t.Context(), owner); !errors.Is(err, store.ErrOpenWalls) {
		t.Errorf("the store opens as the owner: %v", err)
	}
	if got := names(t, connect(t, owner), "select count(*)::text from break where deleted_at is null"); got[0] != "10" {
		t.Errorf("the owner reads %s breaks of 10", got[0])
	}
}

func TestMigrate_SaysWhatIsWrong(t *testing.T) {
	t.Parallel()
	server := localpgtest.Server(t)
	newer := storetest.NewDatabase(t)
	if _, err := connect(t, newer).Exec(t.Context(), "insert into goose_db_version (version_id, is_applied) values (99999, true)"); err != nil {
		t.Fatal(err)
	}
	for name, c := range map[string]struct {
		dsn  string
		want error
	}{
		"a newer schema":   {newer, store.ErrNewerSchema},
		"no such database": {server.DSN("postgres", "nothing_here"), store.ErrNoDatabase},
		"no such role":     {server.DSN("nobody_here", "postgres"), store.ErrPassword},
		"no server":        {"postgres://postgres@/test?host=%2Fnowhere", store.ErrUnavailable},
	} {
		if _, err := store.Migrate(t.Context(), c.dsn, ""); !errors.Is(err, c.want) {
			t.Errorf("%s: %v", name, err)
		}
	}
}

func TestOpen_Refuses(t *testing.T) {
	t.Parallel()
	server := localpgtest.Server(t)
	owner, newer, empty := storetest.NewDatabase(t), storetest.NewDatabase(t), storetest.NewEmptyDatabase(t)
	if _, err := connect(t, newer).Exec(t.Context(), "insert into goose_db_version (version_id, is_applied) values (99999, true)"); err != nil {
		t.Fatal(err)
	}
	app := func(owner string) string { return must(store.AppDSN(owner, ""))(t) }
	for name, c := range map[string]struct {
		dsn  string
		want error
	}{
		"the owner's address": {owner, store.ErrOpenWalls},
		"an empty database":   {app(empty), store.ErrOlderSchema},
		"a newer schema":      {app(newer), store.ErrNewerSchema},
		"no such database":    {server.DSN(store.AppRole, "nothing_here"), store.ErrNoDatabase},
	} {
		if s, err := store.Open(t.Context(), c.dsn); !errors.Is(err, c.want) {
			t.Errorf("%s: %v", name, err)
			if err == nil {
				s.Close()
			}
		}
	}
}
