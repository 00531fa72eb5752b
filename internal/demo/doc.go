// Package demo fills a database with an invented club at work: a coach, twelve
// students of both sides, four tables, three drills, and the sets of the past
// weeks with what was advised and decided. Nobody in it is real.
//
// It knows the club's cast and goes through the store's own calls, as pages
// and phones do; breaks come from rehearsal's virtual students, advice from
// the real adviser. It refuses to touch a database that holds any other club.
//
// Times are told relative to a given now. The same now gives the same club,
// except for ids and join codes.
package demo
