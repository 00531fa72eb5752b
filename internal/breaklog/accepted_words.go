package breaklog

import (
	"strings"

	"breakwright/internal/drill"
	"breakwright/internal/rack"
	"breakwright/internal/table"
)

// acceptedWords are the accepted words of a column. Looking a cell up gives our own
// copy of the word, so that the row's text need not stay in memory.
type acceptedWords[T ~string] struct {
	known    map[string]T
	accepted string
}

func newAcceptedWords[T ~string](list ...T) acceptedWords[T] {
	w := acceptedWords[T]{known: make(map[string]T, len(list))}
	names := make([]string, len(list))
	for i, word := range list {
		w.known[string(word)] = word
		names[i] = string(word)
	}
	w.accepted = strings.Join(names, ", ")
	return w
}

var (
	gameWords     = newAcceptedWords(rack.Games()...)
	sideWords     = newAcceptedWords(table.Left, table.Right)
	pocketWords   = newAcceptedWords(table.Pockets()...)
	wingMissWords = newAcceptedWords(append(drill.WingMisses(), drill.NotWatched)...)
	cuePathWords  = newAcceptedWords(drill.CuePaths()...)
	shotWords     = newAcceptedWords(drill.Shots()...)
	ranOutWords   = newAcceptedWords(drill.RanOutYes, drill.RanOutNo)
	rackedWords   = newAcceptedWords(drill.RackedTight, drill.RackedLoose)
)

// readWord reads a cell that holds one of a column's words; empty returns "".
func readWord[T ~string](r *logReader, c logColumn, accepted acceptedWords[T]) T {
	cell := r.cellText(c)
	if cell == "" {
		return ""
	}
	got, ok := accepted.known[cell]
	if !ok {
		r.rejectCell(c, "one of "+accepted.accepted+" is accepted")
	}
	return got
}
