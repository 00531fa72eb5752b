// Package demo fills a database with an invented club at work: a coach, twelve
// students of both sides, four tables, three drills, and the sets of the past
// weeks with what was advised and decided. Nobody in it is real.
//
// It knows the club's cast and goes through the store's own calls, as pages
// and phones do. Breaks are computed: each student is one of rehearsal's
// physical students, hands with a hidden fault and a scatter at a table of
// package breaksim, so that what is written down is what happened. Advice comes
// from the real adviser. What is to have become of a student is found in an
// audition: by trying others until one, with their luck, tells that story. It
// refuses to touch a database that holds any other club.
//
// Times are relative to a given now. The same now gives the same club,
// except for ids and join codes.
package demo
