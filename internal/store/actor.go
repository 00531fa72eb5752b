package store

// Role says what a person is in their club.
type Role string

// The roles of people.
const (
	Coach   Role = "coach"
	Student Role = "student"
)

// adviserRole is the role in which the store itself writes advice for a student.
const adviserRole Role = "adviser"

// Actor is who asks. It comes from a session ([Store.FindSession]), never from
// a form.
type Actor struct {
	Club   ClubID
	Person PersonID
	Role   Role
}

// IsCoach reports whether the actor may see and do what a coach may.
func (v Actor) IsCoach() bool { return v.Role == Coach }

// requireCoach refuses everyone else.
func (v Actor) requireCoach() error {
	if v.Role != Coach {
		return newRefusal(ErrNotAllowed, "only a coach can do this")
	}
	return nil
}

// editorID is the coach who edits, or nobody when students write their own.
func (v Actor) editorID() PersonID {
	if v.IsCoach() {
		return v.Person
	}
	return PersonID{}
}
