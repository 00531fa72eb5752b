package store

// Role says what a person is in their club.
type Role string

// The roles of people.
const (
	Coach   Role = "coach"
	Student Role = "student"
)

// adviser is the role in which the store itself writes advice for a student.
const adviser Role = "adviser"

// Viewer is who asks. It comes from a session ([Store.FindSession]), never from
// a form.
type Viewer struct {
	Club   ClubID
	Person PersonID
	Role   Role
}

// IsCoach says whether the viewer may see and do what a coach may.
func (v Viewer) IsCoach() bool { return v.Role == Coach }

// mustCoach refuses everyone else.
func (v Viewer) mustCoach() error {
	if v.Role != Coach {
		return refuse(ErrNotAllowed, "only a coach can do this")
	}
	return nil
}

// editor is the coach who edits, or nobody when students write their own.
func (v Viewer) editor() PersonID {
	if v.IsCoach() {
		return v.Person
	}
	return PersonID{}
}
