package store_test

import (
	"cmp"
	"errors"
	"fmt"
	"os"
	"strings"
	"testing"
	"time"

	"github.com/google/uuid"

	"breakwright/internal/account"
	"breakwright/internal/drill"
	"breakwright/internal/store"
	"breakwright/internal/store/storetest"
	"breakwright/internal/table"
)

// Of each kind a club has room for so many, and is told what to do when it is full;
// what was sent before may be sent again, and other clubs have room of their own.
func TestRoom_HasAnEnd(t *testing.T) {
	t.Parallel()
	owner := storetest.NewDatabase(t)
	sc := storetest.AddScene(t, storetest.Open(t, owner))
	set := sc.RecordBreaks(t, sc.StudentActor(0), 1)
	ctx, s := t.Context(), sc.Store
	message, form := store.NewID[store.MessageID](), uuid.New()
	welcome := func(id store.MessageID) error {
		_, err := s.PostToStudents(ctx, sc.Coach, id, []store.PersonID{sc.StudentActor(1).Person}, "Welcome.")
		return err
	}
	must(s.AddStudents(ctx, sc.Coach, form, store.ClassID{}, []store.NewStudent{{Name: "Last"}}))(t)
	for _, err := range []error{
		s.PostMessage(ctx, sc.StudentActor(0), message, set, "Where do I aim?"),
		welcome(message),
		s.InviteCoach(ctx, sc.Coach, account.HashToken("one"), time.Now()),
		s.CreateJob(ctx, sc.Coach, store.Job{ID: store.NewID[store.JobID](), Kind: store.ExportJob, Title: "all"}, nil),
	} {
		if err != nil {
			t.Fatal(err)
		}
	}
	recorded, minimum := must(s.GetSet(ctx, sc.Coach, set))(t).Breaks[0], 20
	change := func(revision int) error {
		b := recorded
		b.Revision, b.Note = revision, fmt.Sprint("Seen ", revision, " times.")
		_, err := s.SaveBreak(ctx, sc.StudentActor(0), set, b)
		if err == nil {
			recorded.Revision = revision
		}
		return err
	}
	setMinimum := func(breaks int) error {
		const latest = 1 << 30
		_, err := s.SaveRules(ctx, sc.Coach, latest, []drill.RuleSetting{{Rule: "unsteady", MinBreaks: &breaks}})
		return err
	}
	ofKind := map[store.Room]string{ // of tables with several
		store.RoomForStudents: "(select * from person where role = 'student') students",
		store.RoomForStruck:   "(select * from break where deleted_at is not null) struck",
		store.RoomForMessages: "(select * from message where set_id is not null) beside_sets",
		store.RoomWithoutSet:  "(select * from message where set_id is null) beside_none",
	}
	newID := `"id": "' || md5(n::text)::uuid || '"`
	for name, c := range map[string]struct {
		room          store.Room
		table, change string
		add, again    func() error
	}{
		"students": {store.RoomForStudents, "person", `{` + newID + `, "code": null}`,
			func() error {
				_, err := s.AddStudents(ctx, sc.Coach, uuid.Nil, sc.Class, []store.NewStudent{{Name: "One more", Side: table.Left}})
				return err
			},
			func() error {
				_, err := s.AddStudents(ctx, sc.Coach, form, store.ClassID{}, []store.NewStudent{{Name: "Last"}})
				return err
			}},
		"classes": {store.RoomForClasses, "class", `{` + newID + `, "name": "' || n || '"}`,
			func() error { _, err := s.SaveClass(ctx, sc.Coach, store.Class{Name: "One more"}); return err },
			func() error {
				_, err := s.SaveClass(ctx, sc.Coach, store.Class{ID: sc.Class, Name: "Thursday evening"})
				return err
			}},
		"tables": {store.RoomForTables, "pool_table", `{` + newID + `, "name": "' || n || '"}`,
			func() error {
				_, err := s.SaveTable(ctx, sc.Coach, store.Table{Name: uuid.NewString(), Kind: table.NineFoot()})
				return err
			},
			func() error { _, err := s.SaveTable(ctx, sc.Coach, sc.Table); return err }},
		"drills": {store.RoomForDrills, "drill", `{` + newID + `, "lineage": "' || md5(n::text)::uuid || '"}`,
			func() error {
				_, err := s.SaveDrill(ctx, sc.Coach, store.DrillID{}, storetest.StandardDrill())
				return err
			},
			func() error { _, err := s.SaveDrill(ctx, sc.Coach, sc.Drill.ID, sc.Drill.Drill); return err }},
		"assignments": {store.RoomForAssignments, "assignment", `{` + newID + `}`,
			func() error {
				_, err := s.AssignDrill(ctx, sc.Coach, store.Assignment{Drill: sc.Drill.ID, Class: sc.Class})
				return err
			},
			func() error {
				_, err := s.AssignDrill(ctx, sc.Coach, store.Assignment{ID: sc.Assignment, Drill: sc.Drill.ID, Class: sc.Class})
				return err
			}},
		"invitations": {store.RoomForInvitations, "coach_invite", `{"token_hash": "\\x' || encode(sha256(n::text::bytea), 'hex') || '"}`,
			func() error { return s.InviteCoach(ctx, sc.Coach, account.HashToken(uuid.NewString()), time.Now()) }, nil},
		"jobs": {store.RoomForJobs, "job", `{` + newID + `}`,
			func() error {
				return s.CreateJob(ctx, sc.Coach, store.Job{ID: store.NewID[store.JobID](), Kind: store.ExportJob, Title: "one more"}, nil)
			}, nil},
		"messages": {store.RoomForMessages, "message", `{` + newID + `}`,
			func() error { return s.PostMessage(ctx, sc.StudentActor(0), store.MessageID{}, set, "One more.") },
			func() error { return s.PostMessage(ctx, sc.StudentActor(0), message, set, "Where do I aim?") }},
		"messages beside no set": {store.RoomWithoutSet, "message", `{"id": "' || md5('beside ' || n)::uuid || '"}`,
			func() error { return welcome(store.MessageID{}) }, func() error { return welcome(message) }},
		"struck breaks": {store.RoomForStruck, "break", `{` + newID + `}`,
			func() error { return change(recorded.Revision + 1) }, func() error { return change(recorded.Revision) }},
		"rules": {store.RoomForRules, "club_rule", `{"revision": ' || n + 10 || '}`,
			func() error { minimum++; return setMinimum(minimum) }, func() error { return setMinimum(21) }},
		"changes of many students": {store.RoomForChanges, "roster_change", `{` + newID + `}`,
			func() error {
				_, err := s.ChangeStudents(ctx, sc.Coach, store.RosterChange{Kind: store.SetSides, Side: table.Left}, nil)
				return err
			}, nil},
	} {
		t.Run(name, func(t *testing.T) {
			if err := c.add(); err != nil {
				t.Fatalf("with room: %v", err)
			}
			admin := connect(t, owner)
			columns := strings.Join(names(t, admin, `select quote_ident(column_name) from information_schema.columns
				where table_schema = 'public' and is_generated = 'NEVER' and table_name = '`+c.table+`' order by ordinal_position`), ", ")
			rows := cmp.Or(ofKind[c.room], c.table)
			fill := fmt.Sprintf(`insert into %[1]s (%[2]s) select %[2]s from (select made.* from (select * from %[3]s limit 1) r,
				generate_series(1, $1 - (select count(*) from %[3]s)::int) n,
				lateral jsonb_populate_record(null::%[1]s, to_jsonb(r) || ('%[4]s')::jsonb) made) copies`, c.table, columns, rows, c.change)
			if _, err := admin.Exec(ctx, fill, c.room.Most); err != nil {
				t.Fatal(err)
			}
			err := c.add()
			if !errors.Is(err, store.ErrFull) || !strings.Contains(store.SentenceOf(err), fmt.Sprint(c.room.Most)) {
				t.Errorf("without room: %v", err)
			}
			if c.again != nil && c.again() != nil {
				t.Errorf("what is there, sent again: %v", c.again())
			}
		})
	}
	storetest.AddScene(t, s) // another club still has room: it fails where not
}

// Coaches have an end, too, those who are invited counted: nobody is invited who would
// find no room.
func TestRoom_OfCoaches(t *testing.T) {
	t.Parallel()
	owner := storetest.NewDatabase(t)
	sc := storetest.AddScene(t, storetest.Open(t, owner))
	invite := func() error {
		return sc.Store.InviteCoach(t.Context(), sc.Coach, account.HashToken(uuid.NewString()), time.Now())
	}
	admin := connect(t, owner)
	_, err := admin.Exec(t.Context(), `insert into person (club_id, id, role, name, login, secret_hash)
		select p.club_id, md5(n::text)::uuid, 'coach', 'Coach ' || n, 'coach ' || n, p.secret_hash
		from (select * from person where role = 'coach' limit 1) p, generate_series(1, $1 - 2) n`, store.RoomForCoaches.Most)
	if err != nil {
		t.Fatal(err)
	}
	if err := invite(); err != nil {
		t.Fatalf("the last place: %v", err)
	}
	if err := invite(); !errors.Is(err, store.ErrFull) || !strings.Contains(store.SentenceOf(err), "200 coaches") {
		t.Errorf("without room: %v", err)
	}
}

// The README says how much room there is for what a student's phone sends.
func TestRoom_IsWhatTheReadmeSays(t *testing.T) {
	readme, err := os.ReadFile("../../README.md")
	if err != nil {
		t.Fatal(err)
	}
	struck := store.RoomForStruck.Most
	want := fmt.Sprintf("%d sets a student and day, %d messages and %d,%03d changed breaks a set, %d messages to a student without one", store.MaxSetsADay, store.RoomForMessages.Most, struck/1000, struck%1000, store.RoomWithoutSet.Most)
	if !strings.Contains(string(readme), want) {
		t.Errorf("the README does not say %q", want)
	}
}
