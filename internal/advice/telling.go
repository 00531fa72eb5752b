package advice

import (
	"math"

	"breakwright/internal/belief"
	"breakwright/internal/drill"
	"breakwright/internal/response"
	"breakwright/internal/say"
)

// tellingFact is something that could be noted of every break, with the facts of the
// response model that it fills in, a tap at the table for each.
type tellingFact struct {
	// name is that of package say.
	name  string
	facts []response.Fact
	// groups gather the outcomes that stay apart when it is not noted; nil when
	// nothing is then known of the fact.
	groups func(outcome int) int
	// isNoted reports whether a break has it, and whether it could.
	isNoted func(b *drill.Break, s drill.Setup) (noted, could bool)
}

var tellingFacts = []tellingFact{
	{"misses", []response.Fact{response.Wing}, wingUnnoted, func(b *drill.Break, s drill.Setup) (bool, bool) {
		_, dropped := b.PocketOf(s.WingBall())
		return b.WingMiss != "" && b.WingMiss != drill.MissUnknown, !dropped
	}},
	{"cue path", []response.Fact{response.Cue}, cueUnnoted, func(b *drill.Break, _ drill.Setup) (bool, bool) {
		return b.CuePath != "" && b.CuePath != drill.PathUnknown, b.Cue.How == drill.Stopped
	}},
	{"low balls", []response.Fact{response.HeadBall, response.NearLow, response.FarLow}, nil, func(b *drill.Break, _ drill.Setup) (bool, bool) {
		return len(b.Rest) > 0, true
	}},
	{"past string", []response.Fact{response.PastString}, nil, func(b *drill.Break, _ drill.Setup) (bool, bool) {
		return b.PastString != nil, true
	}},
	{"rails", []response.Fact{response.Rails}, nil, func(b *drill.Break, _ drill.Setup) (bool, bool) {
		return b.Rails != nil, true
	}},
}

// wingUnnoted keeps "made" and "dropped elsewhere" apart from all the misses.
func wingUnnoted(outcome int) int {
	if outcome == response.WingMade || outcome == response.WingElsewhere {
		return outcome
	}
	return -1
}

// cueUnnoted keeps the ends apart, and where it came to rest, but not how.
func cueUnnoted(outcome int) int {
	if rest, is := response.RestZone(outcome); is {
		return -1 - rest
	}
	return outcome
}

const (
	// seldomNoted is the share of breaks below which something is asked to be noted.
	seldomNoted = 0.5
	// leastTelling is how much more a break must tell of two causes, in bits a tap, before
	// it is asked for (a choice of this program: twenty breaks then tell them apart).
	leastTelling = 0.04
)

// chooseTellingFact returns what to note in the next set: of the things that are seldom noted
// so far, what would for its taps most tell the likeliest cause from the next.
func (w adviceWriter) chooseTellingFact() (statement say.Statement, found bool) {
	causes := w.decision.causes
	if len(causes) == 0 || causes[1].Share < rivalShare || w.decision.setupIsGood {
		return say.Statement{}, false
	}
	first, second := causes[0].Cause, causes[1].Cause
	if first == belief.LooseRack || second == belief.LooseRack { // the rack itself is looked at
		return say.Statement{}, false
	}
	one, other := w.hands.OutcomeShares(w.kind, w.currentSetup(), first), w.hands.OutcomeShares(w.kind, w.currentSetup(), second)
	if one == nil || other == nil {
		return say.Statement{}, false
	}
	best, most := "", leastTelling
	for _, f := range tellingFacts {
		if bits := f.bitsAdded(one, other) / float64(len(f.facts)); bits > most && w.isSeldomNoted(f) {
			best, most = f.name, bits
		}
	}
	return say.Statement{Kind: say.TellApart, About: best, Others: []string{string(first), string(second)}}, best != ""
}

// isSeldomNoted reports whether most breaks under the present setup lack a fact.
func (l *analysis) isSeldomNoted(f tellingFact) bool {
	noted, could := 0, 0
	for _, set := range l.currentRecord().played {
		for i := range set.Breaks {
			has, may := f.isNoted(&set.Breaks[i], set.Setup)
			if may {
				could++
			}
			if has && may {
				noted++
			}
		}
	}
	return could > 0 && float64(noted) < seldomNoted*float64(could)
}

// bitsAdded returns how many bits more a break tells of which of two mean responses it
// comes from, when the fact is noted (the Jensen-Shannon divergence of the two, less
// that of what is known without it).
func (f tellingFact) bitsAdded(one, other []float64) float64 {
	bits := 0.0
	for _, fact := range f.facts {
		from, to := response.OutcomesOf(fact)
		bits += jensenShannon(one[from:to], other[from:to])
		if f.groups != nil {
			bits -= jensenShannon(gather(one[from:to], f.groups), gather(other[from:to], f.groups))
		}
	}
	return bits
}

// gather adds up the shares of outcomes of one group, in the order in which groups
// first appear.
func gather(shares []float64, groupOf func(int) int) []float64 {
	var sums []float64
	at := map[int]int{}
	for outcome, share := range shares {
		i, known := at[groupOf(outcome)]
		if !known {
			i = len(sums)
			at[groupOf(outcome)], sums = i, append(sums, 0)
		}
		sums[i] += share
	}
	return sums
}

// jensenShannon is the divergence of two distributions in bits, from 0 to 1.
func jensenShannon(p, q []float64) float64 {
	bits := 0.0
	add := func(share, mean float64) {
		if share > 0 {
			bits += share / 2 * math.Log2(share/mean)
		}
	}
	for i := range p {
		mean := (p[i] + q[i]) / 2
		add(p[i], mean)
		add(q[i], mean)
	}
	return bits
}
