package roster

import (
	"fmt"
	"slices"

	"breakwright/internal/say"
	"breakwright/internal/table"
	"breakwright/web/page"
)

// pocketKind is a kind of pockets that a coach knows by its name.
type pocketKind struct {
	value, words string
	corner, side table.Inches
}

// otherPockets is the choice of what is written in numbers.
const otherPockets = "other"

// pocketKinds are the kinds offered. The standard ones are the table's own; tight ones a
// quarter of an inch tighter, common practice, no source.
func pocketKinds() []pocketKind {
	return []pocketKind{
		{"standard", "Standard", table.StandardCornerMouth, table.StandardSideMouth},
		{"tight", "Tight", table.StandardCornerMouth - 0.25, table.StandardSideMouth - 0.25},
	}
}

// findPocketKind finds the kind of a table's pockets; ok is false for others.
func findPocketKind(k table.Kind) (kind pocketKind, ok bool) {
	for _, kind := range pocketKinds() {
		if kind.corner == k.CornerMouth && kind.side == k.SideMouth {
			return kind, true
		}
	}
	return pocketKind{value: otherPockets}, false
}

// choiceWords are a kind with its numbers: "Standard: corners 4.5, sides 5 in".
func (p pocketKind) choiceWords(u say.Units) string {
	return fmt.Sprintf("%s: corners %s, sides %s", p.words, u.Number(say.Mouth, float64(p.corner)), u.WithShort(say.Mouth, float64(p.side)))
}

// isPocketKind reports whether a choice is one of the kinds.
func isPocketKind(value string) bool {
	return slices.ContainsFunc(pocketKinds(), func(kind pocketKind) bool { return kind.value == value })
}

// chosenPockets is the kind that was chosen, the standard one where none was.
func chosenPockets(form *page.Form) pocketKind {
	kinds := pocketKinds()
	return kinds[max(0, slices.IndexFunc(kinds, func(kind pocketKind) bool { return kind.value == form.Text(fieldPockets) }))]
}

// pocketsAreTyped reports whether numbers are in the form, so that they are seen.
func pocketsAreTyped(form *page.Form) bool {
	return form.RawText(fieldPockets) == otherPockets || form.RawText(fieldCorner) != "" || form.RawText(fieldSide) != ""
}
