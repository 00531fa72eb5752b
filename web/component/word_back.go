package component

import "breakwright/internal/store"

// WordBackWords says for a coach what a student said of a set in a word; "" for
// nothing.
func WordBackWords(w store.WordBack, student string) string {
	switch w {
	case store.FeltWrong:
		return student + " said that this felt wrong."
	case store.Hurts:
		return student + " said that it hurts. Have somebody qualified look at it before they break again."
	case store.Done:
		return student + " said that this is done."
	}
	return ""
}
