// Package response says what a stroke would show: for a break really struck so,
// on such a rack and table, how likely is each fact that a student can write
// down (what the wing ball met, how and where the cue ball came to rest, what
// dropped, which rails were met, whether there is a shot). How the table plays is told in
// a few numbers (Character), which breaks of many students can tell.
//
// It was learned from millions of breaks computed by package breaksim, with
// its constants moved about inside their plausible ranges, by the command in
// internal/response/train, and is committed as a small file of weights
// (model.bin); MODEL.md beside it has its size and its error on breaks it was
// not made from. It is one small network for each game and ball on the foot
// spot.
//
// Everything is in the frame of a break from the left; mirror a break from the
// right before it is counted, and it is exact by construction. It refuses to
// know students, setups that were only told, and what should be changed.
//
// Units: inches, miles an hour, fractions of the ball's radius; chances from
// 0 to 1.
package response
