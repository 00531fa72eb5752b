// Package advice turns a student's whole history into exactly one good change,
// with its evidence, or into the honest answer that it is too early to tell;
// and it checks whether the last change came true.
//
// It knows the coach's rules (see Catalogue), the club's numbers for them, and
// what a break from the left is meant to do. Everything is worked out for a
// break from the left; a break from the right is mirrored on the way in and
// the answer mirrored on the way out, so the two can never disagree.
//
// It refuses to do statistics of its own (package evidence does them), to read
// a clock, a file or a random source, and to guess what was not observed: an
// empty cell is never a zero. The same breaks give the same words for ever.
//
// Units: places in inches, contact in inches from full, tip and spin as
// fractions of the ball's radius, speed in mph, rates and certainties from 0
// to 1. All sentences are composed in the files named words.
//
// Source of the rules, unless one says otherwise: common practice, no source.
package advice
