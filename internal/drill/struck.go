package drill

import "time"

// StruckBreak is a break as it was before it was changed or taken out.
type StruckBreak struct {
	Break
	// Changed says that something else stands in its place; false that it was
	// taken out.
	Changed bool
	// PutBack says that it was taken out and counts again.
	PutBack bool
	// ByCoach says that a coach did it; false the student.
	ByCoach bool
	// Reason is why, in the words of who did it; "" when nobody said.
	Reason string
	At     time.Time
}

// StruckSet is what was struck of a set. Its own breaks, those that count, may be
// left out.
type StruckSet struct {
	Set
	Struck []StruckBreak
}
