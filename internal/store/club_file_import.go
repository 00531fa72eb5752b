package store

import (
	"archive/zip"
	"bufio"
	"context"
	"errors"
	"fmt"
	"io"
	"slices"

	"github.com/jackc/pgx/v5"
	"github.com/jackc/pgx/v5/pgconn"
)

// ErrClubThere: the club of a file is in the database already.
var ErrClubThere = errors.New("this club is in the database already")

// ImportClub brings a club back into the owner's database, beside the clubs that
// are there and while they are at work: the whole file is read and compared first,
// then all rows come in, in one transaction. Coaches and students have no secrets
// then. Errors to test for: [ErrClubFile], [ErrClubThere], [ErrConflict] where a
// coach signs in as somebody of another club does, and those of [Migrate], which
// is to have been called.
func ImportClub(ctx context.Context, ownerDSN string, file io.ReaderAt, size int64) (ClubFile, error) {
	c, err := importClub(ctx, ownerDSN, file, size)
	if err != nil {
		return ClubFile{}, fmt.Errorf("import the club: %w", err)
	}
	return c, nil
}

func importClub(ctx context.Context, ownerDSN string, file io.ReaderAt, size int64) (c ClubFile, err error) {
	parts, c, err := openClubFile(file, size)
	if err != nil {
		return c, err
	}
	owner, err := connectAsOwner(ctx, ownerDSN)
	if err != nil {
		return c, err
	}
	defer owner.Close(context.WithoutCancel(ctx))
	filling, err := owner.Begin(ctx)
	if err != nil {
		return c, err
	}
	defer rollBackQuietly(ctx, filling)
	if err := requireThisSchema(ctx, filling); err != nil {
		return c, err
	}
	if err := insertClub(ctx, filling, parts, c); err != nil {
		return c, err
	}
	return c, filling.Commit(ctx)
}

func insertClub(ctx context.Context, filling pgx.Tx, parts *zip.Reader, c ClubFile) error {
	all, err := listBackupParts(ctx, filling)
	if err != nil {
		return err
	}
	known := clubFileTables(all)
	if err := checkKnownParts(c.Tables, known); err != nil {
		return err
	}
	// The link of a start without a club, which the file's club takes the place of.
	for _, statement := range []string{
		"set local time zone 'UTC'", "create temporary table incoming (line text) on commit drop",
		"delete from first_run where expires_at is null",
	} {
		if _, err := filling.Exec(ctx, statement); err != nil {
			return err
		}
	}
	for _, table := range known { // in an order in which they can be filled now
		i := slices.IndexFunc(c.Tables, func(p BackupPart) bool { return p.Table == table.Table })
		if i < 0 {
			continue // newer than the file
		}
		if err := c.insertRows(ctx, filling, parts, c.Tables[i]); err != nil {
			return fmt.Errorf("bring back %s: %w", table.Table, explainRefusedRows(err))
		}
	}
	return nil
}

// checkKnownParts refuses what has no place in the database.
func checkKnownParts(parts, known []BackupPart) error {
	if len(parts) == 0 || !slices.ContainsFunc(parts, func(p BackupPart) bool { return p.Table == "club" && p.Rows == 1 }) {
		return fmt.Errorf("%w: it holds no club", ErrClubFile)
	}
	seen := map[string]bool{}
	for _, part := range parts {
		i := slices.IndexFunc(known, func(k BackupPart) bool { return k.Table == part.Table })
		if i < 0 || seen[part.Table] {
			return fmt.Errorf("%w: %q is no table of a club, or is there twice", ErrClubFile, part.Table)
		}
		seen[part.Table] = true
		for _, column := range part.Columns {
			if !slices.Contains(known[i].Columns, column) {
				return fmt.Errorf("%w: %q is no column of %s", ErrClubFile, column, part.Table)
			}
		}
		if !slices.Contains(part.Columns, part.clubColumn()) {
			return fmt.Errorf("%w: the rows of %s do not say whose they are", ErrClubFile, part.Table)
		}
	}
	return nil
}

// insertRows brings a table's rows in. All go in by one statement, so that they may
// refer to one another; a row of another club stays out and is missed.
func (c ClubFile) insertRows(ctx context.Context, filling pgx.Tx, parts *zip.Reader, p BackupPart) error {
	part, err := parts.Open(p.Table + clubFilePart)
	if err != nil {
		return fmt.Errorf("%w: %w", ErrClubFile, err)
	}
	defer part.Close()
	if _, err := filling.Exec(ctx, "truncate incoming"); err != nil {
		return err
	}
	lines := bufio.NewScanner(part)
	lines.Buffer(nil, longestRow)
	_, err = filling.CopyFrom(ctx, pgx.Identifier{"incoming"}, []string{"line"}, pgx.CopyFromFunc(func() ([]any, error) {
		if !lines.Scan() {
			return nil, lines.Err()
		}
		return []any{lines.Text()}, nil
	}))
	if err := lines.Err(); err != nil {
		return err // of which the database says only that the copy was given up
	}
	if err != nil {
		return err
	}
	name := "public." + pgx.Identifier{p.Table}.Sanitize()
	tag, err := filling.Exec(ctx, fmt.Sprintf("insert into %s (%s) select %s from incoming i, "+
		"json_populate_record(null::%s, i.line::json) r where r.%s = $1",
		name, listColumns("", p.Columns), listColumns("r.", p.Columns), name, p.clubColumn()), c.Club)
	if err != nil {
		return err
	}
	if tag.RowsAffected() != p.Rows {
		return fmt.Errorf("%w: %d rows of %d are this club’s", ErrClubFile, tag.RowsAffected(), p.Rows)
	}
	return nil
}

// longestRow is far more than a row can have: advice takes some thousand bytes.
const longestRow = 8 << 20

// explainRefusedRows returns what the database says of rows its kind.
func explainRefusedRows(err error) error {
	var answered *pgconn.PgError
	switch {
	case !errors.As(err, &answered):
		if errors.Is(err, bufio.ErrTooLong) {
			return fmt.Errorf("%w: a row is too long", ErrClubFile)
		}
		return err
	case answered.ConstraintName == "club_pkey":
		return ErrClubThere
	case answered.ConstraintName == "person_login":
		return newRefusal(ErrConflict, "somebody of another club signs in as a coach of this one does (%s): give one of them another name to sign in with", answered.Detail)
	case answered.Code[:2] == "22" || answered.Code[:2] == "23": // data, or constraints
		return fmt.Errorf("%w: %s", ErrClubFile, answered.Message)
	}
	return err
}
