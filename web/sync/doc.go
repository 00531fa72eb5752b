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
