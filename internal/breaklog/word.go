package breaklog

import (
	"strings"

	"breakwright/internal/drill"
	"breakwright/internal/rack"
	"breakwright/internal/table"
)

// words are the accepted words of a column. Looking a cell up gives our own
// copy of the word, so that the row's text need not stay in memory.
type words[T ~string] struct {
	known    map[string]T
	accepted string
}

func wordsOf[T ~string](list ...T) words[T] {
	w := words[T]{known: make(map[string]T, len(list))}
	names := make([]string, len(list))
	for i, word := range list {
		w.known[string(word)] = word
		names[i] = string(word)
	}
	w.accepted = strings.Join(names, ", ")
	return w
}

var (
	gameWords     = wordsOf(rack.Games()...)
	sideWords     = wordsOf(table.Left, table.Right)
	pocketWords   = wordsOf(table.Pockets()...)
	wingMissWords = wordsOf(drill.WingMisses()...)
	cuePathWords  = wordsOf(drill.CuePaths()...)
	shotWords     = wordsOf(drill.Shots()...)
	ranOutWords   = wordsOf(drill.RanOutYes, drill.RanOutNo)
)

// word reads a cell that holds one of a column's words; empty gives "".
func word[T ~string](r *reader, c column, accepted words[T]) T {
	cell := r.cell(c)
	if cell == "" {
		return ""
	}
	got, ok := accepted.known[cell]
	if !ok {
		r.object(c, "one of "+accepted.accepted+" is accepted")
	}
	return got
}
