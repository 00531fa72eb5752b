//go:build !quick

package store_test

import (
	"bytes"
	"testing"

	"breakwright/internal/store"
	"breakwright/internal/store/storetest"
)

// A club whose file is larger than the 20 MB that a page takes of a break log comes back from
// it whole.
func TestClubFile_LargerThanAnUpload(t *testing.T) {
	t.Parallel()
	from, to := storetest.NewDatabase(t), storetest.NewDatabase(t)
	sc := storetest.AddScene(t, storetest.Open(t, from))
	set := sc.RecordBreaks(t, sc.StudentActor(0), 1)
	if err := sc.Store.PostMessage(t.Context(), sc.Coach, store.MessageID{}, set, "Begin."); err != nil {
		t.Fatal(err)
	}
	if _, err := connect(t, from).Exec(t.Context(), `
		insert into message (club_id, id, set_id, student_id, author_id, body)
		select m.club_id, gen_random_uuid(), m.set_id, m.student_id, m.author_id, (select string_agg(encode(decode(md5(g || ' ' || i), 'hex'), 'base64'), '') from generate_series(1, 80) i)
		from message m cross join generate_series(1, 15000) g`); err != nil {
		t.Fatal(err)
	}
	var file bytes.Buffer
	written := must(store.ExportClub(t.Context(), from, "", &file))(t)
	if file.Len() <= 20<<20 {
		t.Fatalf("the file has %d bytes: no test", file.Len())
	}
	must(store.ImportClub(t.Context(), to, bytes.NewReader(file.Bytes()), int64(file.Len())))(t)
	if got, want := len(clubRows(t, to, written)), int(written.Rows()); got != want {
		t.Errorf("%d rows came back of %d", got, want)
	}
}
