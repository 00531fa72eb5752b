// Package rehearsal sends virtual students through the real adviser and counts
// what becomes of them. Each student has at most one hidden fault, so it is
// known what the first change should be; the report says how often it was that,
// how soon the student broke well, and how often advice did harm.
//
// It knows how to make students, hold lessons and count. It refuses to know how
// the adviser decides: students are not fitted to the rules, and a rule is not
// to be fitted to these students. They are drawn from ranges (see Draw) that
// are common practice without a source, where nothing else is said; what they
// show is whether the adviser's reasoning holds together, not how real students
// fare.
//
// Units are those of package drill. The same seed gives the same report. The one
// that is kept beside this file, REHEARSAL.md, is renewed with
//
//	go run ./cmd/breakwright rehearse > internal/rehearsal/REHEARSAL.md
package rehearsal
