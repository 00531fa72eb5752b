package store

import (
	"archive/zip"
	"bufio"
	"context"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"fmt"
	"io"
	"strings"
	"time"

	"github.com/google/uuid"
	"github.com/jackc/pgx/v5"

	"breakwright/internal/store/internal/query"
)

var oneMoment = pgx.TxOptions{IsoLevel: pgx.RepeatableRead, AccessMode: pgx.ReadOnly}

// WriteClubFile writes all that the actor's club recorded, as it was at one
// moment. Of coaches' private notes it holds the actor's own. Coaches only.
func (s *Store) WriteClubFile(ctx context.Context, v Actor, to io.Writer) (ClubFile, error) {
	c, err := s.writeClubFile(ctx, v, to)
	return c, wrapError("write the club's file", err)
}

func (s *Store) writeClubFile(ctx context.Context, v Actor, to io.Writer) (ClubFile, error) {
	if err := v.requireCoach(); err != nil {
		return ClubFile{}, err
	}
	conn, err := s.acquire(ctx)
	if err != nil {
		return ClubFile{}, err
	}
	defer conn.Release()
	snapshot, err := conn.BeginTx(ctx, oneMoment)
	if err != nil {
		return ClubFile{}, lostConnectionError(conn, err)
	}
	defer rollBackQuietly(ctx, snapshot)
	if _, err := snapshot.Exec(ctx, query.SetActor, v.Club.String(), v.Person.String(), string(v.Role)); err != nil {
		return ClubFile{}, lostConnectionError(conn, err)
	}
	c, err := writeClubOf(ctx, snapshot, v.Club.UUID, to)
	return c, lostConnectionError(conn, err)
}

// ExportClub writes all that a club of the owner's database recorded, as it was at
// one moment. The club is found by its name, which may be "" where there is one
// club: [ErrNotFound] with the names there are.
func ExportClub(ctx context.Context, ownerDSN, club string, to io.Writer) (ClubFile, error) {
	c, err := exportClub(ctx, ownerDSN, club, to)
	if err != nil {
		return ClubFile{}, fmt.Errorf("export the club: %w", err)
	}
	return c, nil
}

func exportClub(ctx context.Context, ownerDSN, club string, to io.Writer) (ClubFile, error) {
	owner, err := connectAsOwner(ctx, ownerDSN)
	if err != nil {
		return ClubFile{}, err
	}
	defer owner.Close(context.WithoutCancel(ctx))
	snapshot, err := owner.BeginTx(ctx, oneMoment)
	if err != nil {
		return ClubFile{}, err
	}
	defer rollBackQuietly(ctx, snapshot)
	if err := requireThisSchema(ctx, snapshot); err != nil {
		return ClubFile{}, err
	}
	id, err := findClubByName(ctx, snapshot, club)
	if err != nil {
		return ClubFile{}, err
	}
	return writeClubOf(ctx, snapshot, id, to)
}

// requireThisSchema refuses a database whose tables are not this program's.
func requireThisSchema(ctx context.Context, t pgx.Tx) error {
	version, err := readSchemaVersion(ctx, t)
	switch {
	case isCode(err, codeNoTable):
		return newRefusal(ErrNotFound, "there is no club in this database yet")
	case err == nil && version < SchemaVersion():
		return ErrOlderSchema
	case err == nil && version > SchemaVersion():
		return ErrNewerSchema
	}
	return err
}

// codeNoTable: there is no such table.
const codeNoTable = "42P01"

func findClubByName(ctx context.Context, t pgx.Tx, name string) (uuid.UUID, error) {
	rows, err := t.Query(ctx, "select id, name from club order by name")
	if err != nil {
		return uuid.Nil, err
	}
	var found []uuid.UUID
	var names []string
	var id uuid.UUID
	var is string
	_, err = pgx.ForEachRow(rows, []any{&id, &is}, func() error {
		names = append(names, is)
		if name == "" || is == name {
			found = append(found, id)
		}
		return nil
	})
	switch {
	case err != nil:
		return uuid.Nil, err
	case len(names) == 0:
		return uuid.Nil, newRefusal(ErrNotFound, "there is no club in this database yet")
	case len(found) != 1:
		return uuid.Nil, newRefusal(ErrNotFound, "which club? There are: %s", strings.Join(names, ", "))
	}
	return found[0], nil
}

// writeClubOf writes one club's file.
func writeClubOf(ctx context.Context, snapshot pgx.Tx, club uuid.UUID, to io.Writer) (c ClubFile, err error) {
	c = ClubFile{Program: clubFileProgram, Version: ClubFileVersion, Schema: SchemaVersion(), Made: time.Now().UTC().Truncate(time.Second), Club: club}
	if _, err := snapshot.Exec(ctx, "select set_config('timezone', 'UTC', true), set_config('statement_timeout', '5min', true)"); err != nil {
		return c, err
	}
	if err := snapshot.QueryRow(ctx, "select name from club where id = $1", club).Scan(&c.Name); err != nil {
		return c, err
	}
	all, err := listBackupParts(ctx, snapshot)
	if err != nil {
		return c, err
	}
	file := zip.NewWriter(to)
	if err := writeTextPart(file, clubFileAbout, aboutClubFile); err != nil {
		return c, err
	}
	c.Tables = clubFileTables(all)
	for i := range c.Tables {
		if err := c.Tables[i].writeRows(ctx, snapshot, club, file); err != nil {
			return c, fmt.Errorf("write %s: %w", c.Tables[i].Table, err)
		}
	}
	contents, err := json.MarshalIndent(c, "", "  ")
	if err != nil {
		return c, err
	}
	if err := writeTextPart(file, clubFileContents, string(contents)+"\n"); err != nil {
		return c, err
	}
	return c, file.Close()
}

func writeTextPart(file *zip.Writer, name, text string) error {
	part, err := file.Create(name)
	if err != nil {
		return err
	}
	_, err = io.WriteString(part, text)
	return err
}

// writeRows writes the club's rows of a table, each on a line, and notes what they
// were.
func (p *BackupPart) writeRows(ctx context.Context, snapshot pgx.Tx, club uuid.UUID, file *zip.Writer) error {
	part, err := file.Create(p.Table + clubFilePart)
	if err != nil {
		return err
	}
	sum := sha256.New()
	lines := bufio.NewWriter(io.MultiWriter(part, sum))
	rows, err := snapshot.Query(ctx, fmt.Sprintf("select row_to_json(r)::text from (select %s from public.%s where %s = $1) r",
		listColumns("", p.Columns), pgx.Identifier{p.Table}.Sanitize(), p.clubColumn()), club)
	if err != nil {
		return err
	}
	var line string
	tag, err := pgx.ForEachRow(rows, []any{&line}, func() error {
		_, err := lines.WriteString(line + "\n")
		return err
	})
	if err != nil {
		return err
	}
	p.Rows = tag.RowsAffected()
	if err := lines.Flush(); err != nil {
		return err
	}
	p.SHA256 = hex.EncodeToString(sum.Sum(nil))
	return nil
}

// listColumns writes columns for a statement, of a table's short name or of none.
func listColumns(of string, columns []string) string {
	quoted := make([]string, len(columns))
	for i, name := range columns {
		quoted[i] = of + pgx.Identifier{name}.Sanitize()
	}
	return strings.Join(quoted, ", ")
}
