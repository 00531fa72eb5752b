package store_test

import (
	"context"
	"errors"
	"fmt"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/google/uuid"
	"github.com/jackc/pgx/v5"
	"github.com/jackc/pgx/v5/pgconn"

	"breakwright/internal/account"
	"breakwright/internal/drill"
	"breakwright/internal/store"
	"breakwright/internal/store/storetest"
)

// walls is two clubs with something in every table, and the two ways to look
// at them: as the owner, who sees all, and as the app role.
type walls struct {
	mine, other    storetest.Scene
	stranger       store.Actor // a student of the club in no class
	ownerConn, app *pgx.Conn
	tables         []string
}

func buildWalls(t *testing.T) walls {
	t.Helper()
	owner := storetest.NewDatabase(t)
	s := storetest.Open(t, owner)
	w := walls{mine: storetest.AddScene(t, s), other: storetest.AddScene(t, s), ownerConn: connect(t, owner)}
	w.app = connect(t, must(store.AppDSN(owner, ""))(t))
	for _, scene := range []storetest.Scene{w.mine, w.other} {
		furnish(t, scene)
	}
	added := must(s.AddStudents(t.Context(), w.mine.Coach, uuid.Nil, store.ClassID{}, []store.NewStudent{{Name: "Tove"}}))(t)
	w.stranger = store.Actor{Club: w.mine.Coach.Club, Person: added[0].ID, Role: store.Student}
	_, link := account.NewToken()
	if err := s.SetFirstRun(t.Context(), link); err != nil {
		t.Fatal(err)
	}
	w.tables = names(t, w.ownerConn, `select relname from pg_class where relnamespace = 'public'::regnamespace
		and relkind in ('r', 'p') and relname <> 'goose_db_version' order by relname`)
	return w
}

// furnish puts something of the first student's into every table.
func furnish(t *testing.T, scene storetest.Scene) {
	t.Helper()
	odile := scene.StudentActor(0)
	eraseSomebody(t, scene)
	set := scene.RecordBreaks(t, odile, 10)
	changed := must(scene.Store.GetSet(t.Context(), odile, set))(t).Breaks[0]
	changed.Revision, changed.Racked = 2, drill.RackedLoose
	must(scene.Store.SaveBreak(t.Context(), odile, set, changed))(t)
	scene.CloseSet(t, odile, set, -16)
	if err := scene.Store.PostMessage(t.Context(), odile, store.MessageID{}, set, "Further out?"); err != nil {
		t.Fatal(err)
	}
	must(scene.Store.AssignDrill(t.Context(), scene.Coach, store.Assignment{Drill: scene.Drill.ID, Students: []store.PersonID{odile.Person}}))(t)
	must(scene.Store.SaveRules(t.Context(), scene.Coach, 0, []drill.RuleSetting{{Rule: "unsteady", Step: new(2.0)}}))(t)
	if err := scene.Store.SayWordBack(t.Context(), odile, set, store.Hurts); err != nil {
		t.Fatal(err)
	}
	if err := scene.Store.IssueCard(t.Context(), scene.Coach, store.CardID{}, set); err != nil {
		t.Fatal(err)
	}
	if err := scene.Store.DismissDeskLine(t.Context(), scene.Coach, store.DismissedLine{Student: odile.Person, Reason: store.DismissOffTable, About: set.String()}); err != nil {
		t.Fatal(err)
	}
	kept := store.Job{ID: store.NewID[store.JobID](), Kind: store.ImportJob, Title: "breaks.csv"}
	if err := scene.Store.CreateJob(t.Context(), scene.Coach, kept, []byte("a file")); err != nil {
		t.Fatal(err)
	}
	sides := must(scene.Store.ChangeStudents(t.Context(), scene.Coach, store.RosterChange{Kind: store.SetSides, Side: "right"}, []store.PersonID{odile.Person}))(t)
	must(scene.Store.UndoRosterChange(t.Context(), scene.Coach, sides.ID))(t)
	if err := scene.Store.SaveStudentNote(t.Context(), scene.Coach, odile.Person, "A sore wrist"); err != nil {
		t.Fatal(err)
	}
	_, token := account.NewToken()
	if err := scene.Store.StartSession(t.Context(), odile, store.NewSession{TokenHash: token, At: time.Now()}); err != nil {
		t.Fatal(err)
	}
	furnishAccounts(t, scene)
}

// furnishAccounts puts something into the tables that only signing in reaches.
func furnishAccounts(t *testing.T, scene storetest.Scene) {
	t.Helper()
	ctx, s, odile, now := t.Context(), scene.Store, scene.StudentActor(0), time.Now()
	_, device := account.NewToken()
	kind := must(s.TakeTry(ctx, odile, device, now))(t)
	for _, err := range []error{
		s.SettleTry(ctx, odile, device, kind, now),
		s.BeginSecondStep(ctx, scene.Coach, account.NewTOTPSecret()),
		s.ConfirmSecondStep(ctx, scene.Coach, 1, [][]byte{account.HashRecoveryCode("a code")}),
		s.InviteCoach(ctx, scene.Coach, device, now),
	} {
		if err != nil {
			t.Fatal(err)
		}
	}
	must(s.TakeNetworkTry(ctx, int(device[0]), now))(t)
	if err := s.WriteNote(ctx, odile, store.Note{Act: store.ActExported, Place: "/my/export", About: odile.Person.UUID}); err != nil {
		t.Fatal(err)
	}
}

// eraseSomebody leaves a session of somebody who was.
func eraseSomebody(t *testing.T, scene storetest.Scene) {
	t.Helper()
	added := must(scene.Store.AddStudents(t.Context(), scene.Coach, uuid.Nil, store.ClassID{}, []store.NewStudent{{Name: "Gone"}}))(t)
	gone := store.Actor{Club: scene.Coach.Club, Person: added[0].ID, Role: store.Student}
	_, token := account.NewToken()
	if err := scene.Store.StartSession(t.Context(), gone, store.NewSession{TokenHash: token, At: time.Now()}); err != nil {
		t.Fatal(err)
	}
	if err := scene.Store.EraseStudent(t.Context(), scene.Coach, gone.Person); err != nil {
		t.Fatal(err)
	}
}

// as does fn as an actor, and undoes it.
func (w walls) as(t *testing.T, v store.Actor, fn func(pgx.Tx)) {
	t.Helper()
	tx, err := w.app.Begin(t.Context())
	if err != nil {
		t.Fatal(err)
	}
	defer tx.Rollback(context.Background())
	if v != nobody {
		_, err = tx.Exec(t.Context(), "select set_config('app.club_id', $1, true), set_config('app.person_id', $2, true), set_config('app.role', $3, true)",
			v.Club.String(), v.Person.String(), string(v.Role))
		if err != nil {
			t.Fatal(err)
		}
	}
	fn(tx)
}

var nobody store.Actor

const refused = "42501" // insufficient privilege, which a policy's refusal is too

// count counts rows; a refusal counts as none.
func count(t *testing.T, tx pgx.Tx, query string, args ...any) int {
	t.Helper()
	var n int
	err := tx.QueryRow(t.Context(), query, args...).Scan(&n)
	if err != nil && code(err) != refused {
		t.Fatalf("%s: %v", query, err)
	}
	return n
}

func code(err error) string {
	var answered *pgconn.PgError
	if errors.As(err, &answered) {
		return answered.Code
	}
	return ""
}

// clubColumn is the column that says whose a row is; "" for first_run,
// try_bucket and those of who was erased, which are nobody's.
func clubColumn(table string) string {
	switch table {
	case "club":
		return "id"
	case "first_run", "try_bucket", "erased_session", "erased_person":
		return ""
	}
	return "club_id"
}

func TestWalls_EveryTableHasThem(t *testing.T) {
	t.Parallel()
	w := buildWalls(t)
	if len(w.tables) < 17 {
		t.Fatalf("only %d tables were found: %v", len(w.tables), w.tables)
	}
	for _, table := range w.tables {
		var secured, forced bool
		err := w.ownerConn.QueryRow(t.Context(), "select relrowsecurity, relforcerowsecurity from pg_class where oid = $1::regclass", table).
			Scan(&secured, &forced)
		if err != nil || !secured || !forced {
			t.Errorf("%s: row security enabled %v, forced %v (%v)", table, secured, forced, err)
		}
		var rows int
		if err := w.ownerConn.QueryRow(t.Context(), "select count(*) from "+table).Scan(&rows); err != nil || rows == 0 {
			t.Errorf("%s: nothing to be hidden in it, so the other walls tests say nothing: extend furnish (%v)", table, err)
		}
	}
}

func TestWalls_WhoSeesWhat(t *testing.T) {
	t.Parallel()
	w := buildWalls(t)
	// What every student of a club may see of it, and what even a coach may not.
	shared := []string{"club", "pool_table", "setup"}
	onlySigningIn := []string{"first_run", "session", "known_device", "try_bucket", "second_step", "recovery_code", "erased_session", "erased_person"}

	for _, table := range w.tables {
		w.as(t, nobody, func(tx pgx.Tx) {
			if n := count(t, tx, "select count(*) from "+table); n != 0 {
				t.Errorf("nobody sees %d rows of %s", n, table)
			}
		})
		column := clubColumn(table)
		if column == "" {
			continue
		}
		ofClub := fmt.Sprintf("select count(*) from %s where %s = $1", table, column)
		for _, v := range []store.Actor{w.other.Coach, w.other.StudentActor(0)} {
			w.as(t, v, func(tx pgx.Tx) {
				if n := count(t, tx, ofClub, w.mine.Coach.Club.UUID); n != 0 {
					t.Errorf("a %s of another club sees %d rows of %s", v.Role, n, table)
				}
			})
		}
		w.as(t, w.mine.Coach, func(tx pgx.Tx) {
			if n := count(t, tx, ofClub, w.mine.Coach.Club.UUID); (n == 0) != slices.Contains(onlySigningIn, table) {
				t.Errorf("the club's coach sees %d rows of %s", n, table)
			}
		})
		if slices.Contains(shared, table) {
			continue
		}
		w.as(t, w.stranger, func(tx pgx.Tx) {
			own := 0
			if table == "person" {
				own = 1
			}
			if n := count(t, tx, ofClub, w.mine.Coach.Club.UUID); n != own {
				t.Errorf("a student in no class sees %d rows of %s, not %d", n, table, own)
			}
		})
		if studentColumn := w.studentColumn(t, table); studentColumn != "" {
			w.as(t, w.mine.StudentActor(1), func(tx pgx.Tx) {
				others := fmt.Sprintf("select count(*) from %s where %s <> $1", table, studentColumn)
				if n := count(t, tx, others, w.mine.StudentActor(1).Person.UUID); n != 0 {
					t.Errorf("a student of the same class sees %d rows of others in %s", n, table)
				}
			})
		}
	}
}

// studentColumn is the column that says which student a row belongs to, "".
func (w walls) studentColumn(t *testing.T, table string) string {
	t.Helper()
	if table == "person" {
		return "id"
	}
	if slices.Contains(w.columns(t, table, "true"), "student_id") {
		return "student_id"
	}
	return ""
}

// columns lists a table's columns for which a condition holds.
func (w walls) columns(t *testing.T, table, condition string) []string {
	t.Helper()
	return names(t, w.ownerConn, fmt.Sprintf(`select attname from pg_attribute
		where attrelid = '%s'::regclass and attnum > 0 and not attisdropped and %s order by attnum`, table, condition))
}

func (w walls) granted(t *testing.T, table, privilege string) []string {
	t.Helper()
	return w.columns(t, table, fmt.Sprintf("has_column_privilege('%s', '%s', attname, '%s')", store.AppRole, table, privilege))
}

func TestWalls_WhoChangesWhat(t *testing.T) {
	t.Parallel()
	w := buildWalls(t)
	own := []string{"break_set", "break", "message", "set_tally", "stint", "word_back"} // what a student may write, and only their own
	for _, table := range w.tables {
		column := clubColumn(table)
		if column == "" {
			column = "true"
		} else {
			column += fmt.Sprintf(" = '%s'", w.mine.Coach.Club)
		}
		if who := w.studentColumn(t, table); who == "student_id" {
			column += fmt.Sprintf(" and %s = '%s'", who, w.mine.StudentActor(0).Person)
		}
		elsewhere := store.NewID[store.ClubID]() // a club of which there is nothing yet
		for name, v := range map[string]store.Actor{
			"nobody":                      nobody,
			"another club's coach":        {Club: elsewhere, Person: w.other.Coach.Person, Role: store.Coach},
			"another club's student":      {Club: elsewhere, Person: w.other.StudentActor(0).Person, Role: store.Student},
			"a student of the same class": w.mine.StudentActor(1), "a student in no class": w.stranger,
		} {
			w.refusesInsert(t, name, v, table, column, refused)
			w.refusesChange(t, name, v, table, column)
		}
		if slices.Contains(own, table) {
			w.refusesInsert(t, "the student", w.mine.StudentActor(0), table, column, "23505") // only because it is there
		} else {
			w.refusesInsert(t, "the student", w.mine.StudentActor(0), table, column, refused)
			w.refusesChange(t, "the student", w.mine.StudentActor(0), table, column)
		}
	}
}

// refusesInsert tries to add a copy of a row and expects a refusal for the
// given reason.
func (w walls) refusesInsert(t *testing.T, name string, v store.Actor, table, which, reason string) {
	t.Helper()
	var row []byte
	err := w.ownerConn.QueryRow(t.Context(), fmt.Sprintf("select to_jsonb(r) from %s r where %s limit 1", table, which)).Scan(&row)
	if err != nil {
		t.Fatalf("%s: %v", table, err)
	}
	const plain = "attgenerated = ''" // the others are not for anyone to write
	columns := w.columns(t, table, fmt.Sprintf("has_column_privilege('%s', '%s', attname, 'INSERT') and %s", store.AppRole, table, plain))
	if len(columns) == 0 {
		columns = w.columns(t, table, plain)
	}
	list := strings.Join(columns, ", ")
	w.as(t, v, func(tx pgx.Tx) {
		_, err := tx.Exec(t.Context(), fmt.Sprintf("insert into %s (%s) select %s from jsonb_populate_record(null::%s, $1)", table, list, list, table), row)
		if code(err) != reason {
			t.Errorf("%s adds to %s: %v, want a refusal with %s", name, table, err, reason)
		}
	})
}

// refusesChange tries to change every column that can be, and to delete: where
// the row is, which takes the right to read it too, and everywhere. None of the
// actors it is called for may change anything in the table.
func (w walls) refusesChange(t *testing.T, name string, v store.Actor, table, which string) {
	t.Helper()
	statements := []string{fmt.Sprintf("delete from %s where %s", table, which), "delete from " + table}
	for _, c := range w.granted(t, table, "UPDATE") {
		statements = append(statements, fmt.Sprintf("update %s set %s = %s where %s", table, c, c, which),
			fmt.Sprintf("update %s set %s = null", table, c))
	}
	for _, statement := range statements {
		w.as(t, v, func(tx pgx.Tx) {
			tag, err := tx.Exec(t.Context(), statement)
			if err == nil && tag.RowsAffected() > 0 || err != nil && code(err) != refused {
				t.Errorf("%s: %s: %d rows, %v", name, statement, tag.RowsAffected(), err)
			}
		})
	}
}

// The adviser may write for the student whose set is closed, and for nobody else.
func TestWalls_AdviserWritesForOneStudent(t *testing.T) {
	t.Parallel()
	w := buildWalls(t)
	forBram := store.Actor{Club: w.mine.Coach.Club, Person: w.mine.StudentActor(1).Person, Role: "adviser"}
	forOdile := store.Actor{Club: w.mine.Coach.Club, Person: w.mine.StudentActor(0).Person, Role: "adviser"}
	ofOdile := fmt.Sprintf("club_id = '%s' and student_id = '%s'", w.mine.Coach.Club, w.mine.StudentActor(0).Person)
	for _, table := range []string{"advice", "prescription"} {
		w.refusesInsert(t, "the adviser of another student", forBram, table, ofOdile, refused)
		w.refusesChange(t, "the adviser of another student", forBram, table, ofOdile)
		w.refusesInsert(t, "the adviser", forOdile, table, ofOdile, "23505")
	}
}

func TestWalls_SecretsAreNotReadable(t *testing.T) {
	t.Parallel()
	w := buildWalls(t)
	w.as(t, w.mine.Coach, func(tx pgx.Tx) {
		if _, err := tx.Exec(t.Context(), "select secret_hash from person"); code(err) != refused {
			t.Errorf("a coach reads secrets: %v", err)
		}
	})
	open := names(t, w.ownerConn, `select proname from pg_proc where pronamespace = 'door'::regnamespace
		and (not prosecdef or proconfig is null or has_function_privilege('public', oid, 'EXECUTE'))`)
	if len(open) > 0 {
		t.Errorf("door functions that anyone may call, or without a fixed search path: %v", open)
	}
}

// The functions of the schema door look who asks, even if the program forgot to.
func TestWalls_SigningInGuardsItself(t *testing.T) {
	t.Parallel()
	w := buildWalls(t)
	odile := w.mine.StudentActor(0)
	for name, c := range map[string]struct {
		v       store.Actor
		changed int
	}{
		"nobody": {nobody, 0}, "a student of the class": {w.mine.StudentActor(1), 0}, "another club's coach": {w.other.Coach, 0},
		"the club's coach": {w.mine.Coach, 2},
	} {
		tx, err := w.ownerConn.Begin(t.Context())
		if err != nil {
			t.Fatal(err)
		}
		for _, step := range []struct {
			sql  string
			args []any
		}{
			{"update person set secret_hash = '$argon2id$mine' where id = $1", []any{odile.Person.UUID}},
			{"set local role " + store.AppRole, nil},
			{"select set_config('app.club_id', $1, true), set_config('app.person_id', $2, true), set_config('app.role', $3, true)",
				[]any{c.v.Club.String(), c.v.Person.String(), string(c.v.Role)}},
			{"select door.revoke_sessions($1)", []any{odile.Person.UUID}},
			{"select door.forget_secret($1)", []any{odile.Person.UUID}},
			{"select door.set_secret('$argon2id$stolen')", nil},
			{"reset role", nil},
		} {
			if _, err := tx.Exec(t.Context(), step.sql, step.args...); err != nil {
				t.Fatalf("%s: %s: %v", name, step.sql, err)
			}
		}
		got := count(t, tx, `select (select count(*) from session where person_id = $1 and revoked_at is not null)
			+ (select count(*) from person where id = $1 and secret_hash is distinct from '$argon2id$mine')`, odile.Person.UUID)
		if got != c.changed {
			t.Errorf("%s changes %d of the student's session and secret, not %d", name, got, c.changed)
		}
		if err := tx.Rollback(t.Context()); err != nil {
			t.Fatal(err)
		}
	}
}

func connect(t *testing.T, dsn string) *pgx.Conn {
	t.Helper()
	conn, err := pgx.Connect(t.Context(), dsn)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { conn.Close(context.Background()) })
	return conn
}

func names(t *testing.T, conn *pgx.Conn, query string) []string {
	t.Helper()
	rows, err := conn.Query(t.Context(), query)
	if err != nil {
		t.Fatal(err)
	}
	list, err := pgx.CollectRows(rows, pgx.RowTo[string])
	if err != nil {
		t.Fatal(err)
	}
	return list
}
