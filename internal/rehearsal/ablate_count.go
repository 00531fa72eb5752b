package rehearsal

import (
	"slices"

	"breakwright/internal/advice"
	"breakwright/internal/drill"
)

// withAndWithout is one student with a rule and without it.
type withAndWithout struct {
	student       Student
	with, without trainingRun
}

// pairFor puts the two trainings of a rule the right way round.
func (s ruleVariants) pairFor(r advice.Rule) withAndWithout {
	if r.Numbers.On {
		return withAndWithout{s.student, s.asItComes, s.switched[r.Name]}
	}
	return withAndWithout{s.student, s.switched[r.Name], s.asItComes}
}

func measureWorth(r advice.Rule, all []ruleVariants) RuleWorth {
	var students, faulty, faultless []withAndWithout
	for _, s := range all {
		c := s.pairFor(r)
		students = append(students, c)
		if s.student.Fault == NoFault {
			faultless = append(faultless, c)
		} else {
			faulty = append(faulty, c)
		}
	}
	gain := func(of func(Rates) float64) Mean {
		return meanOf(students, func(c withAndWithout) float64 {
			return drill.UsualBreaks * (c.with.meanRate(of) - c.without.meanRate(of))
		})
	}
	right := func(c withAndWithout, l trainingRun) bool {
		return l.changedAfter > 0 && c.student.hasRemedy(l.change)
	}
	early := func(l trainingRun) bool { return l.changedAfter >= 1 && l.changedAfter <= 3 }
	return RuleWorth{
		Rule: r.Name, Usual: r.Numbers.On,
		Touched: shareOf(students, func(c withAndWithout) bool { return !slices.Equal(c.with.setups, c.without.setups) }),
		Value: meanOf(students, func(c withAndWithout) float64 {
			return drill.UsualBreaks * (c.with.meanValue() - c.without.meanValue())
		}),
		Wing:    gain(func(r Rates) float64 { return r.Wing }),
		Window:  gain(func(r Rates) float64 { return r.Window }),
		Scratch: gain(func(r Rates) float64 { return r.Scratch }),
		Off:     gain(func(r Rates) float64 { return r.Off }),

		RightWith:    shareOf(faulty, func(c withAndWithout) bool { return right(c, c.with) }),
		RightWithout: shareOf(faulty, func(c withAndWithout) bool { return right(c, c.without) }),
		EarlyWith:    shareOf(faultless, func(c withAndWithout) bool { return early(c.with) }),
		EarlyWithout: shareOf(faultless, func(c withAndWithout) bool { return early(c.without) }),
		End: meanOf(students, func(c withAndWithout) float64 {
			return drill.UsualBreaks * (c.with.gain() - c.without.gain())
		}),
	}
}
