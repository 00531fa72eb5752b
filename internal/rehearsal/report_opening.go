package rehearsal

import (
	"fmt"
	"strings"
)

// writeOpening says what the page is of and how it was made.
func (r Report) writeOpening() string {
	title, words := "# Rehearsal", curveWords
	if r.Model == PhysicsModel {
		title, words = "# Rehearsal on computed breaks", physicsWords
	}
	return title + fmt.Sprintf(whoWords, r.Students, r.Sets, r.Breaks, r.Rules, r.Seed, r.commandLine(""), withoutWords(r)) + words
}

// commandLine is how to make the page again.
func (r Report) commandLine(more string) string {
	line := "go run ./cmd/breakwright rehearse"
	if r.Model == PhysicsModel {
		line += " --model physics"
	}
	for _, name := range r.Without {
		line += " --without " + string(name)
	}
	for _, n := range []struct {
		flag      string
		is, usual uint64
	}{{"students", uint64(r.Students), UsualStudents}, {"sets", uint64(r.Sets), UsualSets}, {"seed", r.Seed, UsualSeed}} {
		if n.is != n.usual {
			line += fmt.Sprintf(" --%s %d", n.flag, n.is)
		}
	}
	return line + more
}

func withoutWords(r Report) string {
	if len(r.Without) == 0 {
		return ""
	}
	names := make([]string, len(r.Without))
	for i, name := range r.Without {
		names[i] = string(name)
	}
	return "\nSwitched off: " + strings.Join(names, ", ") + ".\n"
}

const whoWords = `

%d virtual students with each fault, %d sets of %d breaks, through the adviser
(rules version %s), seed %d. Made by ` + "`%s`" + `.
%s
`

const curveWords = `The students are response curves with numbers drawn from ranges that are common
practice, no source; package rehearsal says which. They test whether the advice
holds together, not how real students fare. Brackets are 95 % intervals: Wilson
for shares of students, normal for means over students.
`

const physicsWords = `The breaks are computed by package breaksim: nine balls, cushions and pockets, on
tables of 7, 8 and 9 feet with corners of 4 to 5 inches. Hidden is how the
student's hands carry out what they are told: where they stand, hit and strike,
how fast, how steadily. How steady hands are, how a stroke widens and how a cue
rises with power are assumptions; what the balls then do is not. It is a model of
a table, not a table: MODEL.md beside that package says how far to believe it,
above all of where the cue ball stops. Half of the students have the standard
targets, half have targets set by a coach who knows how well they can come to
break. Rates are counted over 200 breaks, those of the first, best and last setup
over 800. Brackets are 95 % intervals: Wilson for shares of students, normal for
means over students.
`
