package breaklog_test

import (
	"bytes"
	"errors"
	"strings"
	"testing"

	"breakwright/internal/breaklog"
	"breakwright/internal/drill"
)

// In pieces it is the same log as at once, however the pieces are cut.
func TestWriter_InPiecesIsTheSame(t *testing.T) {
	sets := readSets(t, openFixture(t, "evening.csv"))
	want := writtenText(t, sets)
	for _, size := range []int{1, 2, len(sets)} {
		var text bytes.Buffer
		w := breaklog.NewWriter(&text)
		for from := 0; from < len(sets); from += size {
			if err := w.Write(sets[from:min(from+size, len(sets))]); err != nil {
				t.Fatal(err)
			}
		}
		if err := w.Close(); err != nil || text.String() != want {
			t.Errorf("in pieces of %d: %v, and another text", size, err)
		}
	}
}

func TestWriter_WithoutSetsIsAHeader(t *testing.T) {
	var text bytes.Buffer
	w := breaklog.NewWriter(&text)
	if err := w.Close(); err != nil || text.String() != strings.Join(breaklog.ColumnNames(), ",")+"\r\n" {
		t.Errorf("%q, %v", text.String(), err)
	}
}

func TestWriter_RefusesASetOfAnEarlierPiece(t *testing.T) {
	sets := readSets(t, openFixture(t, "paper.csv"))
	w := breaklog.NewWriter(&bytes.Buffer{})
	if err := w.Write(sets[:1]); err != nil {
		t.Fatal(err)
	}
	if err := w.Write(sets[:1]); err == nil || !strings.Contains(err.Error(), "two sets of this name") {
		t.Errorf("the same set again: %v", err)
	}
	other := append([]drill.Set(nil), sets[0])
	other[0].Student = ""
	if err := w.Write(other); err == nil {
		t.Error("a set of nobody was written")
	}
}

var errFull = errors.New("the disk is full")

type fullDisk struct{}

func (fullDisk) Write([]byte) (int, error) { return 0, errFull }

func TestWriter_TellsOfAFullDisk(t *testing.T) {
	w := breaklog.NewWriter(fullDisk{})
	if err := w.Write(readSets(t, openFixture(t, "paper.csv"))); err != nil && !errors.Is(err, errFull) {
		t.Error(err)
	}
	if err := w.Close(); !errors.Is(err, errFull) {
		t.Errorf("closed with %v", err)
	}
}
