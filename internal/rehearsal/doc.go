// Package rehearsal sends virtual students through the real adviser and counts
// what becomes of them. Each student has at most one hidden fault, so it is
// known what the first change should be; the report says how often it was that,
// how soon the student broke well, and how often advice did harm. An Ablation
// says what each rule is worth: how the same students fare without it.
//
// There are two kinds of students. A Physics breaks on a table of package breaksim
// whose constants are moved (see world): its hands carry out what they are told with
// a bias and a scatter, and where balls go is computed. What it shows is whether the
// advice is right about tables. A Curve is made of response curves that do what the
// trade says; it is quick, and shows whether the adviser's reasoning holds together.
//
// It knows how to make students, hold trainings and count. It refuses to know how
// the adviser decides: students are not fitted to the rules, and a rule is not
// to be fitted to these students. They are drawn from ranges (see DrawStudent and
// DrawComputedStudent) that are common practice without a source, where nothing else is
// said; how real students fare, they do not show.
//
// Units are those of package drill. The same seed gives the same report. Two are kept
// beside this file: REHEARSAL.md has computed students on three racks, each judged alone,
// what came of what they were promised (see CountPromises) and which faults breaks can tell
// apart at all (see RecognizeCauses); CLASS.md has a class at one table. They are renewed, in
// an hour and a half on two cores, with
//
//	page=internal/rehearsal/REHEARSAL.md
//	run="go run ./cmd/breakwright rehearse"
//	$run --model physics --students 20 > $page
//	for rack in nine-ball/centre ten-ball/head; do
//		echo >> $page; $run --model physics --rack $rack --students 20 >> $page
//	done
//	for rack in nine-ball/head nine-ball/centre ten-ball/head; do
//		echo >> $page; $run --model physics --rack $rack --students 60 --promises >> $page
//	done
//	echo >> $page; $run --model physics --tell-apart --students 100 >> $page
//	$run --model physics --students 12 --table 4 > internal/rehearsal/CLASS.md
//	echo >> internal/rehearsal/CLASS.md
//	$run --model physics --students 40 --table 4 --promises >> internal/rehearsal/CLASS.md
//
// Eight-ball (--rack eight-ball/head), curves (no flag) and what each rule is worth
// (--ablate) are run the same way and not kept.
package rehearsal
