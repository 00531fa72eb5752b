package drill

import "strings"

// Problem says what is wrong with one field, in words a coach understands: a phrase
// that whoever shows it makes a sentence.
type Problem struct {
	Field   string // the break log's column or the form's field: "cue_x", "pocketed"
	Message string
}

// Problems is an error made of one phrase a field. An empty Problems is no
// error: return it through Err.
type Problems []Problem

// Add notes a problem.
func (p *Problems) Add(field, says string) { *p = append(*p, Problem{field, says}) }

// Err returns nil when there are none.
func (p Problems) Err() error {
	if len(p) == 0 {
		return nil
	}
	return p
}

// Error lists the phrases.
func (p Problems) Error() string {
	parts := make([]string, len(p))
	for i, problem := range p {
		parts[i] = problem.Field + ": " + problem.Message
	}
	return strings.Join(parts, "; ")
}

// MessageFor returns the first phrase about a field, or "".
func (p Problems) MessageFor(field string) string {
	for _, problem := range p {
		if problem.Field == field {
			return problem.Message
		}
	}
	return ""
}
