// Package rack knows how balls are racked: the games, the slots of a rack,
// which ball may stand in which slot, where each slot lies on the table, and
// how to mirror, swap and shuffle a rack order.
//
// It refuses to know who racks, how a rack breaks, and what makes a good order.
//
// Rules are those of the World Pool-Billiard Association (rules of play of
// 2008, 2016 and, from summaries only, 2025); each game's file cites its own.
// For play they ask for the other balls in no purposeful order, so a set order
// is for practice or for events that allow it.
package rack
