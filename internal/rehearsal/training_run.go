package rehearsal

import (
	"fmt"
	"time"

	"breakwright/internal/advice"
	"breakwright/internal/drill"
)

// trainingRun is a student's sets under one adviser, with what is true of each.
type trainingRun struct {
	student   Student
	setups    []drill.Setup // of each set, then the one that would come next
	trueRates []Rates
	change    Remedy // the first change
	// changedAfter is how many sets came before the first change; 0 for never.
	// changedTo is what is true of the setup it leads to.
	changedAfter int
	changedTo    Rates
	good         []bool // whether the adviser called each set's setup good
}

// firstDay is the day of the first set; the adviser is told times, never the clock.
var firstDay = time.Date(2026, 1, 5, 18, 0, 0, 0, time.UTC)

// breakTime returns the time of a break: a set every other day, a break every two
// minutes.
func breakTime(set, i int) time.Time {
	return firstDay.AddDate(0, 0, 2*set).Add(time.Duration(i) * 2 * time.Minute)
}

// heldSet is one set of a training, with what was advised after it.
type heldSet struct {
	number      int // from 1
	under, next condition
	advised     setupAdvice
}

// holdSets holds so many sets of ten, shows each, and returns what the next would be held
// under. Chance comes from seed alone, so that two advisers meet the same luck while they
// say the same.
func (t *rateCounter) holdSets(s Student, a setupAdviser, sets int, seed uint64, show func(heldSet)) condition {
	var history []drill.Set
	under := condition{setup: s.Start}
	for n := range sets {
		history = append(history, t.playSet(s, setKey{under, seed, n}))
		held := heldSet{number: n + 1, under: under, next: under, advised: a.adviseAfter(history)}
		if !s.followsHalf || n%2 == 0 {
			held.next = condition{held.advised.next, under.rackChecked || held.advised.checkRack}
		}
		show(held)
		under = held.next
	}
	return under
}

// runTraining holds so many sets, and counts what is true of each.
func runTraining(s Student, a setupAdviser, t *rateCounter, sets int, seed uint64) trainingRun {
	l := trainingRun{student: s}
	last := t.holdSets(s, a, sets, seed, func(h heldSet) {
		l.setups, l.trueRates = append(l.setups, h.under.setup), append(l.trueRates, t.countRates(h.under, t.usualBreaks))
		l.good = append(l.good, h.advised.good)
		l.noteFirstChange(h, t)
	})
	l.setups, l.trueRates = append(l.setups, last.setup), append(l.trueRates, t.countRates(last, t.fineBreaks))
	l.trueRates[0] = t.fineRates(s.Start)
	return l
}

// playSet returns a set of a run, as the adviser is given it.
func (t *rateCounter) playSet(s Student, r setKey) drill.Set {
	return drill.Set{Student: s.Name, Name: fmt.Sprint(r.set + 1), Table: "Practice table", Kind: s.Kind, Setup: r.setup, Breaks: t.breaksOfSet(s, r)}
}

// noteFirstChange keeps the first thing that was told, with what is true after it.
func (l *trainingRun) noteFirstChange(h heldSet, t *rateCounter) {
	if l.changedAfter != 0 {
		return
	}
	change, changed := findChange(h.under.setup, h.advised.next)
	if !changed && h.advised.checkRack && !h.under.rackChecked {
		change, changed = Remedy{Variable: checkOfRack}, true
	}
	if changed {
		l.change, l.changedAfter = change, h.number
		l.changedTo = t.countRates(condition{h.advised.next, h.advised.checkRack}, t.fineBreaks)
	}
}

// countReversals counts how often a part was moved against the way it was moved
// before: twice is a see-saw.
func (l trainingRun) countReversals() int {
	last, reversals := map[advice.Variable]bool{}, 0
	for i := 1; i < len(l.setups); i++ {
		change, changed := findChange(l.setups[i-1], l.setups[i])
		if !changed || change.Variable == advice.VaryRack {
			continue
		}
		if up, moved := last[change.Variable]; moved && up != change.Up {
			reversals++
		}
		last[change.Variable] = change.Up
	}
	return reversals
}

// meanValue is the true value of a break over the sets held.
func (l trainingRun) meanValue() float64 { return l.meanRate(l.student.valueOf) }

// meanRate is the mean of a true share over the sets held.
func (l trainingRun) meanRate(of func(Rates) float64) float64 {
	sum := 0.0
	for _, r := range l.trueRates[:len(l.trueRates)-1] {
		sum += of(r)
	}
	return sum / float64(len(l.trueRates)-1)
}

// isClose reports whether a setup has brought nine tenths of what the best would.
func (l trainingRun) isClose(r Rates, best float64) bool {
	start := l.student.valueOf(l.trueRates[0])
	return l.student.valueOf(r) >= start+0.9*(best-start)
}

// setsUntilClose is how many sets were held before the setup was close to the best;
// 0 when it never was. The setup that follows the last set counts.
func (l trainingRun) setsUntilClose(best float64) int {
	for n, r := range l.trueRates {
		if n > 0 && l.isClose(r, best) {
			return n
		}
	}
	return 0
}

// wronglyCalledGood reports whether a setup was ever called good from which a
// change would gain more than worthwhile.
func (l trainingRun) wronglyCalledGood(best, worthwhile float64) bool {
	for n, good := range l.good {
		if good && l.student.valueOf(l.trueRates[n]) < best-worthwhile {
			return true
		}
	}
	return false
}

// gain is how much more a break is worth under the last setup than under the first.
func (l trainingRun) gain() float64 {
	return l.student.valueOf(l.finalRates()) - l.student.valueOf(l.trueRates[0])
}

// finalRates is what is true of the setup that would come next.
func (l trainingRun) finalRates() Rates { return l.trueRates[len(l.trueRates)-1] }
