package store_test

import (
	"archive/zip"
	"bytes"
	"errors"
	"fmt"
	"slices"
	"sync"
	"testing"

	"breakwright/internal/localpg/localpgtest"
	"breakwright/internal/store"
	"breakwright/internal/store/storetest"
)

// ownedByKeeper makes an empty database whose owner is no superuser, as hosted
// servers give it.
func ownedByKeeper(t *testing.T) string {
	t.Helper()
	admin := connect(t, storetest.NewEmptyDatabase(t))
	name := admin.Config().Database
	for _, statement := range []string{"create role owner_of_" + name + " login createrole", "alter database " + name + " owner to owner_of_" + name} {
		if _, err := admin.Exec(t.Context(), statement); err != nil {
			t.Fatal(err)
		}
	}
	return localpgtest.Server(t).DSN("owner_of_"+name, name)
}

// allRows returns every row of every table, as text.
func allRows(t *testing.T, owner string) []string {
	t.Helper()
	ownerConn := connect(t, owner)
	var rows []string
	for _, table := range names(t, ownerConn, "select relname from pg_class where relnamespace = 'public'::regnamespace and relkind = 'r' and relname <> 'goose_db_version' order by 1") {
		rows = append(rows, names(t, ownerConn, fmt.Sprintf("select '%s ' || to_jsonb(r)::text from %s r order by 1", table, table))...)
	}
	return rows
}

// The drill: every row comes back into an empty database, where the work goes on.
func TestBackup_ComesBackAsItWas(t *testing.T) {
	t.Parallel()
	from, to := ownedByKeeper(t), ownedByKeeper(t)
	must(store.Migrate(t.Context(), from, ""))(t)
	sc := storetest.AddScene(t, storetest.Open(t, from))
	furnish(t, sc)
	var file bytes.Buffer
	manifest := must(store.Backup(t.Context(), from, &file))(t)
	want := allRows(t, from)
	restored := must(store.Restore(t.Context(), to, "", bytes.NewReader(file.Bytes()), int64(file.Len())))(t)
	if got := allRows(t, to); !slices.Equal(got, want) || restored.Rows() != manifest.Rows() || int(restored.Rows()) != len(want) {
		t.Errorf("%d rows came back of %d", len(got), len(want))
	}
	if open := names(t, connect(t, to), "select relname from pg_class where relnamespace = 'public'::regnamespace and relkind = 'r' and relrowsecurity and not relforcerowsecurity"); len(open) > 0 {
		t.Errorf("the walls are open in %v", open)
	}
	sc.Store = storetest.Open(t, to)
	sc.RecordBreaks(t, sc.StudentActor(1), 3)
	if _, err := store.Restore(t.Context(), to, "", bytes.NewReader(file.Bytes()), int64(file.Len())); !errors.Is(err, store.ErrNotEmpty) {
		t.Errorf("a second time, into a club: %v", err)
	}
}

// Under load every set in a backup has all the breaks that came before the last
// one in it, and as many as its revision counts.
func TestBackup_IsOneMoment(t *testing.T) {
	t.Parallel()
	from, to := storetest.NewDatabase(t), storetest.NewEmptyDatabase(t)
	sc := storetest.AddScene(t, storetest.Open(t, from))
	first := sc.RecordBreaks(t, sc.StudentActor(0), 1)
	done := make(chan struct{})
	var load sync.WaitGroup
	for i := range 3 {
		load.Go(func() {
			for {
				select {
				case <-done:
					return
				default:
					sc.RecordBreaks(t, sc.StudentActor(i), 10)
				}
			}
		})
	}
	var files []bytes.Buffer
	for range 3 {
		var file bytes.Buffer
		must(store.Backup(t.Context(), from, &file))(t)
		files = append(files, file)
	}
	close(done)
	load.Wait()
	last := files[len(files)-1]
	must(store.Restore(t.Context(), to, "", bytes.NewReader(last.Bytes()), int64(last.Len())))(t)
	ownerConn := connect(t, to)
	if torn := names(t, ownerConn, "select s.id::text from break_set s join break b on b.set_id = s.id group by s.id, s.revision having count(*) <> max(b.number) or count(*) <> s.revision"); len(torn) > 0 {
		t.Errorf("%d sets are torn", len(torn))
	}
	if there := names(t, ownerConn, fmt.Sprintf("select '' from break where set_id = '%s'", first)); len(there) != 1 {
		t.Errorf("what was there before is there %d times", len(there))
	}
}

// middleOf returns the place of a byte of a table in a backup.
func middleOf(t *testing.T, file []byte, table string) int64 {
	t.Helper()
	parts := must(zip.NewReader(bytes.NewReader(file), int64(len(file))))(t)
	for _, f := range parts.File {
		if f.Name == table {
			return must(f.DataOffset())(t) + int64(f.CompressedSize64)/2
		}
	}
	t.Fatalf("there is no table %s", table)
	return 0
}

// Half a file, one that was changed and one that is something else bring nothing
// back, and leave the database as empty as it was.
func TestRestore_RefusesWhatIsNotWhole(t *testing.T) {
	t.Parallel()
	from, to := storetest.NewDatabase(t), storetest.NewEmptyDatabase(t)
	furnish(t, storetest.AddScene(t, storetest.Open(t, from)))
	var file bytes.Buffer
	must(store.Backup(t.Context(), from, &file))(t)
	whole := file.Bytes()
	changed := bytes.Clone(whole)
	changed[middleOf(t, whole, "break")] ^= 1
	for name, bad := range map[string][]byte{
		"nothing": nil, "half a file": whole[:len(whole)/2], "all but the last byte": whole[:len(whole)-1],
		"a changed byte": changed, "a break log": []byte("student,set,number\n"),
	} {
		if _, err := store.Restore(t.Context(), to, "", bytes.NewReader(bad), int64(len(bad))); !errors.Is(err, store.ErrBackup) {
			t.Errorf("%s: %v", name, err)
		}
	}
	if made := names(t, connect(t, to), "select relname from pg_class where relnamespace = 'public'::regnamespace"); len(made) > 0 {
		t.Errorf("a refused file made %v", made)
	}
}
