// Package say writes what a reader reads: counts, plurals, days, lengths and
// speeds, each in one way wherever it stands, and the sentences of the adviser,
// which arrive as data and are told to the student, to a coach or on paper. It
// knows the units of package table and no noun, no page and no judgement.
//
// A number is rounded once, here: lengths and speeds to a tenth. What is written
// is in English, for a screen reader as well.
package say
