package store

import (
	"archive/zip"
	"compress/flate"
	"context"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"time"

	"github.com/jackc/pgx/v5"
)

// A backup is a zip file: one part for each table, as PostgreSQL's COPY writes it,
// and last the manifest, which says what there must be. A file that was cut off
// has no end and no manifest.

// manifestName is the part that says what the others are.
const manifestName = "manifest.json"

// Manifest says what a backup holds.
type Manifest struct {
	// Program is what made it, Schema the version of the tables.
	Program string       `json:"program"`
	Schema  int64        `json:"schema"`
	Made    time.Time    `json:"made"`
	Tables  []BackupPart `json:"tables"` // in an order in which they can be filled
}

// BackupPart is a table in a backup.
type BackupPart struct {
	Table   string   `json:"table"`
	Columns []string `json:"columns"`
	Rows    int64    `json:"rows"`
	SHA256  string   `json:"sha256"`
}

// Rows is how many rows all tables have.
func (m Manifest) Rows() (total int64) {
	for _, part := range m.Tables {
		total += part.Rows
	}
	return total
}

const manifestProgram = "breakwright backup"

// ErrBackup: the file is no whole backup, or not of this program.
var ErrBackup = errors.New("this file is no whole backup")

// Backup writes all that the owner's database holds, as it was at one moment:
// whoever works meanwhile is neither seen nor stopped. The schema has to be this
// program's.
func Backup(ctx context.Context, ownerDSN string, to io.Writer) (Manifest, error) {
	m, err := writeBackup(ctx, ownerDSN, to)
	if err != nil {
		return Manifest{}, fmt.Errorf("back up: %w", err)
	}
	return m, nil
}

func writeBackup(ctx context.Context, ownerDSN string, to io.Writer) (m Manifest, err error) {
	owner, err := connectAsOwner(ctx, ownerDSN)
	if err != nil {
		return m, err
	}
	defer owner.Close(context.WithoutCancel(ctx))
	snapshot, err := owner.BeginTx(ctx, oneMoment)
	if err != nil {
		return m, err
	}
	defer rollBackQuietly(ctx, snapshot)
	m = Manifest{Program: manifestProgram, Made: time.Now().UTC().Truncate(time.Second)}
	if m.Schema, err = readSchemaVersion(ctx, snapshot); isCode(err, codeNoTable) {
		return m, newRefusal(ErrNotFound, "there is nothing in this database yet")
	}
	if err != nil {
		return m, err
	}
	if m.Schema != SchemaVersion() {
		return m, fmt.Errorf("%w: it is of version %d and this program of %d", ErrOlderSchema, m.Schema, SchemaVersion())
	}
	if m.Tables, err = listBackupParts(ctx, snapshot); err != nil {
		return m, err
	}
	file := zip.NewWriter(to)
	file.RegisterCompressor(zip.Deflate, func(w io.Writer) (io.WriteCloser, error) { return flate.NewWriter(w, flate.BestSpeed) })
	for i := range m.Tables {
		if err := m.Tables[i].write(ctx, snapshot, file); err != nil {
			return m, err
		}
	}
	if err := writeManifest(file, m); err != nil {
		return m, err
	}
	return m, file.Close()
}

// write copies the table into its part and notes what it was.
func (p *BackupPart) write(ctx context.Context, snapshot pgx.Tx, file *zip.Writer) error {
	part, err := file.Create(p.Table)
	if err != nil {
		return err
	}
	sum := sha256.New()
	tag, err := snapshot.Conn().PgConn().CopyTo(ctx, io.MultiWriter(part, sum), p.copyStatement("to stdout"))
	if err != nil {
		return fmt.Errorf("copy %s: %w", p.Table, err)
	}
	p.Rows, p.SHA256 = tag.RowsAffected(), hex.EncodeToString(sum.Sum(nil))
	return nil
}

// copyStatement is PostgreSQL's COPY of this table, one way or the other.
func (p *BackupPart) copyStatement(way string) string {
	return fmt.Sprintf("copy public.%s (%s) %s", pgx.Identifier{p.Table}.Sanitize(), listColumns("", p.Columns), way)
}

func writeManifest(file *zip.Writer, m Manifest) error {
	part, err := file.Create(manifestName)
	if err != nil {
		return err
	}
	return json.NewEncoder(part).Encode(m)
}

// NoteBackup writes down that a backup of so many bytes was made.
func NoteBackup(ctx context.Context, ownerDSN string, bytes int64) error {
	return asOwner(ctx, ownerDSN, "note the backup", func(owner *pgx.Conn) error {
		_, err := owner.Exec(ctx, "insert into keeper.backup_made (bytes) values ($1)", bytes)
		return err
	})
}

// rollBackQuietly ends a transaction of which nothing is wanted any more, or that
// was committed before.
func rollBackQuietly(ctx context.Context, t pgx.Tx) { _ = t.Rollback(context.WithoutCancel(ctx)) }

func readSchemaVersion(ctx context.Context, t pgx.Tx) (version int64, err error) {
	err = t.QueryRow(ctx, "select max(version_id) from goose_db_version where is_applied").Scan(&version)
	return version, err
}

// tablesInOrder lists our tables such that each comes after those it refers to;
// what refers to itself is filled in one statement, which PostgreSQL checks at its
// end.
const tablesInOrder = `with recursive t as (
	select c.oid, c.relname from pg_class c
	where c.relnamespace = 'public'::regnamespace and c.relkind = 'r' and c.relname <> 'goose_db_version'
), depth as (
	select t.oid, 0 as level from t
	union
	select k.conrelid, d.level + 1 from depth d join pg_constraint k on k.confrelid = d.oid and k.contype = 'f' and k.conrelid <> k.confrelid
	where d.level < 50
)
select t.relname::text, array(select a.attname::text from pg_attribute a
	where a.attrelid = t.oid and a.attnum > 0 and not a.attisdropped and a.attgenerated = '' order by a.attnum)
from t join depth d on d.oid = t.oid group by t.oid, t.relname order by max(d.level), t.relname`

func listBackupParts(ctx context.Context, t pgx.Tx) ([]BackupPart, error) {
	rows, err := t.Query(ctx, tablesInOrder)
	if err != nil {
		return nil, err
	}
	return pgx.CollectRows(rows, func(row pgx.CollectableRow) (p BackupPart, err error) {
		err = row.Scan(&p.Table, &p.Columns)
		return p, err
	})
}
