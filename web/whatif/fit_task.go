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
	// fewestBreaks is how many a fit needs to be worth its time.
	fewestBreaks = 10
	// enoughBreaks is when no older breaks are taken: hands change.
	enoughBreaks = 60
	mostSetups   = 3
)

// stint is what a student recorded under one setup on one kind of table.
type stint struct {
	Setup  drill.Setup
	Kind   table.Kind
	Table  string
	Breaks []drill.Break
}

// recent takes the newest breaks from a student's sets, oldest first: all of the
// latest stint, and older ones from the same side until there are enough. Setups
// that cannot be asked of anyone are passed over.
func recent(sets []drill.Set) []stint {
	all := drill.Stints(sets)
	var list []stint
	n := 0
	for i := len(all) - 1; i >= 0 && n < enoughBreaks; i-- {
		s := stint{Setup: all[i].Setup.Rounded(), Kind: all[i].Kind, Table: all[i].Table}
		for _, set := range all[i].Sets {
			s.Breaks = append(s.Breaks, set.Breaks...)
		}
		if s.Setup.Check(s.Kind) != nil || len(list) > 0 && s.Setup.Side != list[0].Setup.Side {
			continue
		}
		n += len(s.Breaks)
		if list = together(list, s); len(list) == mostSetups {
			break
		}
	}
	return list
}

// together puts the breaks under one setup together.
func together(list []stint, s stint) []stint {
	for i := range list {
		if list[i].Setup == s.Setup && list[i].Kind == s.Kind {
			list[i].Breaks = append(list[i].Breaks, s.Breaks...)
			return list
		}
	}
	return append(list, s)
}

// fitTask fits hands to breaks; the banks it computes are kept for the next.
type fitTask struct {
	stints []stint
	kept   *cache
}

// Key is made of what a fit looks at.
func (t fitTask) Key() string {
	h := fnv.New128a()
	for _, s := range t.stints {
		fmt.Fprint(h, bankKey(s))
		for _, b := range s.Breaks {
			fmt.Fprint(h, b.Pocketed, b.Off, b.Cue, b.WingMiss, b.CuePath, ";")
		}
	}
	return fmt.Sprintf("fit %x", h.Sum(nil))
}

func bankKey(s stint) string {
	from := s.Setup.For(table.Left)
	return fmt.Sprint("banks ", s.Kind, from.Game, from.Spot, from.Order, from.Wing, from.Cue, " ", from.Contact, " ", from.Tip, " ", from.Spin, " ", from.Speed)
}

// A pair of banks takes as much room as some hundreds of kept breaks.
const (
	pairBreaks = 2 * fit.UsualBreaks
	pairWeight = 400
)

func (t fitTask) Breaks() int { return pairBreaks * len(t.stints) }
func (t fitTask) Weight() int { return 10 }

func (t fitTask) Run(ctx context.Context, progress func(int)) (any, error) {
	var all []fit.Seen
	for i, s := range t.stints {
		pair, err := t.pair(ctx, s, func(done int) { progress(i*pairBreaks + done) })
		if err != nil {
			return nil, err
		}
		all = append(all, fit.Seen{Banks: pair, Setup: s.Setup, Breaks: s.Breaks})
	}
	return fit.Fit(all)
}

func (t fitTask) pair(ctx context.Context, s stint, progress func(int)) (fit.Pair, error) {
	if kept, found := t.kept.get(bankKey(s)); found {
		return kept.(fit.Pair), nil
	}
	pair, err := fit.NewPair(ctx, s.Setup, s.Kind, fit.UsualBreaks, progress)
	if err == nil {
		t.kept.put(bankKey(s), pair, pairWeight)
	}
	return pair, err
}
