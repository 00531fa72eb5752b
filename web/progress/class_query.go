package progress

import (
	"cmp"
	"net/url"
	"slices"
	"strings"
)

// classQuery is what the address asks of a class page: an order, a filter and a
// search. Whatever it does not know is as if it were not there.
type classQuery struct {
	Sort, Show, Search string
	Down               bool
}

// sortColumn is a column that rows can be ordered by.
type sortColumn struct {
	key, words string
	// down is the direction that a first click gives.
	down bool
	less func(a, b ClassRow) int
}

// sortColumns are the sortable ones in the order they stand.
var sortColumns = []sortColumn{
	{"name", "Student", false, compareName},
	{"sets", "Sets", true, func(a, b ClassRow) int { return cmp.Compare(a.Sets, b.Sets) }},
	{"wing", "Wing ball in its corner", true, compareWing},
	{"window", "Cue ball in window", true, func(a, b ClassRow) int {
		return cmp.Compare(a.smoothedShare(countInWindow, countBreaks), b.smoothedShare(countInWindow, countBreaks))
	}},
	{"scratch", "Scratches", true, func(a, b ClassRow) int {
		return cmp.Compare(a.smoothedShare(countScratches, countBreaks), b.smoothedShare(countScratches, countBreaks))
	}},
	{"dry", "Dry breaks", true, func(a, b ClassRow) int {
		return cmp.Compare(a.smoothedShare(countDry, countWatched), b.smoothedShare(countDry, countWatched))
	}},
	{"last", "Last set", true, compareLast},
}

// rowFilters are the ways to show fewer rows.
var rowFilters = []struct {
	key, words string
	keep       func(ClassRow) bool
}{
	{"", "everybody", func(ClassRow) bool { return true }},
	{"finding", "with a finding", func(r ClassRow) bool { return r.hasFinding }},
	{"trial", "trying a change", func(r ClassRow) bool { return r.InTrial != "" }},
	{"none", "without a set", func(r ClassRow) bool { return r.stint == nil }},
	{"other", "on other tables", func(r ClassRow) bool { return r.Other != "" }},
}

func readClassQuery(q url.Values) classQuery {
	a := classQuery{Sort: "name", Search: strings.TrimSpace(q.Get("q"))}
	for _, c := range sortColumns {
		if c.key == q.Get("sort") {
			a.Sort, a.Down = c.key, q.Get("order") == "down"
		}
	}
	for _, f := range rowFilters {
		if f.key == q.Get("show") {
			a.Show = f.key
		}
	}
	return a
}

// filterRows leaves out the rows that are not asked for.
func (a classQuery) filterRows(rows []ClassRow) []ClassRow {
	search := strings.ToLower(a.Search)
	var kept []ClassRow
	for _, row := range rows {
		for _, f := range rowFilters {
			if f.key == a.Show && f.keep(row) && strings.Contains(strings.ToLower(row.Name), search) {
				kept = append(kept, row)
			}
		}
	}
	return kept
}

// sortRows orders rows. Students without a set come last either way, and by a rate
// those on other tables after those on the table most broke on.
func (a classQuery) sortRows(rows []ClassRow) {
	for _, c := range sortColumns {
		if c.key != a.Sort {
			continue
		}
		slices.SortStableFunc(rows, func(x, y ClassRow) int {
			if c.key != "name" {
				if order := cmp.Compare(x.standing.Group, y.standing.Group); order != 0 && (c.key != "sets" && c.key != "last" || x.stint == nil || y.stint == nil) {
					return order
				}
			}
			order := c.less(x, y)
			if a.Down {
				order = -order
			}
			return cmp.Or(order, compareName(x, y))
		})
	}
}

func compareName(a, b ClassRow) int {
	return cmp.Compare(strings.ToLower(a.Name), strings.ToLower(b.Name))
}

// compareWing orders by the rates drawn toward the class.
func compareWing(a, b ClassRow) int { return cmp.Compare(a.standing.Rate, b.standing.Rate) }

func compareLast(a, b ClassRow) int {
	if a.stint == nil || b.stint == nil {
		return 0
	}
	return a.stint.Last.Compare(b.stint.Last)
}

func countInWindow(r ClassRow) int  { return r.stint.InWindow }
func countScratches(r ClassRow) int { return r.stint.Scratches() }
func countDry(r ClassRow) int       { return r.stint.Dry }
func countBreaks(r ClassRow) int    { return r.stint.Breaks }
func countWatched(r ClassRow) int   { return r.stint.Watched }

// smoothedShare is the part of the breaks that a count is, drawn half a break toward a
// half, as the Jeffreys belief has it, so that none of ten and none of fifty
// differ.
func (r ClassRow) smoothedShare(count, of func(ClassRow) int) float64 {
	if r.stint == nil {
		return -1
	}
	return (float64(count(r)) + 0.5) / (float64(of(r)) + 1)
}

// addressSortedBy returns the address of the same page in another order.
func (a classQuery) addressSortedBy(c sortColumn) string {
	q := url.Values{"sort": {c.key}}
	down := c.down
	if a.Sort == c.key {
		down = !a.Down
	}
	if down {
		q.Set("order", "down")
	}
	if a.Show != "" {
		q.Set("show", a.Show)
	}
	if a.Search != "" {
		q.Set("q", a.Search)
	}
	return "?" + q.Encode()
}

// ariaSort says to those who hear the page how a column is ordered.
func (a classQuery) ariaSort(c sortColumn) string {
	switch {
	case a.Sort != c.key:
		return "none"
	case a.Down:
		return "descending"
	}
	return "ascending"
}
