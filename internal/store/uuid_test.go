package store

import (
	"bytes"
	"testing"

	"github.com/google/uuid"
	"github.com/jackc/pgx/v5/pgtype"
)

// The codec writes and reads what pgx itself does, in both formats: alone,
// optional and in lists.
func TestUUIDs_AreCarriedAsPgxCarriesThem(t *testing.T) {
	ours, theirs := pgtype.NewMap(), pgtype.NewMap()
	registerUUIDs(ours)
	one, other := uuid.MustParse("0198c5a2-0000-7000-8000-00000000beef"), uuid.Nil
	for _, format := range []int16{pgtype.BinaryFormatCode, pgtype.TextFormatCode} {
		for _, c := range []struct {
			oid   uint32
			value any
			empty any
		}{
			{pgtype.UUIDOID, one, new(uuid.UUID)},
			{pgtype.UUIDOID, &one, new(*uuid.UUID)},
			{pgtype.UUIDArrayOID, []uuid.UUID{one, other, one}, new([]uuid.UUID)},
			{pgtype.UUIDArrayOID, []uuid.UUID{}, new([]uuid.UUID)},
		} {
			got, err := ours.Encode(c.oid, format, c.value, nil)
			if err != nil {
				t.Fatal(err)
			}
			want, err := theirs.Encode(c.oid, format, c.value, nil)
			if err != nil || !bytes.Equal(got, want) {
				t.Errorf("%v is written %x, pgx writes %x (%v)", c.value, got, want, err)
			}
			if err := ours.Scan(c.oid, format, got, c.empty); err != nil {
				t.Fatalf("read %v: %v", c.value, err)
			}
			again, err := ours.Encode(c.oid, format, c.empty, nil)
			if err != nil || !bytes.Equal(again, got) {
				t.Errorf("%v comes back as %x (%v), not %x", c.value, again, err, got)
			}
		}
	}
}

// An optional one that is null is nil.
func TestUUIDs_NullIsNone(t *testing.T) {
	m := pgtype.NewMap()
	registerUUIDs(m)
	was := uuid.UUID{1}
	to := &was
	if err := m.Scan(pgtype.UUIDOID, pgtype.BinaryFormatCode, nil, &to); err != nil || to != nil {
		t.Errorf("null is read as %v (%v)", to, err)
	}
}

// What is no UUID is refused, null too where a column must have one.
func TestUUIDs_RefuseOtherBytes(t *testing.T) {
	m := pgtype.NewMap()
	registerUUIDs(m)
	for _, src := range [][]byte{nil, {}, make([]byte, 15), make([]byte, 17)} {
		to := uuid.UUID{1}
		if err := m.Scan(pgtype.UUIDOID, pgtype.BinaryFormatCode, src, &to); err == nil {
			t.Errorf("%x is read as %v", src, to)
		}
	}
}
