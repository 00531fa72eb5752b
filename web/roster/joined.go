package roster

import (
	"context"
	"errors"

	"breakwright/internal/store"
)

// joined says which of the students have chosen a PIN. The store tells it only
// at the door, a student at a time, so a page of a class asks once a student.
func (ro *Roster) joined(ctx context.Context, students []store.Person) (map[store.PersonID]bool, error) {
	joined := make(map[store.PersonID]bool, len(students))
	for _, student := range students {
		if student.Code == "" {
			continue
		}
		found, err := ro.Store.FindStudent(ctx, student.Code)
		switch {
		case err == nil:
			joined[student.ID] = found.Person == student.ID && found.SecretHash != ""
		case !errors.Is(err, store.ErrNotFound): // an archived one, or a code changed just now
			return nil, err
		}
	}
	return joined, nil
}

// hasJoined says it of one student.
func (ro *Roster) hasJoined(ctx context.Context, student store.Person) (bool, error) {
	joined, err := ro.joined(ctx, []store.Person{student})
	return joined[student.ID], err
}
