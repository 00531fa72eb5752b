package breaklog

import (
	"errors"
	"fmt"
	"io"
)

// longestRow is how long a row may be, in bytes, with its note: the longest that
// this package writes is under 16 KB.
const longestRow = 64 << 10

var errLongRow = errors.New("a row is too long")

var longRow = fmt.Sprintf("this row is longer than %d KB, so this is no break log; the rest was not read", longestRow>>10)

// boundedRows passes a file on and stops at a row that is too long, before it has
// become a million cells in memory. Line ends inside quote marks belong to the row.
type boundedRows struct {
	file   io.Reader
	length int
	rows   int // before this one
	quoted bool
}

func (b *boundedRows) Read(into []byte) (int, error) {
	n, err := b.file.Read(into)
	for i, letter := range into[:n] {
		switch {
		case letter == '"':
			b.quoted = !b.quoted
		case letter == '\n' && !b.quoted:
			b.length = 0
			b.rows++
		}
		if b.length++; b.length > longestRow {
			return i, errLongRow
		}
	}
	return n, err
}
