package report

import "breakwright/internal/say"

// reader is who a student's report is for: the student themself, or anybody, whom
// it does not speak to.
type reader bool

// The readers.
const (
	anybody reader = false
	oneself reader = true
)

// sayTo is who the sentences of a report are made for, in the units of the club.
func (r reader) sayTo(u say.Units) say.Reader {
	if r == oneself {
		return say.Reader{Units: u}
	}
	return say.Reader{Who: say.Anybody, Units: u}
}

// coachWords names the coach to the reader.
func (r reader) coachWords() string {
	if r == oneself {
		return "your coach"
	}
	return "the coach"
}

// listWords returns those that say something.
func listWords(all ...string) []string {
	var kept []string
	for _, s := range all {
		if s != "" {
			kept = append(kept, s)
		}
	}
	return kept
}
