// Package library holds a few lessons of our own, ready to become a club's
// drills: what each is for, what to watch, and its setup for every game in
// which the trade has it and every size of table.
//
// It knows no club and no student, and it refuses to judge a break: a lesson is
// where a coach begins, and the drill made of it is the coach's to change.
// Lengths are inches, speeds miles an hour, targets shares from 0 to 1. The
// lessons are common practice, no source.
package library
