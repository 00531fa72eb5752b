package say

import "breakwright/internal/table"

// Reader is who reads a sentence: the same fact is told to the student, to their
// coach, or on paper to anybody, in the units of the club.
type Reader struct {
	Who   Who
	Units Units
	// Side is the one that is broken from: facts are kept as the break from the left
	// has them. "" tells no left and right.
	Side table.Side
}

// BreakingFrom is the reader of a setup that is broken from a side.
func (r Reader) BreakingFrom(side table.Side) Reader {
	r.Side = side
	return r
}

// Who is the person a sentence speaks to. The zero value is the student.
type Who int

// The people.
const (
	Student Who = iota // is spoken to: "your coach"
	Coach              // reads about a student: "it is for you to look"
	Anybody            // reads a report: nobody is spoken to
)

// choose picks what is said to whom.
func (r Reader) choose(student, coach, anybody string) string {
	switch r.Who {
	case Coach:
		return coach
	case Anybody:
		return anybody
	}
	return student
}

// ownOrTheirs says "your own" to the student, "the student’s own" to all others.
func (r Reader) ownOrTheirs() string {
	return r.choose("your own", "the student’s own", "the student’s own")
}

// coachLooks says whose turn it is.
func (r Reader) coachLooks() string {
	return r.choose("your coach should look", "it is for you to look", "the coach should look")
}
