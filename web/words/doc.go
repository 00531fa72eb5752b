// Package words holds the page of the trade's words and of the program's own, each with
// a name of its own in the address, so that a page or a coach can point at one:
// /words#wing-ball. It says what a word means here, no number that a club may set, and
// nothing of anybody: so it is open to all.
package words
