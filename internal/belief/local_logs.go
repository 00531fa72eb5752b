package belief

import (
	"slices"
	"sync"
	"sync/atomic"

	"breakwright/internal/response"
	"breakwright/internal/vector"
)

// localPredictions is what every hand of the cloud shows in a situation, on a club's own
// tables.
type localPredictions struct {
	*response.Predictions
	departure *departure // nil: as computed
	wholes    [facts]logWhole
	// rows are the logarithms of shares by index, where they are kept: of what was asked for
	// more than once.
	rows     []atomic.Pointer[[]float32]
	isShared atomic.Bool
}

// logWhole is the logarithm of what each hand's chances of a fact add up to.
type logWhole struct {
	once sync.Once
	logs []float32
}

// The room that local predictions take with the wholes of all facts, and that of a row, in
// bytes.
const (
	localBytes = 17_000
	rowBytes   = 2_000
)

// predictAllOn returns what every hand of the cloud makes of it on tables that depart. It is
// kept for students beside nearly the same others, whose tables depart alike.
func (s *situation) predictAllOn(d *departure) *localPredictions {
	isNew := false
	l := s.locals.FindOrCompute(d, func() *localPredictions {
		isNew = true
		situations.TakeRoom(localBytes)
		return &localPredictions{Predictions: s.predictAll(), departure: d, rows: make([]atomic.Pointer[[]float32], response.Width)}
	})
	if !isNew {
		l.isShared.Store(true)
	}
	return l
}

// logShares returns the logarithm of every hand's chance of a fact's outcome, none below
// surest; what it gives may stand in the scratch.
func (l *localPredictions) logShares(f response.Fact, index int, scratch []float32) []float32 {
	if row := l.rows[index].Load(); row != nil {
		return *row
	}
	l.computeLogShares(f, index, scratch)
	if l.isShared.Load() {
		row := slices.Clone(scratch)
		l.rows[index].Store(&row)
		situations.TakeRoom(rowBytes)
	}
	return scratch
}

func (l *localPredictions) computeLogShares(f response.Fact, index int, into []float32) {
	if index >= response.OutputCount() { // derived for a break of which less was seen
		l.logSums(response.PartsOf(index), into)
	} else {
		l.logChances(index, into)
	}
	if l.departure != nil {
		vector.AddProduct(into, l.logWhole(f), -1)
	}
	for hand, log := range into {
		into[hand] = max(log, surest)
	}
}

func (l *localPredictions) logWhole(f response.Fact) []float32 {
	of := &l.wholes[f]
	of.once.Do(func() {
		of.logs = make([]float32, len(cloud))
		l.logSums(outcomesOf[f], of.logs)
	})
	return of.logs
}

// logChances writes the logarithms of each hand's chance of an outcome, before those of its
// fact add up to 1.
func (l *localPredictions) logChances(index int, into []float32) {
	l.Logs(index, into)
	if l.departure != nil {
		more := l.departure.logs[index]
		for hand := range into {
			into[hand] += more
		}
	}
}

// logSums writes the logarithms of what each hand's chances of some outcomes add up to,
// before those of their fact add up to 1.
func (l *localPredictions) logSums(indexes []int, into []float32) {
	clear(into)
	chances := make([]float32, len(into))
	for _, index := range indexes {
		factor := float32(1)
		if l.departure != nil {
			factor = l.departure.factors[index]
		}
		l.Chances(index, chances)
		vector.AddProduct(into, chances, factor)
	}
	vector.Log(into)
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
