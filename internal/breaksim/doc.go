// Package breaksim computes a break from first principles: balls with mass and
// spin on a cloth with friction, in a rack that is tight or has small gaps,
// between cushions with pockets. Give it what a breaker is asked to do (Input), how
// steadily the breaker does it (Scatter) and a seeded random source, and it
// says everything a student could write down afterwards (Result).
//
// How it goes: between contacts every ball moves in closed form (sliding,
// rolling, in the air), so the simulation jumps from one event to the next and
// finds each event as the root of a polynomial of degree four or less. While
// balls of a cluster press on one another, as the whole rack does for the first
// few thousandths of a second, their contacts are not one after another but at
// once; that short time alone is integrated in small steps as stiff springs
// with damping and friction, and then the balls fly free again. MODEL.md beside
// this file says what is modelled, how well, and where it and common practice
// disagree.
//
// It refuses to know who breaks, what was seen at a real table, and what should
// be changed next: it takes no observation and gives no advice.
//
// Units: what goes in and comes out is in the units of package table (inches,
// miles an hour) and degrees. Inside, everything is metres, kilograms, seconds
// and radians, without exception; x, y are those of package table, z points up
// from the cloth, and a ball's height z is 0 when its base rests on the cloth.
//
// The same Input, Params and random source give the same Result for ever on one
// kind of processor. A mirrored Input gives the mirrored Result to the last
// bit, with or without scatter: a break from the right is mirrored, computed as
// one from the left, and mirrored back.
package breaksim
