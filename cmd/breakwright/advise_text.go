package main

import (
	"bufio"
	"fmt"
	"strings"

	"breakwright/internal/advice"
	"breakwright/internal/drill"
	"breakwright/internal/say"
)

// writeAdvice sets one student's advice as a short note. Its sentences are the
// adviser's; only their order and the labels are chosen here.
func writeAdvice(out *bufio.Writer, a advice.Advice) {
	head := a.Student
	if a.Table != "" {
		head += ", " + a.Table
	}
	fmt.Fprintf(out, "%s\n%s\n", head, strings.Repeat("=", len([]rune(head))))
	fmt.Fprintf(out, "%s in %s under this setup\n\n", say.Count(a.Stint.Breaks, "break", "breaks"), say.Count(a.Stint.Sets, "set", "sets"))
	writeParagraph(out, "", a.Says)
	for _, f := range a.Findings {
		writeParagraph(out, "- ", f.Says)
	}
	if p := a.Prescription; p != nil {
		if p.Variable != advice.VaryNone {
			writeParagraph(out, "Change:  ", fmt.Sprintf("%s from %s to %s%s", p.Variable, p.From, p.To, formatUnit(p.Unit)))
		}
		writeParagraph(out, "Why:     ", p.Reason)
		writeParagraph(out, "Expect:  ", p.Expect)
		writeParagraph(out, "Caution: ", p.Caution)
	}
	if f := a.FollowUp; f != nil {
		writeParagraph(out, "Since:   ", f.Says)
	}
	if a.Card != nil {
		writeParagraph(out, "Card:    ", a.Card.Says)
	}
	writeParagraph(out, "Next:    ", setupLine(a.Next))
	for _, check := range a.Checks {
		writeParagraph(out, "Please:  ", check)
	}
	if a.NeedsCoach {
		writeParagraph(out, "Coach:   ", "have a look before the next set.")
	}
}

// setupLine tells a setup in one line, in the break log's numbers.
func setupLine(s drill.Setup) string {
	speed := "your own controlled speed"
	if s.Speed != 0 {
		speed = s.Speed.String() + " mph"
	}
	return fmt.Sprintf("from the %s, cue ball at %s, contact %s in, tip %g, side spin %g, %s, rack %s",
		s.Side, s.Cue, s.Contact, s.Tip, s.Spin, speed, s.Order)
}

func formatUnit(unit string) string {
	switch unit {
	case "", "slots":
		return ""
	case "radius":
		return " of a radius"
	}
	return " " + unit
}

// pageWidth is how many letters a line of text has at most.
const pageWidth = 80

// writeParagraph writes a text in lines, the first after a label and the others
// below its beginning; no text, no paragraph.
func writeParagraph(out *bufio.Writer, label, text string) {
	if text == "" {
		return
	}
	indent := strings.Repeat(" ", len([]rune(label)))
	line := label
	empty := true
	for _, word := range strings.Fields(text) {
		if !empty && len([]rune(line))+1+len([]rune(word)) > pageWidth {
			fmt.Fprintln(out, line)
			line, empty = indent, true
		}
		if !empty {
			line += " "
		}
		line, empty = line+word, false
	}
	fmt.Fprintln(out, line)
}
