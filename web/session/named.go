package session

import (
	"context"
	"net/http"

	"github.com/go-chi/chi/v5"

	"breakwright/internal/store"
)

// FindNamed gets what a part of the address names, in the name of who asks. What is no
// id is nobody's: [store.ErrNotFound].
func FindNamed[ID store.ID, Noun any](r *http.Request, part string, get func(context.Context, store.Actor, ID) (Noun, error)) (Noun, error) {
	id, err := store.ParseID[ID](chi.URLParam(r, part))
	if err != nil {
		var none Noun
		return none, err
	}
	return get(r.Context(), MustUser(r).Actor, id)
}

// FindStudent gets the student that the address names; a coach's id is nobody's here,
// so that no coach is archived, renamed or erased as if they were a student.
func FindStudent(r *http.Request, s *store.Store) (store.Person, error) {
	person, err := FindNamed(r, "student", s.GetPerson)
	if err == nil && person.Role != store.Student {
		return store.Person{}, store.ErrNotFound
	}
	return person, err
}
