package rehearsal

import (
	"cmp"
	"math"
	"slices"

	"breakwright/internal/advice"
	"breakwright/internal/evidence"
)

func shareOf[S any](students []S, is func(S) bool) Share {
	s := Share{Of: len(students)}
	for _, o := range students {
		if is(o) {
			s.Count++
		}
	}
	return shareOfCount(s.Count, s.Of)
}

func shareOfCount(count, of int) Share {
	interval := evidence.WilsonInterval(count, of, 0.95)
	return Share{count, of, interval.Low, interval.High}
}

func meanOf[S any](students []S, of func(S) float64) Mean {
	return weighedMeanOf(students, func(S) float64 { return 1 }, of)
}

// weighedMeanOf is a mean in which each counts as much as its weight.
func weighedMeanOf[S any](all []S, weight, of func(S) float64) Mean {
	if len(all) == 0 {
		return Mean{}
	}
	whole, sum, squares := 0.0, 0.0, 0.0
	for _, s := range all {
		whole += weight(s)
		sum += weight(s) * of(s)
	}
	mean := sum / whole
	for _, s := range all {
		apart := weight(s) * (of(s) - mean)
		squares += apart * apart
	}
	n := float64(len(all))
	half := 1.96 * math.Sqrt(squares*n/max(n-1, 1)) / whole
	return Mean{mean, mean - half, mean + half}
}

func meanRates(students []studentOutcome, of func(studentOutcome) Rates) Rates {
	mean := func(part func(Rates) float64) float64 {
		return meanOf(students, func(o studentOutcome) float64 { return part(of(o)) }).Mean
	}
	return Rates{
		Wing:    mean(func(r Rates) float64 { return r.Wing }),
		Window:  mean(func(r Rates) float64 { return r.Window }),
		Good:    mean(func(r Rates) float64 { return r.Good }),
		Middle:  mean(func(r Rates) float64 { return r.Middle }),
		Scratch: mean(func(r Rates) float64 { return r.Scratch }),
		Off:     mean(func(r Rates) float64 { return r.Off }),
		Dry:     mean(func(r Rates) float64 { return r.Dry }),
		Weak:    mean(func(r Rates) float64 { return r.Weak }),
		Clean:   mean(func(r Rates) float64 { return r.Clean }),
		Worth:   mean(func(r Rates) float64 { return r.Worth }),
	}
}

func countFirstChanges(students []studentOutcome) ([]FirstChange, float64) {
	count := map[advice.Variable]int{}
	var after []int
	for _, o := range students {
		if o.advised.changedAfter == 0 {
			count[advice.VaryNone]++
			continue
		}
		count[o.advised.change.Variable]++
		after = append(after, o.advised.changedAfter)
	}
	var list []FirstChange
	for variable, n := range count {
		list = append(list, FirstChange{variable, n})
	}
	slices.SortFunc(list, func(a, b FirstChange) int {
		return cmp.Or(cmp.Compare(b.Students, a.Students), cmp.Compare(a.Variable, b.Variable))
	})
	if len(after) == 0 {
		return list, 0
	}
	slices.Sort(after)
	n := len(after)
	return list, float64(after[(n-1)/2]+after[n/2]) / 2
}

func setsUntilHalfClose(students []studentOutcome) int {
	var after []int
	for _, o := range students {
		if n := o.advised.setsUntilClose(o.best.value); n > 0 {
			after = append(after, n)
		}
	}
	half := (len(students) + 1) / 2
	if len(after) < half {
		return 0
	}
	slices.Sort(after)
	return after[half-1]
}
