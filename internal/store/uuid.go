package store

import (
	"context"
	"fmt"

	"github.com/google/uuid"
	"github.com/jackc/pgx/v5"
	"github.com/jackc/pgx/v5/pgtype"
)

// uuidCodec carries UUIDs as their sixteen bytes. pgx alone would write each as
// text and parse that again, since it takes a uuid.UUID for any driver's value;
// a class page reads some seven thousand. What it does not know is left to pgx.
type uuidCodec struct{ pgtype.UUIDCodec }

// PlanScan reads into a uuid.UUID. An optional one is pgx's to unwrap.
func (c uuidCodec) PlanScan(m *pgtype.Map, oid uint32, format int16, target any) pgtype.ScanPlan {
	if _, ok := target.(*uuid.UUID); ok && format == pgtype.BinaryFormatCode {
		return scanUUID{}
	}
	return c.UUIDCodec.PlanScan(m, oid, format, target)
}

// PlanEncode writes a uuid.UUID.
func (c uuidCodec) PlanEncode(m *pgtype.Map, oid uint32, format int16, value any) pgtype.EncodePlan {
	if _, ok := value.(uuid.UUID); ok && format == pgtype.BinaryFormatCode {
		return encodeUUID{}
	}
	return c.UUIDCodec.PlanEncode(m, oid, format, value)
}

type scanUUID struct{}

func (scanUUID) Scan(src []byte, target any) error {
	to := target.(*uuid.UUID)
	if len(src) != len(to) { // null, too: an optional column has a pointer
		return fmt.Errorf("read a UUID: %d bytes, not %d", len(src), len(to))
	}
	copy(to[:], src)
	return nil
}

type encodeUUID struct{}

func (encodeUUID) Encode(value any, buf []byte) ([]byte, error) {
	u := value.(uuid.UUID)
	return append(buf, u[:]...), nil
}

// configureUUIDs is done on each new connection.
func configureUUIDs(_ context.Context, conn *pgx.Conn) error {
	registerUUIDs(conn.TypeMap())
	return nil
}

func registerUUIDs(m *pgtype.Map) {
	one := &pgtype.Type{Name: "uuid", OID: pgtype.UUIDOID, Codec: uuidCodec{}}
	m.RegisterType(one)
	m.RegisterType(&pgtype.Type{Name: "_uuid", OID: pgtype.UUIDArrayOID, Codec: &pgtype.ArrayCodec{ElementType: one}})
}
