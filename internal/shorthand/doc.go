// Package shorthand reads a break as one short line, for a coach who
// types in what a student wrote on paper:
//
//	1 2hr c5 b +
//
// says that the wing ball dropped in its corner, the 2 in the right head corner,
// and that the cue ball came back off the rack and stopped in square c5 with an
// open shot on the lowest ball. The pieces are set apart by spaces and come in
// this order; only the first and the cue ball's end are needed.
//
//	wing ball   1 in its corner; it stayed up and met first: s side rail,
//	            f foot rail, k another ball (kissed), j the jaws, ? not seen;
//	            a pocket: it dropped there; o off the table
//	others      the ball and its pocket, 2hr; the ball and o, 7o: off the table
//	cue ball    a square, c5; inches, -3.5,41; a pocket: scratch; o off the table
//	its way     b back off the rack, h off the head rail, w on forward, t hit by
//	            another ball
//	shot        + open, = hard, - none
//	counts      r6 six balls to a rail, p2 two past the head string, v18.5 mph
//	note        everything after a /
//
// Pockets are hl hr sl sr fl fr: head, side and foot, left and right. A square
// is half a diamond wide and long: a to h from the left rail to the right as the
// breaker sees them, 1 to 16 from the head rail to the foot. It stands for the
// place in its middle, so a cue ball read off a sheet is known to about a
// sixteenth of the table's length either way.
//
// Capital letters are read as small ones. The package knows no set and no
// student and leaves what can have happened to package drill, which it asks.
package shorthand
