package exchange

import (
	"strconv"
	"strings"
)

// mostClashes is how many are listed.
const mostClashes = 20

// countWords says how many: "one set", "1,200 sets".
func countWords(n int, one, many string) string {
	if n == 1 {
		return one
	}
	return groupDigits(n) + " " + many
}

// groupDigits writes a number in groups of three: 50,000.
func groupDigits(n int) string {
	digits := strconv.Itoa(n)
	var b strings.Builder
	for i, d := range digits {
		if i > 0 && (len(digits)-i)%3 == 0 {
			b.WriteByte(',')
		}
		b.WriteRune(d)
	}
	return b.String()
}

func capitalize(s string) string {
	if s == "" {
		return s
	}
	return strings.ToUpper(s[:1]) + s[1:]
}
