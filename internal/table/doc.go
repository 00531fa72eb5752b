// Package table knows the pool table: its sizes, spots, strings, pockets and
// rails, the places on its cloth and the words for them, and which way round
// left and right are. It is the only package that changes units.
//
// Coordinates are inches from the noses of the cushions, as everywhere in
// Breakwright: x runs across the table, 0 on the long string, positive to the
// right as seen from the head end looking at the foot; y runs along it, 0 at
// the head rail's nose, growing towards the foot. A ball's place is where its
// base rests, which is the place of its centre seen from above.
//
// It refuses to know who plays, what was racked, and how balls move.
//
// Sizes, spots and pocket mouths are those of the World Pool-Billiard
// Association's table and equipment specification (effective November 2001);
// the 7-foot table is not in it and is common practice, no source.
package table
