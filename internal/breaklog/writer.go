package breaklog

import (
	"bufio"
	"fmt"
	"io"
	"strings"

	"breakwright/internal/drill"
)

// Writer writes a break log a piece at a time, so that a whole club's need not
// be held in memory. What Write says of sets holds for each piece.
type Writer struct {
	out           *bufio.Writer
	writtenSets   map[setKey]bool
	headerWritten bool
	row           []byte
}

// NewWriter makes a writer; Close ends the log.
func NewWriter(to io.Writer) *Writer {
	return &Writer{out: bufio.NewWriterSize(to, 64<<10), writtenSets: map[setKey]bool{}}
}

// Write writes sets. Those that could not be read back are refused before
// anything of the piece is written.
func (w *Writer) Write(sets []drill.Set) error {
	for _, set := range sets {
		if err := checkSet(set, w.writtenSets); err != nil {
			return fmt.Errorf("write break log: set %q of %q: %w", set.Name, set.Student, err)
		}
	}
	w.writeHeader()
	for _, set := range sets {
		shared := writeSharedCells(set)
		for _, b := range set.Breaks {
			w.row = endRow(appendBreak(w.row[:0], set, shared, b))
			if _, err := w.out.Write(w.row); err != nil {
				return fmt.Errorf("write break log: %w", err)
			}
		}
	}
	return nil
}

// writeHeader writes the header, once. A buffered writer remembers its first error,
// so what comes after it will tell.
func (w *Writer) writeHeader() {
	if !w.headerWritten {
		w.headerWritten = true
		_, _ = w.out.WriteString(strings.Join(columnNames[:], ",") + lineEnd)
	}
}

// Close ends the log; one without sets is its header alone. What is written to
// stays open.
func (w *Writer) Close() error {
	w.writeHeader()
	if err := w.out.Flush(); err != nil {
		return fmt.Errorf("write break log: %w", err)
	}
	return nil
}
