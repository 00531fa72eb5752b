package session

import (
	"context"
	"encoding/json"
	"net/http"
	"time"

	"github.com/go-chi/chi/v5"

	"breakwright/internal/say"
	"breakwright/internal/store"
	"breakwright/internal/table"
	"breakwright/web/page"
)

// User is the person who is signed in.
type User struct {
	store.Actor
	// Session names the session among the person's own.
	Session    store.SessionID
	Name, Club string
	// Zone is the club's, for due days and times of day.
	Zone *time.Location
	// Side is a student's break side, "" while nobody has said.
	Side table.Side
	// Units are the club's choice, Theme the person's.
	Units say.Units
	Theme store.Theme

	turned time.Time // when the token was made
}

type userKey struct{}

// WithUser puts the visitor into a context, and the units in which they read.
func WithUser(ctx context.Context, v User) context.Context {
	return say.WithUnits(context.WithValue(ctx, userKey{}, v), v.Units)
}

// Reader is the visitor as sentences are made for them.
func (u User) Reader() say.Reader {
	if u.IsCoach() {
		return say.Reader{Who: say.Coach, Units: u.Units}
	}
	return say.Reader{Units: u.Units}
}

type failureKey struct{}

func withFailure(ctx context.Context, err error) context.Context {
	return context.WithValue(ctx, failureKey{}, err)
}

// FindFailure returns the reason why it could not be found out who asks, and nil
// when it could.
func FindFailure(r *http.Request) error {
	err, _ := r.Context().Value(failureKey{}).(error)
	return err
}

type erasedKey struct{}

func withErased(ctx context.Context, person string) context.Context {
	return context.WithValue(ctx, erasedKey{}, person)
}

// FindUser returns the visitor of a request, and false for nobody.
func FindUser(r *http.Request) (User, bool) {
	v, ok := r.Context().Value(userKey{}).(User)
	return v, ok
}

// MustUser returns the visitor of a request to a route that only members may call;
// the guard has made sure that there is one.
func MustUser(r *http.Request) User {
	v, ok := FindUser(r)
	if !ok {
		panic("session: a route for members was reached by nobody")
	}
	return v
}

// PagePerson returns the visitor as the layout shows them; nobody is the zero Person.
func PagePerson(r *http.Request) page.Person {
	v, ok := FindUser(r)
	if !ok {
		return page.Person{}
	}
	return page.Person{Name: v.Name, Club: v.Club, Coach: v.IsCoach(), Theme: string(v.Theme)}
}

// SetFlash keeps a sentence for the next page.
func (k *Manager) SetFlash(w http.ResponseWriter, r *http.Request, sentence string) {
	k.SetFlashWithUndo(w, r, sentence, nil)
}

// SetFlashWithUndo keeps a sentence for the next page, with a form that takes back
// what it says was done; nil for none.
func (k *Manager) SetFlashWithUndo(w http.ResponseWriter, r *http.Request, sentence string, undo *page.UndoForm) {
	said, _ := k.cookies.Get(r, flashCookie)
	said.Values["said"] = sentence
	delete(said.Values, "undo")
	if undo != nil {
		text, err := json.Marshal(undo)
		if err != nil {
			k.log.ErrorContext(r.Context(), "keep a way back", "error", err)
		}
		said.Values["undo"] = string(text)
	}
	if err := said.Save(r, w); err != nil {
		k.log.ErrorContext(r.Context(), "keep a sentence", "error", err)
	}
}

// TakeFrame returns what the layout needs of this request, and takes the sentence
// kept by [Manager.SetFlash].
func (k *Manager) TakeFrame(w http.ResponseWriter, r *http.Request) page.Frame {
	frame := page.Frame{Person: PagePerson(r)}
	frame.ErasedPerson, frame.Erased = r.Context().Value(erasedKey{}).(string)
	said, _ := k.cookies.Get(r, flashCookie)
	sentence, ok := said.Values["said"].(string)
	if !ok {
		return frame
	}
	frame.Flash = sentence
	if text, ok := said.Values["undo"].(string); ok {
		if err := json.Unmarshal([]byte(text), &frame.Undo); err != nil {
			k.log.ErrorContext(r.Context(), "read a way back", "error", err)
		}
	}
	said.Options.MaxAge = -1
	if err := said.Save(r, w); err != nil {
		k.log.ErrorContext(r.Context(), "drop a sentence", "error", err)
	}
	return frame
}

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
