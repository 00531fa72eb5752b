package store

import (
	"archive/zip"
	"context"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"slices"

	"github.com/jackc/pgx/v5"
	"github.com/jackc/pgx/v5/stdlib"
)

// ErrNotEmpty: there is something in the database that a restore would mix with.
var ErrNotEmpty = errors.New("the database is not empty: a backup is brought back into an empty one only")

// ReadManifest reads a whole backup, compares every part with what the manifest
// says of it, and returns that: [ErrBackup] when anything is missing or changed.
func ReadManifest(file io.ReaderAt, size int64) (Manifest, error) {
	_, m, err := openWholeBackup(file, size)
	return m, err
}

func openWholeBackup(file io.ReaderAt, size int64) (*zip.Reader, Manifest, error) {
	parts, m, err := openBackup(file, size)
	if err != nil {
		return nil, Manifest{}, err
	}
	for _, table := range m.Tables {
		if err := table.checkSum(parts, table.Table); err != nil {
			return nil, Manifest{}, fmt.Errorf("%w: %w", ErrBackup, err)
		}
	}
	return parts, m, nil
}

func openBackup(file io.ReaderAt, size int64) (*zip.Reader, Manifest, error) {
	parts, err := zip.NewReader(file, size)
	if err != nil {
		return nil, Manifest{}, fmt.Errorf("%w: %w", ErrBackup, err)
	}
	text, err := parts.Open(manifestName)
	if err != nil {
		return nil, Manifest{}, fmt.Errorf("%w: it has no %s", ErrBackup, manifestName)
	}
	defer text.Close()
	var m Manifest
	if err := json.NewDecoder(text).Decode(&m); err != nil || m.Program != manifestProgram {
		return nil, Manifest{}, fmt.Errorf("%w: its %s is not one of this program (%v)", ErrBackup, manifestName, err)
	}
	return parts, m, nil
}

// checkSum compares the part of that name with its sum.
func (p *BackupPart) checkSum(parts *zip.Reader, name string) error {
	part, err := parts.Open(name)
	if err != nil {
		return fmt.Errorf("the table %s is missing", p.Table)
	}
	defer part.Close()
	sum := sha256.New()
	if _, err := io.Copy(sum, part); err != nil || hex.EncodeToString(sum.Sum(nil)) != p.SHA256 {
		return fmt.Errorf("the table %s is not as it was written (%v)", p.Table, err)
	}
	return nil
}

// Restore brings a backup back into the owner's database, which has to be empty:
// the whole file is read and compared first, then the tables are made as they were
// when it was written, filled in one transaction, and brought up to date. Errors
// to test for: [ErrBackup], [ErrNotEmpty], [ErrNewerSchema], and those of
// [Migrate].
func Restore(ctx context.Context, ownerDSN, secret string, file io.ReaderAt, size int64) (Manifest, error) {
	m, err := restoreBackup(ctx, ownerDSN, secret, file, size)
	if err != nil {
		return Manifest{}, fmt.Errorf("restore: %w", err)
	}
	return m, nil
}

func restoreBackup(ctx context.Context, ownerDSN, secret string, file io.ReaderAt, size int64) (Manifest, error) {
	parts, m, err := openWholeBackup(file, size)
	if err != nil {
		return m, err
	}
	if m.Schema > SchemaVersion() {
		return m, ErrNewerSchema
	}
	owner, err := connectAsOwner(ctx, ownerDSN)
	if err != nil {
		return m, err
	}
	defer owner.Close(context.WithoutCancel(ctx))
	if err := makeTablesOf(ctx, owner, ownerDSN, secret, m.Schema); err != nil {
		return m, err
	}
	filling, err := owner.Begin(ctx)
	if err != nil {
		return m, err
	}
	defer rollBackQuietly(ctx, filling)
	if err := fillTables(ctx, filling, parts, m); err != nil {
		return m, err
	}
	if err := filling.Commit(ctx); err != nil {
		return m, err
	}
	_, err = Migrate(ctx, ownerDSN, secret)
	return m, err
}

// makeTablesOf brings an empty database to a version of the schema. One whose
// tables are newer already is brought back to it, which loses nothing.
func makeTablesOf(ctx context.Context, owner *pgx.Conn, ownerDSN, secret string, version int64) error {
	if err := ensureRole(ctx, owner, ownerDSN, secret); err != nil {
		return err
	}
	db := stdlib.OpenDB(*owner.Config())
	defer db.Close()
	provider, err := newProvider(db)
	if err != nil {
		return err
	}
	have, err := provider.GetDBVersion(ctx)
	if err != nil {
		return err
	}
	if have > newestVersion(provider) {
		return ErrNewerSchema
	}
	if have > 0 {
		if err := requireEmpty(ctx, owner); err != nil {
			return err
		}
	}
	if have > version {
		_, err = provider.DownTo(ctx, version)
		return err
	}
	_, err = provider.UpTo(ctx, version)
	return err
}

// requireEmpty refuses a database that holds a club.
func requireEmpty(ctx context.Context, owner *pgx.Conn) error {
	var holds bool
	if err := owner.QueryRow(ctx, "select exists (select from club)").Scan(&holds); err != nil {
		return err
	}
	if holds {
		return ErrNotEmpty
	}
	return nil
}

// fillTables copies every part into its table. Copying in is not possible behind
// row security that holds the owner too, so that is taken away meanwhile.
func fillTables(ctx context.Context, filling pgx.Tx, parts *zip.Reader, m Manifest) error {
	known, err := listBackupParts(ctx, filling)
	if err != nil {
		return err
	}
	// A table with checks that wait for the end could not be shut again.
	if _, err := filling.Exec(ctx, "set constraints all immediate"); err != nil {
		return err
	}
	for _, part := range m.Tables {
		if !slices.ContainsFunc(known, func(k BackupPart) bool { return k.Table == part.Table }) {
			return fmt.Errorf("%w: there is no table %s", ErrBackup, part.Table)
		}
		if err := part.fill(ctx, filling, parts); err != nil {
			return fmt.Errorf("fill %s: %w", part.Table, err)
		}
	}
	return nil
}

func (p *BackupPart) fill(ctx context.Context, filling pgx.Tx, parts *zip.Reader) error {
	table := "public." + pgx.Identifier{p.Table}.Sanitize()
	if _, err := filling.Exec(ctx, "alter table "+table+" no force row level security"); err != nil {
		return err
	}
	if _, err := filling.Exec(ctx, "delete from "+table); err != nil { // links of a start without a club
		return err
	}
	part, err := parts.Open(p.Table)
	if err != nil {
		return err
	}
	defer part.Close()
	tag, err := filling.Conn().PgConn().CopyFrom(ctx, part, p.copyStatement("from stdin"))
	if err != nil {
		return err
	}
	if tag.RowsAffected() != p.Rows {
		return fmt.Errorf("%w: %d rows of %d", ErrBackup, tag.RowsAffected(), p.Rows)
	}
	_, err = filling.Exec(ctx, "alter table "+table+" force row level security")
	return err
}
