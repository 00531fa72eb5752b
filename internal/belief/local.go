package belief

import "breakwright/internal/response"

// localPrediction is what one stroke shows on a club's own tables: the computed chances,
// each as much likelier as it was seen to be, and those of a fact adding up to 1 again.
type localPrediction struct {
	*prediction
	departure *departure // nil: as computed
	// wholes are what the chances of each fact add up to before; 0 until asked for.
	wholes [response.FactCount]float32
}

// whole returns what the chances of a fact add up to.
func (l *localPrediction) whole(f response.Fact) float32 {
	if l.wholes[f] == 0 {
		from, to := response.OutcomesOf(f)
		for i, factor := range l.departure.factors[from:to] {
			l.wholes[f] += l.chances[from+i] * factor
		}
	}
	return l.wholes[f]
}

// share returns the chance of a fact's outcome by its index.
func (l *localPrediction) share(f response.Fact, index int) float64 {
	if l.departure == nil {
		return float64(l.chances[index])
	}
	return float64(l.chances[index] * l.departure.factors[index] / l.whole(f))
}

// parts returns what breaks are worth, by parts.
func (l *localPrediction) parts() (p Parts) {
	for _, part := range partList {
		for _, index := range part.indexes {
			*part.chance(&p) += l.share(part.fact, index)
		}
	}
	return p
}

// unpack writes the chance of every outcome.
func (l *localPrediction) unpack(into response.Response) {
	for f := range response.FactCount {
		from, to := response.OutcomesOf(response.Fact(f))
		for index := from; index < to; index++ {
			into[index] = float32(l.share(response.Fact(f), index))
		}
	}
	into.Derive()
}
