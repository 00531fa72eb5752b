package breaklog

import "strings"

// formulaStarts are the signs with which a spreadsheet begins a formula, or
// which it skips before one.
const formulaStarts = "=+-@\t\n"

// likeFormula says that a text, apostrophes in front of it apart, begins as a
// formula does.
func likeFormula(text string) bool {
	rest := strings.TrimLeft(text, "'")
	return rest != "" && strings.IndexByte(formulaStarts, rest[0]) >= 0
}

// guard makes a text safe for a spreadsheet; unguard undoes it exactly.
func guard(text string) string {
	if likeFormula(text) {
		return "'" + text
	}
	return text
}

func unguard(cell string) string {
	if strings.HasPrefix(cell, "'") && likeFormula(cell) {
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
