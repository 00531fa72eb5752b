package breaklog

import (
	"strings"
	"unicode/utf8"

	"breakwright/internal/drill"
)

// formulaStarts are the signs with which a spreadsheet begins a formula, or
// which it skips before one.
const formulaStarts = "=+-@\t\n"

// looksLikeFormula reports whether a text, apostrophes in front of it apart, begins as a
// formula does.
func looksLikeFormula(text string) bool {
	rest := strings.TrimLeft(text, "'")
	return rest != "" && strings.IndexByte(formulaStarts, rest[0]) >= 0
}

// escapeFormula makes a text safe for a spreadsheet; unguard undoes it exactly.
func escapeFormula(text string) string {
	if looksLikeFormula(text) {
		return "'" + text
	}
	return text
}

func unescapeFormula(cell string) string {
	if strings.HasPrefix(cell, "'") && looksLikeFormula(cell) {
		return cell[1:]
	}
	return cell
}

var lineEnds = strings.NewReplacer("\r\n", "\n", "\r", "\n")

// withLineFeeds turns all line ends into line feeds, as CSV readers do anyway.
func withLineFeeds(text string) string {
	if strings.IndexByte(text, '\r') < 0 {
		return text
	}
	return lineEnds.Replace(text)
}

// checkName says what is wrong with a name in a log, or "". It asks for less than
// [drill.CheckName] does: what a club kept before that asked for more goes out, too.
func checkName(name string) string {
	if n := utf8.RuneCountInString(strings.TrimSpace(name)); n > 0 && n <= drill.MaxName && utf8.ValidString(name) && !strings.ContainsFunc(name, isControl) {
		return ""
	}
	return drill.CheckName(name)
}

func isControl(r rune) bool { return r < ' ' || r == 0x7f }
