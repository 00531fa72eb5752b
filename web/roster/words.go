package roster

import (
	"fmt"
	"strings"
	"time"

	"breakwright/internal/table"
)

// count says how many: "no students", "1 student", "12 students".
func count(n int, one, many string) string {
	switch n {
	case 0:
		return "no " + many
	case 1:
		return "1 " + one
	}
	return fmt.Sprintf("%d %s", n, many)
}

func students(n int) string { return count(n, "student", "students") }

// list joins phrases: "a", "a and b", "a, b and c".
func list(phrases []string) string {
	n := len(phrases)
	if n < 2 {
		return strings.Join(phrases, "")
	}
	return strings.Join(phrases[:n-1], ", ") + " and " + phrases[n-1]
}

// sideWords says where somebody breaks from.
func sideWords(side table.Side) string {
	if side == "" {
		return "Break side not known yet"
	}
	return "Breaks from the " + string(side)
}

// due says a due day, which is the midnight UTC of its date wherever the club is.
func due(at time.Time) string {
	if at.IsZero() {
		return "no due day"
	}
	return "due " + at.UTC().Format("Monday 2 January")
}

// upper and lower begin a phrase with a capital or a small letter.
func upper(phrase string) string { return strings.ToUpper(phrase[:1]) + phrase[1:] }

func lower(phrase string) string { return strings.ToLower(phrase[:1]) + phrase[1:] }
