package roster

import (
	"fmt"
	"regexp"
	"strings"

	"breakwright/internal/drill"
	"breakwright/internal/store"
	"breakwright/internal/table"
)

// mostNames is how many students one form adds: a whole school at a time.
const mostNames = 300

// readStudentNames reads pasted names, one a line, each optionally after a number
// and followed by a comma, a tab or a semicolon and the break side. Blank lines are no students.
// Every line that cannot be is a problem with its number, counted as the coach
// does, from 1 and with the blank ones.
func readStudentNames(pasted string) ([]store.NewStudent, drill.Problems) {
	var found []store.NewStudent
	var problems drill.Problems
	lines := strings.Split(lineEnds.Replace(pasted), "\n")
	numbered := areNumbered(lines)
	for i, text := range lines {
		if strings.TrimSpace(text) == "" {
			continue
		}
		if numbered {
			text = bareNumber.ReplaceAllString(text, "")
		}
		student, says := readStudentName(text)
		if says != "" {
			problems.Add("names", fmt.Sprintf("line %d: %s", i+1, says))
		}
		found = append(found, student)
	}
	switch {
	case len(found) == 0:
		problems.Add("names", "write or paste at least one name")
	case len(found) > mostNames:
		problems.Add("names", fmt.Sprintf("these are %d names; add at most %d at a time", len(found), mostNames))
	}
	return found, problems
}

// lineEnds are those of the systems that a list may be copied from.
var lineEnds = strings.NewReplacer("\r\n", "\n", "\r", "\n", "\u2028", "\n")

// sidesByWord are the words for a break side after a name.
var sidesByWord = map[string]table.Side{
	"left": table.Left, "l": table.Left, "lefty": table.Left, "left side": table.Left, "from the left": table.Left,
	"left-handed": table.Left, "left handed": table.Left, "left-hander": table.Left, "left hander": table.Left, "leftie": table.Left, "southpaw": table.Left,
	"right": table.Right, "r": table.Right, "righty": table.Right, "right side": table.Right, "from the right": table.Right,
	"right-handed": table.Right, "right handed": table.Right, "right-hander": table.Right, "right hander": table.Right,
	"": "",
}

// listNumber is what a list writes before a name: "1.", "12)", "#3", "-", or a
// number in a column of its own.
var listNumber = regexp.MustCompile(`^\s*(?:#?\d{1,3}\s*(?:[.):]\s*|[\t;,]\s*|-\s+)|#\d{1,3}\s+|[-–•*]\s+)`)

// bareNumber is a number before a name with nothing but a blank between: "10 Jomo".
var bareNumber = regexp.MustCompile(`^\s*\d{1,3}\s+`)

// areNumbered reports whether bare numbers before names are the list's: every name has a
// number or a sign before it, and it is not the one name "8 Ball Bob".
func areNumbered(lines []string) bool {
	names := 0
	for _, text := range lines {
		switch {
		case strings.TrimSpace(text) == "":
		case bareNumber.MatchString(text), listNumber.MatchString(text):
			names++
		default:
			return false
		}
	}
	return names > 1
}

// readStudentName reads one line and says what is wrong with it, or "".
func readStudentName(text string) (student store.NewStudent, says string) {
	name := strings.Trim(listNumber.ReplaceAllString(text, ""), " \t;\u00a0")
	if before, inside, found := strings.Cut(strings.TrimSuffix(name, ")"), "("); found && strings.HasSuffix(name, ")") {
		if side, known := sidesByWord[foldName(inside)]; known {
			student.Side, name = side, strings.TrimRight(before, " \t;,")
		}
	}
	if at := strings.LastIndexAny(name, ",;\t"); at >= 0 {
		after := strings.TrimSpace(name[at+1:])
		side, known := sidesByWord[foldName(after)]
		switch {
		case known && student.Side == "":
			student.Side, name = side, strings.TrimRight(name[:at], " \t;,")
		case name[at] != ',':
			return student, fmt.Sprintf("“%s” is no break side; write left or right, or leave it out", shortenText(after))
		}
		// What stands behind a comma may belong to the name: "Marsh, Odile".
	}
	if student.Side == "" {
		name, student.Side = cutSideWord(name)
	}
	if student.Side != "" {
		name = strings.TrimRight(name, " \u00a0-–—") // "Juno Vale - left"
	}
	student.Name = strings.TrimSpace(name)
	return student, drill.CheckName(student.Name)
}

// cutSideWord takes a side's word off the end of a name that nothing parts from it:
// "Juno Vale lefty". A single letter there is a name's own: "Juno R".
func cutSideWord(name string) (string, table.Side) {
	at := strings.LastIndexAny(name, " \u00a0")
	if at < 1 {
		return name, ""
	}
	word := strings.TrimLeft(name[at:], " \u00a0")
	if side := sidesByWord[foldName(word)]; side != "" && len(word) > 1 {
		return name[:at], side
	}
	return name, ""
}

// shortenText keeps a sentence readable whatever was pasted.
func shortenText(text string) string {
	const most = 30
	letters := []rune(text)
	if len(letters) <= most {
		return text
	}
	return string(letters[:most]) + "…"
}

// findRepeated lists the names that are in the class already, and those that were
// pasted more than once; each once, as written. Large and small letters and
// the white space between words make no difference.
func findRepeated(adding []store.NewStudent, members []store.Person) (there, twice []string) {
	known, pasted := map[string]bool{}, map[string]int{}
	for _, m := range members {
		known[foldName(m.Name)] = true
	}
	for _, student := range adding {
		name := foldName(student.Name)
		pasted[name]++
		switch {
		case known[name] && pasted[name] == 1:
			there = append(there, shortenText(student.Name))
		case !known[name] && pasted[name] == 2:
			twice = append(twice, shortenText(student.Name))
		}
	}
	return there, twice
}

func foldName(name string) string { return strings.ToLower(strings.Join(strings.Fields(name), " ")) }
