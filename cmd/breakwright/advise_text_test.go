package main

import (
	"bufio"
	"strings"
	"testing"
)

func TestParagraph_BreaksLinesUnderItsBeginning(t *testing.T) {
	var text strings.Builder
	out := bufio.NewWriter(&text)
	writeParagraph(out, "Why:  ", strings.TrimSpace(strings.Repeat("seventeen letters ", 8)))
	writeParagraph(out, "Empty: ", "")
	writeParagraph(out, "- ", strings.Repeat("x", 100))
	if err := out.Flush(); err != nil {
		t.Fatal(err)
	}
	lines := strings.Split(strings.TrimRight(text.String(), "\n"), "\n")
	if len(lines) != 3 || !strings.HasPrefix(lines[0], "Why:  seventeen") || !strings.HasPrefix(lines[1], "      ") || lines[1][6] == ' ' {
		t.Errorf("%q", lines)
	}
	if words := len(strings.Fields(text.String())); words != 1+16+2 {
		t.Errorf("%d words", words)
	}
	if len(lines[0]) > pageWidth || len(lines[2]) != 102 {
		t.Errorf("%q", lines)
	}
}
