package store_test

import (
	"encoding/json"
	"fmt"
	"io/fs"
	"maps"
	"os"
	"path/filepath"
	"reflect"
	"slices"
	"strings"
	"testing"

	"github.com/jackc/pgx/v5"
	"github.com/jackc/pgx/v5/stdlib"
	"github.com/pressly/goose/v3"

	"breakwright/internal/store"
	"breakwright/internal/store/storetest"
	migrations "breakwright/sql"
)

// changedOnPurpose are the columns whose values a later version of the schema
// changes, with its number.
var changedOnPurpose = map[string]string{
	"prescription.state":         "13: of several that are open at most one stays",
	"prescription.superseded_at": "13: of several that are open at most one stays",
	"session.expires_at":         "15: sessions slide",
}

// A club that began with the oldest schema in the field and was brought up to date
// with every release keeps all it had: after each upgrade every row of before is
// there with the values it had. testdata/released has what each release adds; a
// release with new tables or columns needs a file there.
func TestMigrate_ReleasedSchemasKeepEveryRow(t *testing.T) {
	t.Parallel()
	owner := storetest.NewEmptyDatabase(t)
	ownerConn := connect(t, owner)
	db := stdlib.OpenDB(*ownerConn.Config())
	defer db.Close()
	provider := must(goose.NewProvider(goose.DialectPostgres, db, must(fs.Sub(migrations.Migrations, "migrations"))(t)))(t)
	must(store.Migrate(t.Context(), owner, ""))(t) // makes the program's role, too
	files := must(filepath.Glob("testdata/released/*.sql"))(t)
	if len(files) < 3 {
		t.Fatalf("only %v", files)
	}
	must(provider.DownTo(t.Context(), must(goose.NumericComponent(files[0]))(t)))(t)
	runFile(t, ownerConn, "testdata/before_change_record.sql")
	var before map[string][]row
	for _, file := range files {
		must(provider.UpTo(t.Context(), must(goose.NumericComponent(file))(t)))(t)
		requireKept(t, before, readRows(t, ownerConn), "up to "+file)
		runFile(t, ownerConn, file)
		before = readRows(t, ownerConn)
		for table, rows := range before {
			if len(rows) == 0 {
				t.Errorf("%s puts nothing into %s", file, table)
			}
		}
	}
	must(store.Migrate(t.Context(), owner, ""))(t)
	requireKept(t, before, readRows(t, ownerConn), "up to this program")
	readUpgradedClub(t, storetest.Open(t, owner))
}

// runFile runs a file's statements in the one session of the owner.
func runFile(t *testing.T, ownerConn *pgx.Conn, path string) {
	t.Helper()
	if _, err := ownerConn.Exec(t.Context(), string(must(os.ReadFile(path))(t))); err != nil {
		t.Fatalf("%s: %v", path, err)
	}
}

// row is a row of a table: its columns' values by their names.
type row map[string]any

// readRows reads every row of every table of the program.
func readRows(t *testing.T, ownerConn *pgx.Conn) map[string][]row {
	t.Helper()
	all := map[string][]row{}
	for _, table := range names(t, ownerConn, `select relname from pg_class where relnamespace = 'public'::regnamespace
		and relkind in ('r', 'p') and relname <> 'goose_db_version'`) {
		all[table] = []row{}
		for _, text := range names(t, ownerConn, "select to_jsonb(r)::text from "+pgx.Identifier{table}.Sanitize()+" r") {
			var read row
			if err := json.Unmarshal([]byte(text), &read); err != nil {
				t.Fatal(err)
			}
			all[table] = append(all[table], read)
		}
	}
	return all
}

// requireKept fails the test for every row of before that is not among those of
// after, in the columns that it had.
func requireKept(t *testing.T, before, after map[string][]row, when string) {
	t.Helper()
	for table, rows := range before {
		if len(after[table]) < len(rows) {
			t.Errorf("%s %s has %d rows left of %d", when, table, len(after[table]), len(rows))
		}
		for _, old := range rows {
			old = maps.Clone(old)
			maps.DeleteFunc(old, func(column string, _ any) bool { return changedOnPurpose[table+"."+column] != "" })
			if !slices.ContainsFunc(after[table], func(r row) bool { return r.has(old) }) {
				t.Errorf("%s %s has no row any more with %v", when, table, old)
			}
		}
	}
}

// has reports whether a row has all the values of another.
func (r row) has(part row) bool {
	for column, value := range part {
		if !reflect.DeepEqual(r[column], value) {
			return false
		}
	}
	return true
}

// readUpgradedClub reads what the files put there through the store, as the people
// of the club do.
func readUpgradedClub(t *testing.T, s *store.Store) {
	t.Helper()
	ctx := t.Context()
	signed := must(s.FindCoach(ctx, "ines"))(t)
	coach := signed.Actor
	students := must(s.ListStudents(ctx, coach, store.ActiveOnly))(t)
	student := students[slices.IndexFunc(students, func(p store.Person) bool { return p.Name == "trial" })].ID
	sets := must(s.ListSets(ctx, coach, student))(t)
	found := []string{fmt.Sprintf("%d students, %d sets", len(students), len(sets))}
	for _, listed := range sets {
		set := must(s.GetSet(ctx, coach, listed.ID))(t)
		found = append(found, fmt.Sprintf("%s: %d breaks, %d struck, %d messages", set.Name, len(set.Breaks), len(must(s.ListStruckBreaks(ctx, coach, set.ID))(t)), len(set.Messages)))
	}
	for _, change := range must(s.ListPrescriptions(ctx, coach, student))(t) {
		found = append(found, "change "+string(change.State))
	}
	found = append(found, "note "+must(s.GetStudentNote(ctx, coach, student))(t),
		fmt.Sprintf("%d tables, %d drills", len(must(s.ListTables(ctx, coach, store.ActiveOnly))(t)), len(must(s.ListDrills(ctx, coach, store.ActiveOnly))(t))),
		fmt.Sprintf("rules at revision %d", must(s.GetRules(ctx, coach))(t).Revision))
	want := []string{
		"8 students, 3 sets", "trial 3: 0 breaks, 0 struck, 0 messages", "trial 2: 9 breaks, 2 struck, 1 messages",
		"trial 1: 0 breaks, 0 struck, 0 messages", "change in trial", "note A sore wrist.", "2 tables, 1 drills", "rules at revision 2",
	}
	if !slices.Equal(found, want) {
		t.Errorf("the club reads\n%s\nwant\n%s", strings.Join(found, "\n"), strings.Join(want, "\n"))
	}
}
