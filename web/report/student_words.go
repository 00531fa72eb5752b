package report

import (
	"strings"

	"breakwright/web/component"
)

// reader is who a student's report is for: the student themself, or anybody, whom
// it does not speak to.
type reader bool

// The readers.
const (
	anybody reader = false
	oneself reader = true
)

// asideReplacer turns what is said to a coach, or to the student alone.
var asideReplacer = strings.NewReplacer(
	"it is for you to look", "the coach should look",
	"speak with the student", "speak with the coach",
	"your own controlled speed", "the student’s own controlled speed",
)

// reword gives a sentence of the adviser, or of a setup, as the reader reads it.
func (r reader) reword(sentence string) string {
	if r == oneself {
		return sentence
	}
	return asideReplacer.Replace(component.RewordForCoach(sentence))
}

// coachWords names the coach to the reader.
func (r reader) coachWords() string {
	if r == oneself {
		return "your coach"
	}
	return "the coach"
}

// rewordAll gives those that say something as the reader reads them.
func (r reader) rewordAll(all ...string) []string {
	var kept []string
	for _, s := range all {
		if s != "" {
			kept = append(kept, r.reword(s))
		}
	}
	return kept
}

// rewordParts gives a setup as the reader reads it.
func (r reader) rewordParts(all []component.SetupPart) []component.SetupPart {
	turned := make([]component.SetupPart, len(all))
	for i, part := range all {
		turned[i] = component.SetupPart{Name: part.Name, Words: r.reword(part.Words)}
	}
	return turned
}
