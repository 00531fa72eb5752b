package store

import (
	"fmt"

	"github.com/google/uuid"
)

// The ids, each of its own type so that they cannot be mixed up. They are UUIDs
// of version 7, which sort by the time they were made. The zero id is nobody's
// and means "none". They print, scan and marshal as UUIDs do.
type (
	ClubID         struct{ uuid.UUID }
	PersonID       struct{ uuid.UUID } // a coach or a student
	ClassID        struct{ uuid.UUID }
	TableID        struct{ uuid.UUID }
	DrillID        struct{ uuid.UUID }
	AssignmentID   struct{ uuid.UUID }
	SetID          struct{ uuid.UUID } // made by the phone
	BreakID        struct{ uuid.UUID } // made by the phone
	PrescriptionID struct{ uuid.UUID }
	MessageID      struct{ uuid.UUID }
)

// ID is any of them.
type ID interface{ ~struct{ uuid.UUID } }

// NewID makes an id: NewID[SetID]().
func NewID[T ID]() T { return T(struct{ uuid.UUID }{newUUID()}) }

// ParseID reads an id as a form or an address has it. What is not an id is
// nobody's: [ErrNotFound].
func ParseID[T ID](s string) (T, error) {
	u, err := uuid.Parse(s)
	if err != nil {
		return T{}, fmt.Errorf("%w: %q is not an id", ErrNotFound, s)
	}
	return T(struct{ uuid.UUID }{u}), nil
}

// IsZero reports whether the id means none.
func IsZero[T ID](id T) bool { return struct{ uuid.UUID }(id).UUID == uuid.Nil }

// newUUID can only fail when the system has no randomness left to give.
func newUUID() uuid.UUID { return uuid.Must(uuid.NewV7()) }

// idOrNew gives an id to a thing that has none yet.
func idOrNew[T ID](id T) T {
	if IsZero(id) {
		return NewID[T]()
	}
	return id
}

// uuidOrNull is how an optional id is stored.
func uuidOrNull[T ID](id T) *uuid.UUID {
	if IsZero(id) {
		return nil
	}
	plain := struct{ uuid.UUID }(id).UUID
	return &plain
}

// idOrZero is how an optional id comes back.
func idOrZero[T ID](u *uuid.UUID) T {
	if u == nil {
		return T{}
	}
	return T(struct{ uuid.UUID }{*u})
}

func plainUUIDs[T ID](ids []T) []uuid.UUID {
	plain := make([]uuid.UUID, len(ids))
	for i, id := range ids {
		plain[i] = struct{ uuid.UUID }(id).UUID
	}
	return plain
}
