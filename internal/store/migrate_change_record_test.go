package store_test

import (
	"io/fs"
	"os"
	"slices"
	"testing"

	"github.com/jackc/pgx/v5/stdlib"
	"github.com/pressly/goose/v3"

	"breakwright/internal/store"
	"breakwright/internal/store/storetest"
	migrations "breakwright/sql"
)

// changesAsKept tells each change in a line: whose, its state, why it was left,
// the set that told it, and its counts.
const changesAsKept = `select p.name || ' ' || right(b.name, 1) || ': ' || r.state || coalesce(' (' || r.superseded_because || ')', '')
	|| coalesce(', told by ' || right(t.name, 1), '')
	|| case when r.measure <> '' then ', ' || r.measure || ' ' || r.count_before || '/' || r.of_before || ' ' || r.count_since || '/' || r.of_since else '' end
	|| coalesce(', ' || r.fact_count || ' of ' || r.fact_of, '') || ', ' || r.feet || ' ft'
	from prescription r join person p on p.id = r.student_id join break_set b on b.id = r.set_id left join break_set t on t.id = r.told_set_id
	order by 1`

// A club from before the one record of a change is carried over: what was told,
// how it turned out, and of what lingered at most one stays open.
func TestMigrate_CarriesChangesOver(t *testing.T) {
	t.Parallel()
	owner := storetest.NewEmptyDatabase(t)
	ownerConn := connect(t, owner)
	db := stdlib.OpenDB(*ownerConn.Config())
	defer db.Close()
	provider := must(goose.NewProvider(goose.DialectPostgres, db, must(fs.Sub(migrations.Migrations, "migrations"))(t)))(t)
	must(store.Migrate(t.Context(), owner, ""))(t) // makes the program's role, too
	must(provider.DownTo(t.Context(), 12))(t)
	if _, err := ownerConn.Exec(t.Context(), string(must(os.ReadFile("testdata/before_change_record.sql"))(t))); err != nil {
		t.Fatal(err)
	}
	must(store.Migrate(t.Context(), owner, ""))(t)
	want := []string{
		"declined 1: declined, 6 of 8, 9 ft",
		"helped 1: helped, told by 2, wing ball 2/10 11/20, 6 of 8, 9 ft",
		"not heard 1: approved, 6 of 8, 9 ft",
		"other setup 1: superseded (another setup), told by 2, 6 of 8, 9 ft",
		"other table 1: superseded (another table), 6 of 8, 9 ft",
		"replaced 1: superseded (a newer change), 6 of 8, 9 ft",
		"replaced 2: proposed, 9 ft",
		"several 1: superseded (a newer change), 6 of 8, 9 ft",
		"several 2: changed, 9 ft",
		"trial 1: in trial, told by 2, wing ball 2/10 3/10, 6 of 8, 9 ft",
		"waiting 1: proposed, 6 of 8, 9 ft",
	}
	if got := names(t, ownerConn, changesAsKept); !slices.Equal(got, want) {
		t.Errorf("carried over:\n%q\nwant\n%q", got, want)
	}
	before := names(t, ownerConn, "select id::text from prescription order by 1")
	must(provider.DownTo(t.Context(), 12))(t)
	if after := names(t, ownerConn, "select id::text from prescription order by 1"); !slices.Equal(before, after) {
		t.Errorf("going back loses changes: %d of %d are left", len(after), len(before))
	}
}
