// Package coaching knows what a coach's decision does. It holds the one record
// of a change of setup, from the proposal to what came of it, and the rules by
// which the record goes on: what a student is to do next, which change is being
// tried, when an older change gives way to a newer one, when a decision can be
// taken back, and what the adviser is told of a decision against it.
//
// It knows no database, no page and no sentence. Times and ids are given; the
// same events give the same record for ever. Setups are the right way round for
// the student, places in inches, speeds in mph.
package coaching
