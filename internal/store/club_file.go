package store

import (
	"archive/zip"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"slices"
	"time"

	"github.com/google/uuid"
)

// A club file is all that one club recorded, to be taken away and brought back
// elsewhere: a zip file with one part for each table, a JSON object with the
// table's columns on each line, an explanation, and last the contents, which say
// what there must be. Times are UTC, lengths inches, speeds mph. In contrast to a
// backup it holds one club, no secret and nothing of how people sign in.

// ClubFileVersion is the version of the format that is written. It goes up when
// a table or a column means something else than before; a table or column more
// does not change it. Older ones are read.
const ClubFileVersion = 1

const (
	clubFileProgram  = "breakwright club"
	clubFileContents = "contents.json"
	clubFileAbout    = "read me.txt"
	clubFilePart     = ".jsonl" // after the table's name
)

// ErrClubFile: the file is no whole club file, or what is in it cannot be.
var ErrClubFile = errors.New("this is no whole club file")

// ClubFile says what a club file holds.
type ClubFile struct {
	Program string `json:"program"`
	// Version is that of the format, Schema that of the tables.
	Version int       `json:"version"`
	Schema  int64     `json:"schema"`
	Made    time.Time `json:"made"`
	Club    uuid.UUID `json:"club"`
	Name    string    `json:"name"`
	// Tables are in an order in which they can be filled.
	Tables []BackupPart `json:"tables"`
}

// Rows is how many rows all tables have.
func (c ClubFile) Rows() int64 { return Manifest{Tables: c.Tables}.Rows() }

// RowsOf is how many rows a table has; 0 for one that is not in the file.
func (c ClubFile) RowsOf(table string) int64 {
	for _, part := range c.Tables {
		if part.Table == table {
			return part.Rows
		}
	}
	return 0
}

// LeftOutOfClubFile are the tables of a club that its file does not hold: how
// people sign in, who looked at what, and work that is under way.
func LeftOutOfClubFile() []string {
	return []string{
		"session", "known_device", "sign_in_guard", "second_step", "recovery_code", "coach_invite",
		"audit_line", "job",
	}
}

// secretColumns are the columns of people that open something.
var secretColumns = []string{"secret_hash", "code", "code_made_at"}

// clubFileTables keeps what belongs into a club file.
func clubFileTables(all []BackupPart) []BackupPart {
	var kept []BackupPart
	for _, part := range all {
		if part.Table != "club" && !slices.Contains(part.Columns, "club_id") || slices.Contains(LeftOutOfClubFile(), part.Table) {
			continue
		}
		if part.Table == "person" {
			part.Columns = slices.DeleteFunc(part.Columns, func(c string) bool { return slices.Contains(secretColumns, c) })
		}
		kept = append(kept, part)
	}
	return kept
}

// clubColumn is the column that says whose a row is.
func (p *BackupPart) clubColumn() string {
	if p.Table == "club" {
		return "id"
	}
	return "club_id"
}

const aboutClubFile = `This is all that one club recorded with Breakwright: its people and classes,
tables, setups, drills, assignments, sets, breaks, advice, changes with what was
decided, notes, questions and answers.

contents.json  what is in the file: the version of this format, each table with
               its columns, how many rows it has, and the SHA-256 of its part
TABLE.jsonl    a table: each line is a row, a JSON object with these columns

Times are UTC, lengths inches, speeds miles an hour. A break's places are inches
from the cushions' noses: x to the right as seen from the head end, y from the head
rail. Ids are UUIDs; a column that ends in _id names a row of another table.

Passphrases, PINs and join codes are not in it. Bring it back with
"breakwright import FILE"; then "breakwright coach LOGIN" gives a coach a new
passphrase, and a student joins again with a new code.

It holds people's names: keep it as you keep the club's papers.
`

// ReadClubFile reads a whole club file, compares every part with what the
// contents say of it, and returns those: [ErrClubFile] when anything is missing or
// changed.
func ReadClubFile(file io.ReaderAt, size int64) (ClubFile, error) {
	_, c, err := openClubFile(file, size)
	return c, err
}

func openClubFile(file io.ReaderAt, size int64) (*zip.Reader, ClubFile, error) {
	parts, err := zip.NewReader(file, size)
	if err != nil {
		return nil, ClubFile{}, fmt.Errorf("%w: %w", ErrClubFile, err)
	}
	c, err := readClubFileContents(parts)
	if err != nil {
		return nil, ClubFile{}, err
	}
	for _, table := range c.Tables {
		if err := table.checkSum(parts, table.Table+clubFilePart); err != nil {
			return nil, ClubFile{}, fmt.Errorf("%w: %w", ErrClubFile, err)
		}
	}
	return parts, c, nil
}

// longestContents bounds the list of a file's tables, in bytes; ours has some 10 KB.
const longestContents = 1 << 20

func readClubFileContents(parts *zip.Reader) (c ClubFile, err error) {
	text, err := parts.Open(clubFileContents)
	if err != nil {
		return c, fmt.Errorf("%w: it has no %s", ErrClubFile, clubFileContents)
	}
	defer text.Close()
	switch err := json.NewDecoder(io.LimitReader(text, longestContents)).Decode(&c); {
	case err != nil || c.Program != clubFileProgram:
		return c, fmt.Errorf("%w: its %s is not one of this program (%v)", ErrClubFile, clubFileContents, err)
	case c.Version > ClubFileVersion, c.Schema > SchemaVersion():
		return c, fmt.Errorf("%w: it was written by a newer version of this program; install that one", ErrClubFile)
	case c.Version < 1 || c.Club == uuid.Nil:
		return c, fmt.Errorf("%w: its %s names no version or no club", ErrClubFile, clubFileContents)
	}
	return c, nil
}
