package rehearsal

import (
	"fmt"
	"strings"

	"breakwright/internal/response"
)

// writeOpening says what the page is of and how it was made.
func (r Report) writeOpening() string {
	title, words := "# Rehearsal", curveWords
	if r.Model == PhysicsModel {
		title, words = "# Rehearsal on computed breaks", physicsWords
	}
	return title + fmt.Sprintf(whoWords, r.Students, r.Sets, r.Breaks, r.Rules, r.Seed, r.commandLine(""), r.exceptionWords()) + words
}

// commandLine is how to make the page again.
func (r Report) commandLine(more string) string {
	line := "go run ./cmd/breakwright rehearse"
	if r.Model == PhysicsModel {
		line += " --model physics"
	}
	if r.Rack != "" && r.Rack != response.Racks()[0].String() {
		line += " --rack " + r.Rack
	}
	if r.Table != 0 {
		line += fmt.Sprintf(" --table %d", r.Table)
	}
	for _, name := range r.Without {
		line += " --without " + string(name)
	}
	if r.Forget != "" {
		line += " --forget " + string(r.Forget)
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

// exceptionWords says what is not as it comes.
func (r Report) exceptionWords() string {
	text := ""
	if r.Table != 0 {
		text += fmt.Sprintf(classWords, r.Table)
	}
	if len(r.Without) > 0 {
		names := make([]string, len(r.Without))
		for i, name := range r.Without {
			names[i] = string(name)
		}
		text += "\nSwitched off: " + strings.Join(names, ", ") + ".\n"
	}
	if r.Forget != "" {
		text += "\nKept from the adviser: " + string(r.Forget) + ".\n"
	}
	return text
}

const whoWords = `

%d virtual students with each fault, %d sets of %d breaks, through the adviser
(rules version %s), seed %d. Made by ` + "`%s`" + `.
%s
`

const classWords = `
All stand at table %d of the ten, as a class: each is judged beside what the first
two sets of the others show of it, as a club's pages do.
`

const curveWords = `The students are response curves with numbers drawn from ranges that are common
practice, no source; package rehearsal says which. They test whether the advice
holds together, not how real students fare. A break is good when the wing ball drops
in its corner, the cue ball stops in the window and no ball leaves the table. Brackets are 95 % intervals: Wilson
for shares of students, normal for means over students.
`

const physicsWords = `The breaks are computed by package breaksim, on ten tables of 7, 8 and 9 feet whose
cloth, cushions, balls and pockets differ over all that is plausible, so that none is
the one the adviser learned from; they are the same laws all the same, and another
maker's model, or a table, differs more. Hidden is how the student's hands carry
out what they are told: where they stand, hit and strike, how fast, how steadily, how
tight they rack. How steady hands are, how a stroke widens and how a cue rises with
power are assumptions; what the balls then do is not. Everybody starts, but for the
fault, from the setup that is best on their table. Half of the students have one
trait that makes advising harder: they note makes only, were told no speed, follow
only every second advice, or have good and bad days; the other half note most of
what they see. A break is worth 1 with a ball down, no scratch and nothing on the
floor, 1 more with an open shot on the lowest ball for a club player, less 1 for a
scratch or for falling short of the rules' four rails, and less 2 for a ball on the
floor. Rates are counted over 300 breaks, where a verdict depends on one over 600; what
the best change gains over others than those it was found by, of which the best is the
luckiest. Brackets are 95 % intervals: Wilson for shares of students, normal for means
over students.
`
