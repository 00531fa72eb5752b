// Package progress says where students stand: each against their own past (a
// control chart of their sets, changes that did nothing) and against those they
// can be compared with (rates drawn toward the class by how little is known).
//
// It knows counts of makes, kinds of table and the outcomes of changes. It
// refuses to know who anybody is, how counts are kept, and every wording.
//
// Rates are shares from 0 to 1; a chart's sums are in makes of ten breaks.
package progress
