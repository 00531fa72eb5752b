// Package leave judges what a break leaves: is there a shot on the lowest ball,
// by which pocket, how sure is it for this student, and from where would more
// breaks leave one.
//
// # What a shot is
//
// A shot is a direction of the object ball that drops it, a place of the cue
// ball at contact that sends it there (the ghost ball, one ball's width behind
// it on that line), and a way for the cue ball to that place. All directions that do
// so form the shot's window. It is found exactly, by geometry alone: the tips
// of the pocket's jaws and how near to them a ball may pass (table.Pocket.JawClearance),
// the noses, which leave the ghost ball no room behind a ball on the rail, and
// every ball that stands in the way of either ball. The window is then seen from
// the cue ball: two directions between which it must be sent. The chance of the
// shot is the share of a normal error of direction (Accuracy) that falls between
// them, aimed at their middle. See MODEL.md for how this compares with computed
// shots.
//
// Banks (the object ball by one rail) and kicks (the cue ball by one rail) are
// found on the looking-glass image of the table, with a further error for the
// rebound. They are called what they are and never count as open.
//
// # What it refuses to know
//
// Speed, spin, throw (the object ball is taken to leave along the line of
// centres), swerve, jumps, combinations, caroms, safeties, cueing over a ball or
// off a rail. Throw of one to four degrees is common at slow speeds; a player
// aims it away, and what is left of it belongs to the accuracy. Balls that were
// not placed are not on the table for the geometry; every answer reports whether
// there were any, since only "none" is certain then.
//
// Lengths are inches, places as in package table, angles degrees outside and
// radians inside. A mirrored leave has the mirrored answer to the last bit.
package leave
