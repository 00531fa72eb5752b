package breaklog

import (
	"errors"
	"fmt"
	"io"
	"strings"
	"unicode/utf8"

	"breakwright/internal/drill"
	"breakwright/internal/table"
)

// Write writes sets as a break log, all columns in the usual order, rows in the
// order given, lines ended as RFC 4180 has it. Reading it gives the same sets,
// each student's together, but for the setup's speed and sets without breaks;
// the package comment says why. Sets that could not be read back are refused
// before anything is written.
func Write(to io.Writer, sets []drill.Set) error {
	w := NewWriter(to)
	if err := w.Write(sets); err != nil {
		return err
	}
	return w.Close()
}

func checkSet(set drill.Set, seen map[setKey]bool) error {
	key := setKey{strings.TrimSpace(set.Student), strings.TrimSpace(set.Name)}
	if seen[key] {
		return errors.New("the student has two sets of this name")
	}
	seen[key] = true
	if says := drill.CheckName(set.Student); says != "" {
		return fmt.Errorf("student: %s", says)
	}
	if says := drill.CheckName(set.Name); says != "" {
		return fmt.Errorf("name: %s", says)
	}
	if says := drill.CheckName(set.Table); set.Table != "" && says != "" {
		return fmt.Errorf("table: %s", says)
	}
	if made, err := table.NewKind(set.Kind.Feet, set.Kind.CornerMouth, set.Kind.SideMouth); err != nil {
		return err
	} else if made != set.Kind {
		return errors.New("the table's pocket mouths are not given")
	}
	for _, b := range set.Breaks {
		if !utf8.ValidString(b.Note) || strings.IndexByte(b.Note, 0) >= 0 {
			return fmt.Errorf("break %d: a note is letters, signs and line ends", b.Number)
		}
		if !b.At.IsZero() && !isBelievedTime(b.At.UTC()) {
			return fmt.Errorf("break %d: a break at %s is not believed", b.Number, b.At)
		}
	}
	return set.Check()
}
