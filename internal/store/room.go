package store

import (
	"context"

	"github.com/google/uuid"

	"breakwright/internal/store/internal/query"
)

// Room is how many of a kind a club may have, put away or not. It is many times what
// a large club needs in ten years: what it bounds is a script, or a page that sends
// its form again and again.
type Room struct {
	kind string // as the query has it
	Most int
	// full says what to do instead; %d is Most.
	full string
}

// The rooms of a club, of one set for messages and for what was changed in it, and of one
// student for messages beside no set.
var (
	RoomForStudents    = Room{"student", 5_000, "This club has %d students, counting those who have left, which is the most. Erase who will not come back."}
	RoomForClasses     = Room{"class", 1_000, "This club has %d classes, counting those put away, which is the most. Rename one that is not needed any more."}
	RoomForTables      = Room{"table", 1_000, "This club has %d tables, counting those put away, which is the most. Change one that is not needed any more."}
	RoomForDrills      = Room{"drill", 5_000, "This club has %d drills, counting those that were replaced, which is the most. Use one that is there."}
	RoomForAssignments = Room{"assignment", 20_000, "This club has made %d assignments, which is the most. Use one that is there."}
	RoomForCoaches     = Room{"coach", 200, "This club has %d coaches, counting those who were invited or have left, which is the most. Take an invitation back."}
	RoomForInvitations = Room{"invitation", 50, "There are %d invitations that nobody has used, which is the most. Take some back first."}
	RoomForJobs        = Room{"job", 100, "There are %d files and jobs under Records, which is the most. Throw away what is not needed any more."}
	RoomForMessages    = Room{"message", 200, "There are %d messages about this set, which is the most. Ask about a later one."}
	RoomWithoutSet     = Room{"message without set", 50, "A student who has no set yet has %d messages, which is the most. Wait for their first breaks."}
	RoomForStruck      = Room{"struck", 1_000, "The breaks of this set were changed or taken out %d times, which is the most. Leave them as they are."}
	RoomForRules       = Room{"rule", 10_000, "The rules of this club were changed %d times, which is the most. Leave them as they are."}
	RoomForChanges     = Room{"roster change", 10_000, "The students of this club were changed %d times, which is the most. Leave them as they are."}
)

// requireRoom refuses with [ErrFull], once there is one more of a kind than there is
// room for, and so undoes the transaction: what was sent twice adds nothing, and is
// no more. Two who add at once may both find the last place. within is the set of
// messages or breaks, or the student of messages beside no set; uuid.Nil for the club.
func (t *tx) requireRoom(ctx context.Context, r Room, within uuid.UUID) error {
	there, err := t.CountUpTo(ctx, query.CountUpToParams{Kind: r.kind, Most: r.Most + 1, Within: within})
	if err == nil && there > r.Most {
		return newRefusal(ErrFull, r.full, r.Most)
	}
	return err
}
