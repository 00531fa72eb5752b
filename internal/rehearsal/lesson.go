package rehearsal

import (
	"fmt"
	"time"

	"breakwright/internal/drill"
)

// lesson is a student's sets under one adviser, with what is true of each.
type lesson struct {
	setups []drill.Setup // of each set, then the one that would come next
	truths []Rates
	change Remedy // the first change
	// changedAfter is how many sets came before the first change; 0 for never.
	changedAfter int
	good         []bool // whether the adviser called each set's setup good
}

// term is the day of the first set; the adviser is told times, never the clock.
var term = time.Date(2026, 1, 5, 18, 0, 0, 0, time.UTC)

// clock gives the time of a break: a set every other day, a break every two
// minutes.
func clock(set, i int) time.Time {
	return term.AddDate(0, 0, 2*set).Add(time.Duration(i) * 2 * time.Minute)
}

// hold holds a lesson of so many sets of ten. Chance comes from seed alone, so
// that two advisers meet the same luck while they say the same.
func hold(s Student, a adviser, t *truth, sets int, seed uint64) lesson {
	var l lesson
	var history []drill.Set
	setup := s.Start
	for n := range sets {
		set := drill.Set{Student: s.Name, Name: fmt.Sprint(n + 1), Table: "Practice table", Kind: s.Kind, Setup: setup}
		set.Breaks = t.breaksOf(s, round{setup, seed, n})
		history = append(history, set)
		l.setups, l.truths = append(l.setups, setup), append(l.truths, t.of(setup))
		next, good := a.next(history)
		l.good = append(l.good, good)
		if change, changed := changeOf(setup, next); changed && l.changedAfter == 0 {
			l.change, l.changedAfter = change, n+1
		}
		setup = next
	}
	l.setups, l.truths = append(l.setups, setup), append(l.truths, t.closely(setup))
	l.truths[0] = t.closely(s.Start)
	return l
}

// meanGood is the true share of good breaks over the sets held.
func (l lesson) meanGood() float64 { return l.mean(func(r Rates) float64 { return r.Good }) }

// mean is the mean of a true share over the sets held.
func (l lesson) mean(of func(Rates) float64) float64 {
	sum := 0.0
	for _, r := range l.truths[:len(l.truths)-1] {
		sum += of(r)
	}
	return sum / float64(len(l.truths)-1)
}

// closeBy is how many sets were held before the setup gave nine tenths of the
// best share of good breaks; 0 when it never did. The setup that follows the
// last set counts.
func (l lesson) closeBy(best float64) int {
	for n, r := range l.truths {
		if n > 0 && r.Good >= 0.9*best {
			return n
		}
	}
	return 0
}

// settledClose says whether the setup the lesson ends with is that good.
func (l lesson) settledClose(best float64) bool { return l.truths[len(l.truths)-1].Good >= 0.9*best }

// calledGood says whether a setup was ever called good that gives less than
// three quarters of the best share of good breaks.
func (l lesson) calledGood(best float64) bool {
	for n, good := range l.good {
		if good && l.truths[n].Good < 0.75*best {
			return true
		}
	}
	return false
}

// gain is the change in the share of good breaks from the first setup to the last.
func (l lesson) gain() float64 { return l.end().Good - l.truths[0].Good }

// end is what is true of the setup that would come next.
func (l lesson) end() Rates { return l.truths[len(l.truths)-1] }
