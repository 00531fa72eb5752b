// Package whatif answers "what if": it has a setup broken some hundreds of
// times in the model of package breaksim and counts where the wing ball, the
// low balls and the cue ball went.
//
// It knows how to put a question (Question), how to break and count (Run), how
// sure a count is (Chance), and what changes from one setting to another
// (Compare). It refuses to say what a coach should do about it, and never
// speaks of a real table: a chance here is the model's.
//
// The same Question gives the same Answer for ever. Break number i of two
// questions meets the same luck (common random numbers), so that a difference
// between two settings is that of the settings. A mirrored Question gives the
// mirrored Answer.
//
// Units: inches, miles an hour, degrees and parts of the ball's radius, as in
// packages table, drill and breaksim.
package whatif
