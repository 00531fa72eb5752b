package component

import (
	"breakwright/internal/say"
	"breakwright/internal/store"
)

// RosterChangeWords says what a change of students did, by their number.
func RosterChangeWords(c store.RosterChange) string {
	n := say.Capitalize(say.CountOrNo(c.Students, "student", "students"))
	if c.Undone {
		return "Undone: " + n + " as before."
	}
	if c.Students == 0 {
		return "Nothing to change: they were so already."
	}
	switch c.Kind {
	case store.SetSides:
		return sidesWords(c)
	case store.AddToClass:
		return n + " added to " + c.ClassName + "."
	case store.RemoveFromClass:
		return n + " removed from " + c.ClassName + ". What they recorded stays."
	case store.ArchiveMany:
		return n + " archived and signed out. What they recorded stays."
	}
	return n + " restored. Their codes and PINs work again."
}

// sidesWords says where students break from, by their number.
func sidesWords(c store.RosterChange) string {
	n := say.Capitalize(say.CountOrNo(c.Students, "student", "students"))
	switch {
	case c.Side == "":
		return n + ": break side not known."
	case c.Students == 1:
		return n + " breaks from the " + string(c.Side) + "."
	}
	return n + " break from the " + string(c.Side) + "."
}
