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
	// wholes are what the chances of each fact add up to before, and their logarithms; 0
	// until asked for.
	wholes    [response.FactCount]float32
	logWholes [response.FactCount]float64
}

// whole returns what the chances of a fact add up to, and the logarithm of that.
func (l *localPrediction) whole(f response.Fact) (sum float32, log float64) {
	if l.wholes[f] == 0 {
		from, to := response.OutcomesOf(f)
		for i, factor := range l.departure.factors[from:to] {
			sum += l.chance(from+i) * factor
		}
		l.wholes[f], l.logWholes[f] = sum, math.Log(float64(sum))
	}
	return l.wholes[f], l.logWholes[f]
}

// share gives the chance of a fact's outcome by its index.
func (l *localPrediction) share(f response.Fact, index int) float64 {
	if index >= response.OutputCount() { // derived for a break of which less was seen
		sum := 0.0
		for _, part := range response.PartsOf(index) {
			sum += l.share(f, part)
		}
		return sum
	}
	if l.departure == nil {
		return float64(l.chance(index))
	}
	whole, _ := l.whole(f)
	return float64(l.chance(index) * l.departure.factors[index] / whole)
}

// logShare returns the logarithm of share, by the logarithms of the computed chances.
func (l *localPrediction) logShare(f response.Fact, index int, logs []float32) float64 {
	switch {
	case index >= response.OutputCount():
		return math.Log(l.share(f, index))
	case l.departure == nil:
		return float64(logs[index])
	}
	_, logWhole := l.whole(f)
	return float64(logs[index]) + l.departure.logs[index] - logWhole
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
