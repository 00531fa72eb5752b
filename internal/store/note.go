package store

import (
	"context"
	"time"

	"github.com/google/uuid"

	"breakwright/internal/store/internal/query"
)

// Act is what somebody did to what the club keeps of people.
type Act string

// The acts.
const (
	ActSaw      Act = "saw"
	ActChanged  Act = "changed"
	ActExported Act = "exported"
	ActErased   Act = "erased"
)

// Note is a line of the audit log before it is written: an act, the route of the
// program where it was done, and what it was about: a person, a class, or a set or
// a change of setup, which stand for their student; zero for nobody in
// particular. A code, a token or a name never stands in it.
type Note struct {
	Act   Act
	Place string
	About uuid.UUID
}

type noteKey struct{}

// WithNote has every transaction in ctx that changes something write the note
// with it: what was changed and who did it are kept together or not at all.
func WithNote(ctx context.Context, n Note) context.Context {
	return context.WithValue(ctx, noteKey{}, n)
}

// WriteNote writes a line in the audit log in the actor's name. The same act on
// the same day is one line; what was only seen is written once a day.
func (s *Store) WriteNote(ctx context.Context, v Actor, n Note) error {
	return s.inTransaction(ctx, v, "write in the audit log", func(t *tx) error {
		return t.Queries.WriteNote(ctx, query.WriteNoteParams{Act: string(n.Act), Place: n.Place, About: n.About})
	})
}

// NoteLine is a line of the audit log.
//
// The program writes it, and nobody changes it; a coach reads it ([ErrNotAllowed] for a
// student). It is kept for thirteen months.
type NoteLine struct {
	Note
	By     PersonID
	ByName string
	// AboutName is the name of the person, class or drill; "" for none, and for
	// who was erased.
	AboutName   string
	First, Last time.Time
	Times       int
}

// NotesAtATime is how many lines are listed at a time.
const NotesAtATime = 100

// ListNotes returns the latest lines of the audit log from before a time, the
// newest first; about limits them to what concerned one person, class or drill,
// zero for all. Coaches only.
func (s *Store) ListNotes(ctx context.Context, v Actor, about uuid.UUID, before time.Time) ([]NoteLine, error) {
	return readInTransaction(ctx, s, v, "list the audit log", func(t *tx) ([]NoteLine, error) {
		if err := v.requireCoach(); err != nil {
			return nil, err
		}
		rows, err := t.Queries.ListNotes(ctx, query.ListNotesParams{
			Before: before, Everybody: about == uuid.Nil, About: about, Most: NotesAtATime,
		})
		return mapRows(rows, func(r query.ListNotesRow) NoteLine {
			return NoteLine{
				Note: Note{Act(r.Act), r.Place, r.AboutID}, By: PersonID{r.PersonID}, ByName: r.PersonName,
				AboutName: r.AboutName, First: r.FirstAt.UTC(), Last: r.LastAt.UTC(), Times: r.Times,
			}
		}), err
	})
}
