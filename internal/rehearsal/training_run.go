package rehearsal

import (
	"fmt"
	"time"

	"breakwright/internal/drill"
)

// trainingRun is a student's sets under one adviser, with what is true of each.
type trainingRun struct {
	setups    []drill.Setup // of each set, then the one that would come next
	trueRates []Rates
	change    Remedy // the first change
	// changedAfter is how many sets came before the first change; 0 for never.
	changedAfter int
	good         []bool // whether the adviser called each set's setup good
}

// firstDay is the day of the first set; the adviser is told times, never the clock.
var firstDay = time.Date(2026, 1, 5, 18, 0, 0, 0, time.UTC)

// breakTime gives the time of a break: a set every other day, a break every two
// minutes.
func breakTime(set, i int) time.Time {
	return firstDay.AddDate(0, 0, 2*set).Add(time.Duration(i) * 2 * time.Minute)
}

// runTraining holds a lesson of so many sets of ten. Chance comes from seed alone, so
// that two advisers meet the same luck while they say the same.
func runTraining(s Student, a setupAdviser, t *rateCounter, sets int, seed uint64) trainingRun {
	var l trainingRun
	var history []drill.Set
	setup := s.Start
	for n := range sets {
		set := drill.Set{Student: s.Name, Name: fmt.Sprint(n + 1), Table: "Practice table", Kind: s.Kind, Setup: setup}
		set.Breaks = t.breaksOfSet(s, setKey{setup, seed, n})
		history = append(history, set)
		l.setups, l.trueRates = append(l.setups, setup), append(l.trueRates, t.usualRates(setup))
		next, good := a.nextSetup(history)
		l.good = append(l.good, good)
		if change, changed := findChange(setup, next); changed && l.changedAfter == 0 {
			l.change, l.changedAfter = change, n+1
		}
		setup = next
	}
	l.setups, l.trueRates = append(l.setups, setup), append(l.trueRates, t.fineRates(setup))
	l.trueRates[0] = t.fineRates(s.Start)
	return l
}

// meanGoodRate is the true share of good breaks over the sets held.
func (l trainingRun) meanGoodRate() float64 {
	return l.meanRate(func(r Rates) float64 { return r.Good })
}

// meanRate is the mean of a true share over the sets held.
func (l trainingRun) meanRate(of func(Rates) float64) float64 {
	sum := 0.0
	for _, r := range l.trueRates[:len(l.trueRates)-1] {
		sum += of(r)
	}
	return sum / float64(len(l.trueRates)-1)
}

// setsUntilClose is how many sets were held before the setup gave nine tenths of the
// best share of good breaks; 0 when it never did. The setup that follows the
// last set counts.
func (l trainingRun) setsUntilClose(best float64) int {
	for n, r := range l.trueRates {
		if n > 0 && r.Good >= 0.9*best {
			return n
		}
	}
	return 0
}

// endsClose reports whether the setup the lesson ends with is that good.
func (l trainingRun) endsClose(best float64) bool {
	return l.trueRates[len(l.trueRates)-1].Good >= 0.9*best
}

// wronglyCalledGood reports whether a setup was ever called good that gives less than
// three quarters of the best share of good breaks.
func (l trainingRun) wronglyCalledGood(best float64) bool {
	for n, good := range l.good {
		if good && l.trueRates[n].Good < 0.75*best {
			return true
		}
	}
	return false
}

// goodRateGain is the change in the share of good breaks from the first setup to the last.
func (l trainingRun) goodRateGain() float64 { return l.finalRates().Good - l.trueRates[0].Good }

// finalRates is what is true of the setup that would come next.
func (l trainingRun) finalRates() Rates { return l.trueRates[len(l.trueRates)-1] }
