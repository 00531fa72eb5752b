// Package store keeps everything a club owns in PostgreSQL and speaks in the
// nouns of the job: classes, drills, assignments, sets, breaks, advice.
//
// Who asks is said with every call, as a [Actor]. Each call is one
// transaction that begins by telling the database who that is, and the
// database itself keeps clubs and students apart (row level security, in
// sql/migrations). A row that the actor may not see does not exist for them:
// [ErrNotFound]. Something the actor may see but not do is [ErrNotAllowed].
// Before anyone is known there is signing in: [Store.FindCoach],
// [Store.FindStudent], sessions and the first run.
//
// Writing the same thing twice is harmless everywhere: what a page or a phone
// makes carries an id made there with [NewID], and a repeat finds it done. A
// zero id is filled in by the store, for callers that never repeat.
//
// Times are UTC. Lengths, speeds and shares are those of packages table and
// drill. Listings are complete, in the order their comments say.
//
// The package refuses to judge breaks: advice comes in through [Store.CloseSet]
// as a function. It knows no passwords, only their hashes, and no cookies, only
// the hashes of their tokens.
//
// PostgreSQL 15 or newer is needed.
package store
