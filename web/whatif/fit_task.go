package whatif

import (
	"context"
	"fmt"
	"hash/fnv"

	"breakwright/internal/drill"
	"breakwright/internal/fit"
	"breakwright/internal/table"
)

// What is fitted to.
const (
	// minFitBreaks is how many a fit needs to be worth its time.
	minFitBreaks = 10
	// enoughFitBreaks is when no older breaks are taken: hands change.
	enoughFitBreaks = 60
	maxFitSetups    = 3
)

// recentStint is what a student recorded under one setup on one kind of table.
type recentStint struct {
	Setup  drill.Setup
	Kind   table.Kind
	Table  string
	Breaks []drill.Break
}

// listRecentStints takes the newest breaks from a student's sets, oldest first: all of the
// latest stint, and older ones from the same side until there are enough. Setups
// that cannot be asked of anyone are passed over.
func listRecentStints(sets []drill.Set) []recentStint {
	all := drill.GroupStints(sets)
	var list []recentStint
	n := 0
	for i := len(all) - 1; i >= 0 && n < enoughFitBreaks; i-- {
		s := recentStint{Setup: all[i].Setup.Rounded(), Kind: all[i].Kind, Table: all[i].Table}
		for _, set := range all[i].Sets {
			s.Breaks = append(s.Breaks, set.Breaks...)
		}
		if s.Setup.Check(s.Kind) != nil || len(list) > 0 && s.Setup.Side != list[0].Setup.Side {
			continue
		}
		n += len(s.Breaks)
		if list = mergeStint(list, s); len(list) == maxFitSetups {
			break
		}
	}
	return list
}

// mergeStint puts the breaks under one setup together.
func mergeStint(list []recentStint, s recentStint) []recentStint {
	for i := range list {
		if list[i].Setup == s.Setup && list[i].Kind == s.Kind {
			list[i].Breaks = append(list[i].Breaks, s.Breaks...)
			return list
		}
	}
	return append(list, s)
}

// handsFitTask fits hands to breaks; the banks it computes are kept for the next.
type handsFitTask struct {
	stints []recentStint
	cache  *answerCache
}

// Key is made of what a fit looks at.
func (t handsFitTask) Key() string {
	h := fnv.New128a()
	for _, s := range t.stints {
		fmt.Fprint(h, bankCacheKey(s))
		for _, b := range s.Breaks {
			fmt.Fprint(h, b.Pocketed, b.Off, b.Cue, b.WingMiss, b.CuePath, ";")
		}
	}
	return fmt.Sprintf("fit %x", h.Sum(nil))
}

func bankCacheKey(s recentStint) string {
	from := s.Setup.ForSide(table.Left)
	return fmt.Sprint("banks ", s.Kind, from.Game, from.Spot, from.Order, from.Wing, from.Cue, " ", from.Contact, " ", from.Tip, " ", from.Spin, " ", from.Speed)
}

// A pair of banks takes as much room as some hundreds of kept breaks.
const (
	pairBreaks = 2 * fit.UsualBreaks
	pairWeight = 400
)

func (t handsFitTask) CountBreaks() int { return pairBreaks * len(t.stints) }
func (t handsFitTask) CacheWeight() int { return 10 }

func (t handsFitTask) Run(ctx context.Context, progress func(int)) (any, error) {
	var all []fit.RecordedBreaks
	for i, s := range t.stints {
		pair, err := t.loadBankPair(ctx, s, func(done int) { progress(i*pairBreaks + done) })
		if err != nil {
			return nil, err
		}
		all = append(all, fit.RecordedBreaks{Banks: pair, Setup: s.Setup, Breaks: s.Breaks})
	}
	return fit.EstimateHands(all)
}

func (t handsFitTask) loadBankPair(ctx context.Context, s recentStint, progress func(int)) (fit.BankPair, error) {
	if kept, found := t.cache.getAnswer(bankCacheKey(s)); found {
		return kept.(fit.BankPair), nil
	}
	pair, err := fit.NewBankPair(ctx, s.Setup, s.Kind, fit.UsualBreaks, progress)
	if err == nil {
		t.cache.putAnswer(bankCacheKey(s), pair, pairWeight)
	}
	return pair, err
}
