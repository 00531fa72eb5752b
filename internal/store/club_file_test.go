package store_test

import (
	"archive/zip"
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"
	"testing"

	"breakwright/internal/store"
	"breakwright/internal/store/storetest"
)

// clubRows returns every row of a club that its file holds, as text.
func clubRows(t *testing.T, owner string, file store.ClubFile) []string {
	t.Helper()
	ownerConn := connect(t, owner)
	var rows []string
	for _, part := range file.Tables {
		of := "club_id"
		if part.Table == "club" {
			of = "id"
		}
		rows = append(rows, names(t, ownerConn, fmt.Sprintf("select '%s ' || row_to_json(r)::text from (select %s from %s where %s = '%s') r order by 1",
			part.Table, strings.Join(part.Columns, ", "), part.Table, of, file.Club))...)
	}
	return rows
}

// A club comes back row for row into a database where another club is at work, by
// owners who are no superusers, and its people can sign in again and go on.
func TestClubFile_ComesBackRowForRow(t *testing.T) {
	t.Parallel()
	from, to := ownedByKeeper(t), ownedByKeeper(t)
	must(store.Migrate(t.Context(), from, ""))(t)
	must(store.Migrate(t.Context(), to, ""))(t)
	sc, other := storetest.AddScene(t, storetest.Open(t, from)), storetest.AddScene(t, storetest.Open(t, to))
	furnish(t, sc)
	storetest.AddScene(t, sc.Store)
	if _, err := store.ExportClub(t.Context(), from, "", io.Discard); !errors.Is(err, store.ErrNotFound) || !strings.Contains(err.Error(), "which club?") {
		t.Errorf("one of two clubs: %v", err)
	}
	there := allRows(t, to)
	var file, own bytes.Buffer
	name := rename(t, sc)
	written := must(store.ExportClub(t.Context(), from, name, &file))(t)
	if got := must(sc.Store.WriteClubFile(t.Context(), sc.Coach, &own))(t); got.Rows() != written.Rows() || got.Name != name {
		t.Errorf("the coach’s own file has %d rows of %q, want %d", got.Rows(), got.Name, written.Rows())
	}
	want := clubRows(t, from, written)
	must(store.ImportClub(t.Context(), to, bytes.NewReader(file.Bytes()), int64(file.Len())))(t)
	if got := clubRows(t, to, written); !slices.Equal(got, want) || int(written.Rows()) != len(want) {
		t.Errorf("%d rows came back of %d", len(got), len(want))
	}
	now := allRows(t, to)
	for _, row := range there {
		if !slices.Contains(now, row) {
			t.Fatalf("the other club has lost %s", row)
		}
	}
	if _, err := store.ImportClub(t.Context(), to, bytes.NewReader(file.Bytes()), int64(file.Len())); !errors.Is(err, store.ErrClubThere) {
		t.Errorf("a second time: %v", err)
	}
	sc.Store = other.Store
	sc.RecordBreaks(t, sc.StudentActor(1), 3)
	if _, err := sc.Store.ReplaceCode(t.Context(), sc.Coach, sc.Students[1].ID); err != nil {
		t.Errorf("a new code to join with: %v", err)
	}
}

// rename gives the scene's club a name of its own.
func rename(t *testing.T, sc storetest.Scene) string {
	t.Helper()
	club := must(sc.Store.GetClub(t.Context(), sc.Coach))(t)
	club.Name = "The club of this file"
	if err := sc.Store.ChangeClub(t.Context(), sc.Coach, club); err != nil {
		t.Fatal(err)
	}
	return club.Name
}

// Every table of a club is in its file or left out by name, and nothing that opens
// anything is in it.
func TestClubFile_HoldsNoSecret(t *testing.T) {
	t.Parallel()
	owner := storetest.NewDatabase(t)
	sc := storetest.AddScene(t, storetest.Open(t, owner))
	furnish(t, sc)
	var file bytes.Buffer
	written := must(sc.Store.WriteClubFile(t.Context(), sc.Coach, &file))(t)
	ownerConn := connect(t, owner)
	for _, table := range names(t, ownerConn, "select c.relname::text from pg_class c join pg_attribute a on a.attrelid = c.oid where c.relnamespace = 'public'::regnamespace and c.relkind = 'r' and a.attname = 'club_id'") {
		if left := slices.Contains(store.LeftOutOfClubFile(), table); left == (written.RowsOf(table) > 0) {
			t.Errorf("%s has %d rows in the file, left out: %v", table, written.RowsOf(table), left)
		}
	}
	var text strings.Builder
	for _, part := range must(zip.NewReader(bytes.NewReader(file.Bytes()), int64(file.Len())))(t).File {
		text.Write(readPart(t, part))
	}
	secrets := names(t, ownerConn, "select secret_hash from person where secret_hash is not null union select code from person where code is not null union select encode(token_hash, 'hex') from session")
	for _, secret := range secrets {
		if strings.Contains(text.String(), secret) {
			t.Errorf("the file holds the secret %s", secret)
		}
	}
	if len(secrets) < 3 {
		t.Errorf("%d secrets were looked for", len(secrets))
	}
	if _, err := sc.Store.WriteClubFile(t.Context(), sc.StudentActor(0), io.Discard); !errors.Is(err, store.ErrNotAllowed) {
		t.Errorf("a student takes the club’s file: %v", err)
	}
}

func readPart(t *testing.T, part *zip.File) []byte {
	t.Helper()
	open := must(part.Open())(t)
	defer open.Close()
	return must(io.ReadAll(open))(t)
}

// rewriteClubFile returns a club file with other rows in a table, and contents that
// fit them.
func rewriteClubFile(t *testing.T, file []byte, table string, edit func(string) string) []byte {
	t.Helper()
	var to bytes.Buffer
	z := zip.NewWriter(&to)
	var c store.ClubFile
	texts := map[string]string{}
	for _, part := range must(zip.NewReader(bytes.NewReader(file), int64(len(file))))(t).File {
		texts[part.Name] = string(readPart(t, part))
	}
	if err := json.Unmarshal([]byte(texts["contents.json"]), &c); err != nil {
		t.Fatal(err)
	}
	for i := range c.Tables {
		p := &c.Tables[i]
		text := texts[p.Table+".jsonl"]
		if p.Table == table {
			text = edit(text)
		}
		sum := sha256.Sum256([]byte(text))
		p.Rows, p.SHA256 = int64(strings.Count(text, "\n")), hex.EncodeToString(sum[:])
		must(io.WriteString(must(z.Create(p.Table+".jsonl"))(t), text))(t)
	}
	contents := must(json.Marshal(c))(t)
	if table == "" {
		contents = []byte(edit(string(contents)))
	}
	must(must(z.Create("contents.json"))(t).Write(contents))(t)
	if err := z.Close(); err != nil {
		t.Fatal(err)
	}
	return to.Bytes()
}

// What is not whole, or cannot be, brings nothing back, and says why.
func TestClubFile_RefusesWhatCannotBe(t *testing.T) {
	t.Parallel()
	from, to := storetest.NewDatabase(t), storetest.NewDatabase(t)
	sc := storetest.AddScene(t, storetest.Open(t, from))
	sc.RecordBreaks(t, sc.StudentActor(0), 3)
	other := storetest.AddScene(t, storetest.Open(t, to))
	var file bytes.Buffer
	must(store.ExportClub(t.Context(), from, "", &file))(t)
	whole := file.Bytes()
	changed := bytes.Clone(whole)
	changed[middleOf(t, whole, "break.jsonl")] ^= 1
	replace := func(table, old, with string) []byte {
		return rewriteClubFile(t, whole, table, func(text string) string {
			if !strings.Contains(text, old) {
				t.Fatalf("%s has no %s", table, old)
			}
			return strings.ReplaceAll(text, old, with)
		})
	}
	before := allRows(t, to)
	for name, bad := range map[string]struct {
		file []byte
		says string
	}{
		"nothing":            {nil, "no whole club file"},
		"half a file":        {whole[:len(whole)/2], "no whole club file"},
		"a changed byte":     {changed, "not as it was written"},
		"another club’s row": {replace("class", sc.Coach.Club.String(), other.Coach.Club.String()), "0 rows of 1 are this club’s"},
		"a row cut off":      {replace("class", "}", ""), "bring back class"},
		"an impossible row":  {replace("drill", `"breaks":10`, `"breaks":-1`), "bring back drill"},
		"a row without end":  {replace("class", `"name":"`, `"name":"`+strings.Repeat("x", 9<<20)), "a row is too long"},
		"contents no end":    {replace("", `{`, strings.Repeat(" ", 2<<20)+"{"), "not one of this program"},
		"a missing drill":    {rewriteClubFile(t, whole, "drill", func(string) string { return "" }), "bring back assignment"},
		"a newer format":     {replace("", `"version":1`, `"version":2`), "newer version"},
		"somebody’s secrets": {replace("", `"login"`, `"secret_hash"`), "no column of person"},
		"no table of a club": {replace("", `"table":"desk_seen"`, `"table":"session"`), "missing"},
	} {
		_, err := store.ImportClub(t.Context(), to, bytes.NewReader(bad.file), int64(len(bad.file)))
		if !errors.Is(err, store.ErrClubFile) || !strings.Contains(err.Error(), bad.says) {
			t.Errorf("%s: %v", name, err)
		}
	}
	taken := replace("person", must(sc.Store.GetPerson(t.Context(), sc.Coach, sc.Coach.Person))(t).Login, strings.ToUpper(other.Login))
	if _, err := store.ImportClub(t.Context(), to, bytes.NewReader(taken), int64(len(taken))); !errors.Is(err, store.ErrConflict) || !strings.Contains(err.Error(), "signs in as") {
		t.Errorf("a coach who signs in as another: %v", err)
	}
	if after := allRows(t, to); !slices.Equal(after, before) {
		t.Errorf("a refused file left something: %d rows, were %d", len(after), len(before))
	}
}
