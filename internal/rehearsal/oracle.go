package rehearsal

import (
	"math"

	"breakwright/internal/drill"
	"breakwright/internal/table"
)

// bestChange is what somebody who knew a student's true rates would tell them: the
// single change of most value, and that value.
type bestChange struct {
	setup drill.Setup
	value float64
}

// roughGain is by how much a change, counted roughly, may look worse than the best so
// far and be counted finely all the same.
const roughGain = 0.1

// findBestChange looks through every single change that the adviser could tell. The best of
// many is also the luckiest of those that are as good, so that what it gains is counted on
// other breaks than those it was found by.
func findBestChange(s Student, t *rateCounter) bestChange {
	best := condition{setup: s.Start}
	most := s.valueOf(t.fineRates(s.Start))
	for _, to := range listSingleChanges(s.Start, s.Kind) {
		if s.valueOf(t.countRates(condition{setup: to}, t.roughBreaks)) < most-roughGain {
			continue
		}
		if value := s.valueOf(t.fineRates(to)); value > most {
			best.setup, most = to, value
		}
	}
	if s.rackChecked != nil {
		if checked := (condition{s.Start, true}); s.valueOf(t.countRates(checked, t.fineBreaks)) > most {
			best = checked
		}
	}
	fresh := t.withOtherLuck()
	gain := s.valueOf(fresh.countRates(best, t.fineBreaks)) - s.valueOf(fresh.fineRates(s.Start))
	return bestChange{best.setup, s.valueOf(t.fineRates(s.Start)) + gain}
}

// listSingleChanges lists setups that differ in one part, within what is taught.
func listSingleChanges(from drill.Setup, k table.Kind) []drill.Setup {
	left := from.ForSide(table.Left)
	var list []drill.Setup
	add := func(change func(*drill.Setup)) {
		s := left
		change(&s)
		s = s.Rounded()
		if s != left && s.Check(k) == nil {
			list = append(list, s.ForSide(from.Side))
		}
	}
	for _, sign := range []float64{1, -1} {
		for _, inches := range []float64{1, 2, 3, 4, 6, 8, 10} {
			add(func(s *drill.Setup) { s.Cue.X = table.Inches(math.Round(float64(s.Cue.X) - sign*inches)) })
		}
		for tenths := 1.0; tenths <= 5; tenths++ {
			add(func(s *drill.Setup) { s.Contact += table.Inches(sign * tenths / 10) })
			add(func(s *drill.Setup) { s.Tip += drill.RadiusFraction(sign * tenths / 10) })
			add(func(s *drill.Setup) { s.Spin += drill.RadiusFraction(sign * tenths / 10) })
		}
		for _, mph := range []float64{1, 2, 3, 4, 6} {
			if from.Speed != 0 {
				add(func(s *drill.Setup) { s.Speed += table.Mph(sign * mph) })
			}
		}
	}
	return list
}
