package drill

import (
	"fmt"
	"strings"
	"unicode"
	"unicode/utf8"
)

// CheckName says what is wrong with the name of a drill, a table, a class or a
// person, or "": any letters and signs will do, from 1 to MaxName of them on
// one line.
func CheckName(name string) string {
	switch n := utf8.RuneCountInString(strings.TrimSpace(name)); {
	case n == 0:
		return "give it a name"
	case n > MaxName:
		return fmt.Sprintf("that name has %d letters; %d is the most", n, MaxName)
	case !IsLine(name):
		return "a name is one line of letters and signs; something in it is neither"
	}
	return ""
}

// CheckNote says what is wrong with what somebody writes in lines of their own, or
// "": any letters and signs will do, most of them at most.
func CheckNote(text string, most int) string {
	if says := checkLength(text, most); says != "" {
		return says
	}
	if strings.ContainsFunc(text, func(r rune) bool { return isLost(r) || unicode.IsControl(r) && !strings.ContainsRune("\n\r\t", r) }) {
		return "something in it is no letter; take it out"
	}
	return ""
}

// checkLength says that a text has more letters than most, or "".
func checkLength(text string, most int) string {
	if n := utf8.RuneCountInString(text); n > most {
		return fmt.Sprintf("this has %d letters; %d is the most", n, most)
	}
	return ""
}

// IsLine reports whether a text is one line of letters and signs. What turns the
// direction of all that follows is none: it would turn the sentence around a name, too.
func IsLine(text string) bool {
	return !strings.ContainsFunc(text, func(r rune) bool {
		return isLost(r) || unicode.In(r, unicode.Cc, unicode.Zl, unicode.Zp) || turnsText(r)
	})
}

// isLost reports whether a sign stands where a letter could not be read; so do bytes that
// are no UTF-8.
func isLost(r rune) bool { return r == unicode.ReplacementChar }

// turnsText reports whether a sign is an explicit directional formatting character
// (Unicode Standard Annex #9, 2.1 to 2.5). The implicit marks of 2.6 are letters' own.
func turnsText(r rune) bool { return r >= '\u202a' && r <= '\u202e' || r >= '\u2066' && r <= '\u2069' }
