// Package evidence tells luck from habit. It turns counts ("3 of 10") into
// intervals, posteriors, a control chart, shrunken rates, two-dimensional scatter
// and the choice of the next place to try.
//
// It knows nothing of pool: no ball, no table, no drill, no wording. It has no
// clock, no file and no random source, so the same counts give the same answer
// for ever. Callers bring the meaning and the sentence.
//
// # Units
//
// A rate, a probability, a level and a certainty are plain numbers from 0 to 1,
// never per cent. Counts are whole breaks. A place along a line and a point of
// a scatter are in whatever unit the caller uses, the same for both
// coordinates; answers come back in that unit (areas and covariances in its
// square).
//
// # Impossible input
//
// Nothing here returns NaN. A count that cannot be (fewer than none, more made
// than tried) is treated as no observation: the interval is the widest, the
// posterior is the prior. A level that is not between 0 and 1 also gives the
// widest interval. So a mistake upstream makes an answer less sure, never more.
//
// # Sources
//
// Each file names the papers it follows, and each test names the source of the
// number it checks. Numbers said to be computed independently were obtained by
// other programs than this one.
package evidence
