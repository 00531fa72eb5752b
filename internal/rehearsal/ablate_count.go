package rehearsal

import (
	"slices"

	"breakwright/internal/advice"
	"breakwright/internal/drill"
)

// compared is one student with a rule and without it.
type compared struct {
	student       Student
	with, without lesson
}

// pair puts the two lessons of a rule the right way round.
func (s switched) pair(r advice.Rule) compared {
	if r.Numbers.On {
		return compared{s.student, s.usual, s.other[r.Name]}
	}
	return compared{s.student, s.other[r.Name], s.usual}
}

func worthOf(r advice.Rule, all []switched) Worth {
	var students, faulty, faultless []compared
	for _, s := range all {
		c := s.pair(r)
		students = append(students, c)
		if s.student.Fault == NoFault {
			faultless = append(faultless, c)
		} else {
			faulty = append(faulty, c)
		}
	}
	gain := func(of func(Rates) float64) Mean {
		return meanOf(students, func(c compared) float64 {
			return drill.UsualBreaks * (c.with.mean(of) - c.without.mean(of))
		})
	}
	right := func(c compared, l lesson) bool { return l.changedAfter > 0 && c.student.has(l.change, true) }
	early := func(l lesson) bool { return l.changedAfter >= 1 && l.changedAfter <= 3 }
	return Worth{
		Rule: r.Name, Usual: r.Numbers.On,
		Touched: shareOf(students, func(c compared) bool { return !slices.Equal(c.with.setups, c.without.setups) }),
		Good:    gain(func(r Rates) float64 { return r.Good }),
		Wing:    gain(func(r Rates) float64 { return r.Wing }),
		Window:  gain(func(r Rates) float64 { return r.Window }),
		Scratch: gain(func(r Rates) float64 { return r.Scratch }),
		Off:     gain(func(r Rates) float64 { return r.Off }),

		RightWith:    shareOf(faulty, func(c compared) bool { return right(c, c.with) }),
		RightWithout: shareOf(faulty, func(c compared) bool { return right(c, c.without) }),
		EarlyWith:    shareOf(faultless, func(c compared) bool { return early(c.with) }),
		EarlyWithout: shareOf(faultless, func(c compared) bool { return early(c.without) }),
		End: meanOf(students, func(c compared) float64 {
			return drill.UsualBreaks * (c.with.end().Good - c.without.end().Good)
		}),
	}
}
