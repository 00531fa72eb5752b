package drill

import (
	"strings"
	"testing"
)

// Names of many alphabets, with the marks that these need: a zero-width non-joiner is a
// Persian letter's own (Unicode Standard, 23.2), a right-to-left mark a Hebrew line's
// (Unicode Standard Annex #9, 2.6). Explicit formatting characters (2.1 to 2.5 there) and
// the ends of lines and paragraphs (4.0, 5.8 of the Standard) are in no name.
func TestCheckName_IsOneLineOfLetters(t *testing.T) {
	for name, ok := range map[string]bool{
		"Ø": true, "🎱": true, strings.Repeat("é", 120): true, "محمد\u200cرضا": true, "דנה \u200f(A)": true, "O’Brien-Ñandú 3": true,
		strings.Repeat("n", 121): false, "": false, " \t ": false, "two\nlines": false, "a\tb": false, "a\x00b": false, "a\x1bb": false, "a\x7fb": false,
		"\xff": false, "a\ufffdb": false, "a\u0085b": false, "a\u2028b": false, "a\u2029b": false, "a\u202eb": false, "a\u202ab": false, "a\u2066b": false, "a\u2069b": false,
	} {
		if says := CheckName(name); (says == "") != ok {
			t.Errorf("name %.20q: %q", name, says)
		}
	}
}

func TestCheckNote_TakesLines(t *testing.T) {
	for text, ok := range map[string]bool{
		"": true, "one\r\n\ttwo\nthree": true, strings.Repeat("é", 50): true, "a \u2067b\u2069": true,
		strings.Repeat("é", 51): false, "a\x00b": false, "a\x1bb": false, "a\u0085b": false, "a\ufffdb": false, "a\xff": false,
	} {
		if says := CheckNote(text, 50); (says == "") != ok {
			t.Errorf("note %.20q: %q", text, says)
		}
	}
}
