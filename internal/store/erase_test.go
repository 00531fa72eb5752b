package store_test

import (
	"encoding/hex"
	"encoding/json"
	"errors"
	"fmt"
	"slices"
	"strings"
	"testing"
	"time"

	"breakwright/internal/account"
	"breakwright/internal/store"
	"breakwright/internal/store/storetest"
)

// findText lists the tables in which a row holds a text anywhere, also as bytes.
func (w walls) findText(t *testing.T, text string) []string {
	t.Helper()
	var found []string
	for _, table := range w.tables {
		var n int
		err := w.ownerConn.QueryRow(t.Context(), fmt.Sprintf("select count(*) from %s r where strpos(to_jsonb(r)::text, $1) > 0 or strpos(to_jsonb(r)::text, $2) > 0", table),
			text, hex.EncodeToString([]byte(text))).Scan(&n)
		if err != nil {
			t.Fatal(err)
		}
		if n > 0 {
			found = append(found, table)
		}
	}
	return found
}

// dump returns every row that a condition finds, as text.
func (w walls) dump(t *testing.T, column string, id any) []string {
	t.Helper()
	var rows []string
	for _, table := range w.tables {
		if slices.Contains(w.columns(t, table, "true"), column) {
			rows = append(rows, names(t, w.ownerConn, fmt.Sprintf("select '%s ' || to_jsonb(r)::text from %s r where %s = '%v' order by 1", table, table, column, id))...)
		}
	}
	return rows
}

// tracesOf are what tells of the scene's first student, with what they and others
// typed about them.
func (w walls) tracesOf(t *testing.T) []string {
	t.Helper()
	odile := w.mine.Students[0]
	if err := w.mine.Store.RenamePerson(t.Context(), w.mine.Coach, odile.ID, "Odile Quillfeather"); err != nil {
		t.Fatal(err)
	}
	kept := store.Job{ID: store.NewID[store.JobID](), Kind: store.ImportJob, Title: "breaks.csv"}
	if err := w.mine.Store.CreateJob(t.Context(), w.mine.Coach, kept, []byte("student\nOdile Quillfeather\n")); err != nil {
		t.Fatal(err)
	}
	if err := w.mine.Store.WriteNote(t.Context(), w.mine.Coach, store.Note{Act: store.ActSaw, Place: "/students/{student}", About: odile.ID.UUID}); err != nil {
		t.Fatal(err)
	}
	return []string{odile.ID.String(), "Odile Quillfeather", odile.Code, "Further out?", "A sore wrist"}
}

// Erased, a student is nowhere; everybody else is as before.
func TestErase_AStudentIsNowhere(t *testing.T) {
	t.Parallel()
	w := buildWalls(t)
	ctx, s, odile, bram := t.Context(), w.mine.Store, w.mine.StudentActor(0), w.mine.StudentActor(1)
	w.mine.CloseSet(t, bram, w.mine.RecordBreaks(t, bram, 10), -16)
	traces := w.tracesOf(t)
	for _, trace := range traces {
		if len(w.findText(t, trace)) == 0 {
			t.Fatalf("%q is nowhere before", trace)
		}
	}
	ofBram, ofOthers := w.dump(t, "student_id", bram.Person), w.dump(t, "club_id", w.other.Coach.Club)
	for name, v := range map[string]store.Actor{"another club's coach": w.other.Coach, "the student": odile, "another student": bram} {
		if err := s.EraseStudent(ctx, v, odile.Person); !errors.Is(err, store.ErrNotFound) && !errors.Is(err, store.ErrNotAllowed) {
			t.Errorf("%s erases: %v", name, err)
		}
	}
	if err := s.EraseStudent(ctx, w.mine.Coach, odile.Person); err != nil {
		t.Fatal(err)
	}
	if err := s.EraseStudent(ctx, w.mine.Coach, w.mine.Coach.Person); !errors.Is(err, store.ErrNotFound) {
		t.Errorf("a coach is erased as a student: %v", err)
	}
	// The messages and notes of the other club have the same words.
	for _, trace := range traces {
		for _, table := range w.findText(t, trace) {
			if here := w.findTextOfClub(t, table, trace); here {
				t.Errorf("%q is still in %s", trace, table)
			}
		}
	}
	if got := w.dump(t, "student_id", bram.Person); !slices.Equal(got, ofBram) {
		t.Errorf("another student's rows are not as before:\n%q\n%q", got, ofBram)
	}
	if got := w.dump(t, "club_id", w.other.Coach.Club); !slices.Equal(got, ofOthers) {
		t.Error("the other club's rows are not as before")
	}
	lines := must(s.ListNotes(ctx, w.mine.Coach, odile.Person.UUID, time.Now().Add(time.Hour)))(t)
	all := must(s.ListNotes(ctx, w.mine.Coach, [16]byte{}, time.Now().Add(time.Hour)))(t)
	if len(lines) != 0 || len(all) == 0 || all[0].Act != store.ActErased || all[0].ByName != "Ines" {
		t.Errorf("the audit log says %+v of them and %+v in all", lines, all)
	}
}

// findTextOfClub reports whether a row of the first club, or of no club, holds it.
func (w walls) findTextOfClub(t *testing.T, table, text string) bool {
	t.Helper()
	where := "true"
	if column := clubColumn(table); column != "" {
		where = fmt.Sprintf("%s = '%s'", column, w.mine.Coach.Club)
	}
	return len(names(t, w.ownerConn, fmt.Sprintf("select '' from %s r where %s and (strpos(to_jsonb(r)::text, '%s') > 0 or strpos(to_jsonb(r)::text, '%s') > 0)",
		table, where, text, hex.EncodeToString([]byte(text))))) > 0
}

// A student's phones are told, by the hash of a token that nobody else has.
func TestErase_TellsThePhones(t *testing.T) {
	t.Parallel()
	sc := storetest.NewScene(t)
	ctx, odile := t.Context(), sc.StudentActor(0)
	_, token := account.NewToken()
	_, other := account.NewToken()
	for hash, who := range map[*[]byte]store.Actor{&token: odile, &other: sc.StudentActor(1)} {
		if err := sc.Store.StartSession(ctx, who, store.NewSession{TokenHash: *hash, At: time.Now()}); err != nil {
			t.Fatal(err)
		}
	}
	if must(sc.Store.WasErased(ctx, token, odile.Person))(t) {
		t.Error("a phone is told before")
	}
	if err := sc.Store.EraseStudent(ctx, sc.Coach, odile.Person); err != nil {
		t.Fatal(err)
	}
	none := store.PersonID{}
	if !must(sc.Store.WasErased(ctx, token, none))(t) || must(sc.Store.WasErased(ctx, other, none))(t) {
		t.Error("the wrong phone is told")
	}
	// One that was away until its session was swept knows only whose it is.
	for person, want := range map[store.PersonID]bool{odile.Person: true, sc.StudentActor(1).Person: false, store.NewID[store.PersonID](): false} {
		if got := must(sc.Store.WasErased(ctx, nil, person))(t); got != want {
			t.Errorf("the phone of %s, whose session is forgotten, is told %v", person, got)
		}
	}
	if _, err := sc.Store.FindSession(ctx, token, time.Now()); !errors.Is(err, store.ErrNotFound) {
		t.Errorf("the session goes on: %v", err)
	}
}

// Erased, a coach who was removed has no name, login, secret or note any more.
func TestErase_ACoachWhoWasRemoved(t *testing.T) {
	t.Parallel()
	w := buildWalls(t)
	ctx, s := t.Context(), w.mine.Store
	levi := must(s.AddCoach(ctx, w.mine.Coach, store.NewCoach{Name: "Levi Quillfeather", Login: "levi-quillfeather", SecretHash: "$argon2id$levi"}))(t)
	v := store.Actor{Club: w.mine.Coach.Club, Person: levi, Role: store.Coach}
	if err := s.SaveStudentNote(ctx, v, w.mine.StudentActor(0).Person, "Told me of a move"); err != nil {
		t.Fatal(err)
	}
	if err := s.EraseCoach(ctx, w.mine.Coach, levi); !errors.Is(err, store.ErrNotFound) {
		t.Errorf("a coach who is one still is erased: %v", err)
	}
	if err := errors.Join(s.ArchivePerson(ctx, w.mine.Coach, levi), s.EraseCoach(ctx, w.mine.Coach, levi)); err != nil {
		t.Fatal(err)
	}
	for _, trace := range []string{"Levi", "levi-quillfeather", "$argon2id$levi", "Told me of a move"} {
		if found := w.findText(t, trace); len(found) > 0 {
			t.Errorf("%q is still in %v", trace, found)
		}
	}
}

// Erased, a club is nowhere; another is as before.
func TestErase_AClubIsNowhere(t *testing.T) {
	t.Parallel()
	w := buildWalls(t)
	ofOthers := w.dump(t, "club_id", w.other.Coach.Club)
	if err := w.mine.Store.EraseClub(t.Context(), w.mine.StudentActor(0)); !errors.Is(err, store.ErrNotAllowed) {
		t.Errorf("a student erases the club: %v", err)
	}
	if err := w.mine.Store.EraseClub(t.Context(), w.mine.Coach); err != nil {
		t.Fatal(err)
	}
	if found := w.findText(t, w.mine.Coach.Club.String()); len(found) > 0 {
		t.Errorf("the club is still in %v", found)
	}
	if got := w.dump(t, "club_id", w.other.Coach.Club); !slices.Equal(got, ofOthers) {
		t.Error("the other club's rows are not as before")
	}
}

// A person's all has rows of every table in which they are, and no secrets.
func TestEverything_IsAll(t *testing.T) {
	t.Parallel()
	w := buildWalls(t)
	ctx, s, odile := t.Context(), w.mine.Store, w.mine.StudentActor(0)
	for name, v := range map[string]store.Actor{"another club's coach": w.other.Coach, "another student": w.mine.StudentActor(1)} {
		if _, err := s.GetEverything(ctx, v, odile.Person); !errors.Is(err, store.ErrNotFound) {
			t.Errorf("%s takes it: %v", name, err)
		}
	}
	ofCoach, own := must(s.GetEverything(ctx, w.mine.Coach, odile.Person))(t), must(s.GetEverything(ctx, odile, odile.Person))(t)
	if !strings.Contains(string(ofCoach), "A sore wrist") || strings.Contains(string(own), "A sore wrist") {
		t.Error("a private note is its coach's alone")
	}
	for _, secret := range []string{"secret_hash", "token_hash", "argon2id"} {
		if strings.Contains(string(ofCoach)+string(own), secret) {
			t.Errorf("it holds %s", secret)
		}
	}
	class, _, err := s.GetClass(ctx, w.mine.Coach, w.mine.Class)
	if err != nil {
		t.Fatal(err)
	}
	for who, all := range map[string][]byte{"the coach": ofCoach, "the student": own} {
		var named struct {
			Member []struct {
				Class store.ClassID `json:"class_id"`
			} `json:"class_member"`
			Class []struct {
				ID   store.ClassID
				Name string
			}
		}
		if err := json.Unmarshal(all, &named); err != nil || len(named.Member) != 1 || len(named.Class) != 1 || named.Class[0].ID != named.Member[0].Class || named.Class[0].Name != class.Name {
			t.Errorf("what %s takes says of classes %+v (%v), not %q", who, named, err, class.Name)
		}
	}
	var rows map[string][]json.RawMessage
	if err := json.Unmarshal(ofCoach, &rows); err != nil {
		t.Fatal(err)
	}
	for _, table := range w.tables {
		column := w.studentColumn(t, table)
		if column == "" {
			continue
		}
		if n := count0(t, w, table, column, odile); n != len(rows[table]) {
			t.Errorf("it has %d rows of %s, of %d", len(rows[table]), table, n)
		}
	}
}

func count0(t *testing.T, w walls, table, column string, who store.Actor) int {
	t.Helper()
	return len(names(t, w.ownerConn, fmt.Sprintf("select '' from %s where %s = '%s'", table, column, who.Person)))
}
