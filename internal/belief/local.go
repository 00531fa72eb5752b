package belief

import (
	"math"

	"breakwright/internal/response"
)

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
			l.wholes[f] += l.chance(from+i) * factor
		}
	}
	return l.wholes[f]
}

// share returns the chance of a fact's outcome by its index.
func (l *localPrediction) share(f response.Fact, index int) float64 {
	if l.departure == nil {
		return float64(l.chance(index))
	}
	return float64(l.chance(index) * l.departure.factors[index] / l.whole(f))
}

// middle returns the chance that the cue ball comes to rest between head string and centre.
func (l *localPrediction) middle() float64 {
	sum := 0.0
	for _, index := range response.MiddleOutcomes() {
		sum += l.share(response.Cue, index)
	}
	return sum
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

// localPredictions is what every hand of the cloud shows in a situation, on a club's own
// tables.
type localPredictions struct {
	*response.Predictions
	departure *departure // nil: as computed
	// logWholes are the logarithms of what each hand's chances of a fact add up to; nil
	// until asked for.
	logWholes [facts][]float64
}

// logShares writes the logarithm of every hand's chance of a fact's outcome.
func (l *localPredictions) logShares(f response.Fact, index int, into []float64) {
	if index >= response.OutputCount() { // derived for a break of which less was seen
		l.logSums(response.PartsOf(index), into)
	} else {
		l.logChances(index, into)
	}
	if l.departure == nil {
		return
	}
	if l.logWholes[f] == nil {
		l.logWholes[f] = make([]float64, len(cloud))
		l.logSums(outcomesOf[f], l.logWholes[f])
	}
	for hand, log := range l.logWholes[f] {
		into[hand] -= log
	}
}

// logChances writes the logarithms of each hand's chance of an outcome, before those of its
// fact add up to 1.
func (l *localPredictions) logChances(index int, into []float64) {
	more := 0.0
	if l.departure != nil {
		more = l.departure.logs[index]
	}
	for hand, log := range l.Logs(index) {
		into[hand] = float64(log) + more
	}
}

// logSums writes the logarithms of what each hand's chances of some outcomes add up to,
// before those of their fact add up to 1.
func (l *localPredictions) logSums(indexes []int, into []float64) {
	sums := make([]float32, len(cloud))
	for _, index := range indexes {
		factor := float32(1)
		if l.departure != nil {
			factor = l.departure.factors[index]
		}
		for hand, chance := range l.Chances(index) {
			sums[hand] += factor * chance
		}
	}
	for hand, sum := range sums {
		into[hand] = math.Log(float64(sum))
	}
}

// outcomesOf lists the outcomes of each fact.
var outcomesOf = func() (lists [facts][]int) {
	for f := range lists {
		from, to := response.OutcomesOf(response.Fact(f))
		for index := from; index < to; index++ {
			lists[f] = append(lists[f], index)
		}
	}
	return lists
}()
