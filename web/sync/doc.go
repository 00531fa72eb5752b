// Package sync is where a student's phone and the club's server agree.
//
// GET /sync gives what a phone should hold: the drills assigned, how each is
// broken on each table, and the sets that are open. POST /sync takes what the
// phone recorded, a batch at a time, and answers every item of it:
//
//	accepted  it is kept now
//	had       the very same was kept before
//	refused   it is not kept; why, and what is kept instead
//
// What a phone has said "saved" to arrives, or stays on the phone with a way on.
// A break on a phone is in one of these states:
//
//	state     when                                      what leads on
//	draft     tapped, not saved                         save: unsent. Saved under this id in another tab: a draft
//	                                                    nobody touched here goes, a touched one gets an id of its own
//	unsent    saved, revision above the acknowledged    send: arrived, renumbered or refused; no answer: unsent
//	arrived   the server has this revision              change or delete: unsent. A later revision there takes its place
//	renumbered  another break has its number there      next free number, one revision on: unsent. None free: stuck
//	clash     there is another revision of it there     the student sees both. mine: unsent, above theirs. theirs: arrived
//	stuck     closed, full, or its set was refused      a new set: unsent there. Open again: unsent.
//	                                                    note: a message to the coach. download. let go: gone, if the student says so
//
// A delete is one more revision, and goes the same ways. A set on a phone:
//
//	begun     not sent                                  start: open. Refused: all its breaks are stuck
//	open      on both                                   close: closing. discard when empty: gone. move: open elsewhere
//	closing   closed here, breaks or close not sent     all arrived: closed. Closed elsewhere before: the rest is stuck
//	closed    on both                                   within ten minutes, before a decision: open again
//
// A start counts as of the moment it was made, by the phone's clock put right:
// a drill that ended and a table that was put away since then are no refusal.
//
// Ids and revisions are made on the phone, so that whatever is repeated,
// reordered, cut off half-way or sent by two pages is kept once. Nothing is
// overwritten: a change made meanwhile by somebody else is sent back, and the
// student chooses. Items say whose they are; those of another person than the
// one who is signed in are not taken.
//
// Times are the phone's own, for a phone without a signal has no other. Breaks
// are ordered by number and revision, never by time, and the store notes when
// each arrived. Places are inches in the coordinates of package table.
package sync
