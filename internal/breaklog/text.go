package breaklog

import "strings"

// formulaStarts are the signs with which a spreadsheet begins a formula, or
// which it skips before one.
const formulaStarts = "=+-@\t\n"

// looksLikeFormula says that a text, apostrophes in front of it apart, begins as a
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
