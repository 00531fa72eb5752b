package roster

import (
	"fmt"
	"strings"
	"time"

	"breakwright/internal/table"
)

// countWords says how many: "no students", "1 student", "12 students".
func countWords(n int, one, many string) string {
	switch n {
	case 0:
		return "no " + many
	case 1:
		return "1 " + one
	}
	return fmt.Sprintf("%d %s", n, many)
}

func countStudents(n int) string { return countWords(n, "student", "students") }

// joinPhrases joins phrases: "a", "a and b", "a, b and c".
func joinPhrases(phrases []string) string {
	n := len(phrases)
	if n < 2 {
		return strings.Join(phrases, "")
	}
	return strings.Join(phrases[:n-1], ", ") + " and " + phrases[n-1]
}

// breakSideWords says where somebody breaks from.
func breakSideWords(side table.Side) string {
	if side == "" {
		return "Break side not known yet"
	}
	return "Breaks from the " + string(side)
}

// dueWords says a due day, which is the midnight UTC of its date wherever the club is.
func dueWords(at time.Time) string {
	if at.IsZero() {
		return "no due day"
	}
	return "due " + at.UTC().Format("Monday 2 January")
}

// capitalize and lower begin a phrase with a capital or a small letter.
func capitalize(phrase string) string { return strings.ToUpper(phrase[:1]) + phrase[1:] }

func decapitalize(phrase string) string { return strings.ToLower(phrase[:1]) + phrase[1:] }
