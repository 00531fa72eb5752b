package advice

import (
	"cmp"
	"math"
	"slices"

	"breakwright/internal/belief"
	"breakwright/internal/drill"
	"breakwright/internal/response"
)

// sign is something that a coach would name of breaks, with the outcomes that show
// it.
type sign struct {
	// name is that of package say.
	name     string
	fact     response.Fact
	outcomes []int
	// ofMisses says that it is counted among the wing ball's misses that somebody
	// saw; fewer says that it is seen too seldom, not too often.
	ofMisses, fewer bool
	// group keeps signs apart that would say one thing twice.
	group string
}

// signs lists them; what is ordinary, or says nothing a coach could act on, is left
// out.
var signs = []sign{
	{name: "wing fell", fact: response.Wing, outcomes: []int{response.WingMade}, fewer: true, group: "wing"},
	{name: "wing side rail", fact: response.Wing, outcomes: []int{response.WingSideRail}, ofMisses: true, group: "miss"},
	{name: "wing foot rail", fact: response.Wing, outcomes: []int{response.WingFootRail}, ofMisses: true, group: "miss"},
	{name: "wing kissed", fact: response.Wing, outcomes: []int{response.WingKissed}, ofMisses: true, group: "miss"},
	{name: "cue scratch", fact: response.Cue, outcomes: response.Scratches(), group: "scratch"},
	{name: "cue off table", fact: response.Cue, outcomes: []int{response.CueOff}, group: "off"},
	{name: "cue back", fact: response.Cue, outcomes: response.RestsBy(drill.PathBack), group: "path"},
	{name: "cue head rail", fact: response.Cue, outcomes: response.RestsBy(drill.PathHeadRail), group: "path"},
	{name: "cue forward", fact: response.Cue, outcomes: response.RestsBy(drill.PathForward), group: "path"},
	{name: "none fell", fact: response.OthersDown, outcomes: []int{0}, group: "others"},
	{name: "few rails", fact: response.Rails, outcomes: []int{0, 1}, group: "power"},
	{name: "few crossed", fact: response.PastString, outcomes: []int{0, 1}, group: "power"},
}

// A sign is a reason when it differs from what is ordinary by a share of breaks that
// can be seen, and by enough for its number.
const (
	visibleDifference = 0.12
	weakestReason     = 3 // decibans
)

// weighedSign is a sign with its count, and how much it speaks for a cause.
type weighedSign struct {
	sign
	shown, of int
	decibans  float64
}

// weighSigns returns the signs that speak for a cause, the weightiest first: those
// that were seen clearly more often, or more seldom, than hands with nothing amiss
// would show them once the change is made, and that the cause explains.
func (l *analysis) weighSigns(c proposedChange, causes []belief.Cause) []weighedSign {
	now := l.hands.OutcomeShares(l.kind, l.currentSetup(), causes...)
	mended := l.hands.OrdinaryShares(l.kind, c.to)
	if now == nil || mended == nil {
		return nil
	}
	var list []weighedSign
	for _, s := range signs {
		shown, of := l.countSign(s)
		if weight := s.weighCount(shown, of, s.shareIn(now), s.shareIn(mended)); weight > 0 {
			list = append(list, weighedSign{s, shown, of, weight})
		}
	}
	slices.SortStableFunc(list, func(a, b weighedSign) int { return cmp.Compare(b.decibans, a.decibans) })
	return list
}

// weighCount returns how many decibans a sign's count speaks for a cause that explains
// one share of it, where another is ordinary; 0 where the difference is none that can be
// seen, too little for its number, or the cause does not explain it.
func (s sign) weighCount(shown, of int, explained, ordinary float64) float64 {
	seen := float64(shown) / float64(of)
	if s.fewer {
		seen, explained, ordinary = 1-seen, 1-explained, 1-ordinary
	}
	if !(seen-ordinary >= visibleDifference) || explained <= ordinary { // of none nothing was seen
		return 0
	}
	weight := float64(of) * divergence(seen, ordinary)
	if weight < weakestReason {
		return 0
	}
	return weight
}

// divergence is how much one observation speaks, in decibans and on average, for a
// share against another (the Kullback-Leibler divergence of two coins).
func divergence(share, against float64) float64 {
	against = min(max(against, 0.01), 0.99)
	sum := 0.0
	for _, p := range [][2]float64{{share, against}, {1 - share, 1 - against}} {
		if p[0] > 0 {
			sum += p[0] * math.Log10(p[0]/p[1])
		}
	}
	return 10 * sum
}

// shareIn returns the sign's share among shares of every outcome.
func (s sign) shareIn(shares []float64) float64 {
	sum, of := 0.0, 1.0
	for _, outcome := range s.outcomes {
		sum += shares[response.Index(s.fact, outcome)]
	}
	if s.ofMisses {
		of = 0
		for _, outcome := range watchedMisses {
			of += shares[response.Index(response.Wing, outcome)]
		}
	}
	if of <= 0 {
		return 0
	}
	return sum / of
}

// watchedMisses are the ways to miss that somebody saw.
var watchedMisses = []int{response.WingSideRail, response.WingFootRail, response.WingKissed, response.WingJaws}

// countSign counts the breaks of the present setup that show a sign, of those in
// which it could have been seen.
func (l *analysis) countSign(s sign) (shown, of int) {
	var seen []response.Seen
	for _, set := range l.currentRecord().played {
		for _, b := range leftFrameBreaks(set, l.mirror) {
			seen = response.Observe(&b, l.currentSetup(), l.kind, seen[:0])
			has, could := s.isIn(seen)
			if could {
				of++
			}
			if has {
				shown++
			}
		}
	}
	return shown, of
}

// isIn reports whether what was seen of a break shows the sign, and whether it
// could have.
func (s sign) isIn(seen []response.Seen) (has, could bool) {
	for _, one := range seen {
		fact, outcome := response.FactAt(one.Index)
		if fact != s.fact {
			continue
		}
		switch {
		case s.ofMisses && !slices.Contains(watchedMisses, outcome):
		case s.group == "path" && outcome < 0: // nobody saw how it came to rest
		default:
			could = true
			has = has || slices.Contains(s.outcomes, outcome)
		}
	}
	return has, could
}
