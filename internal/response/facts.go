package response

import (
	"slices"

	"breakwright/internal/drill"
	"breakwright/internal/rack"
	"breakwright/internal/table"
)

// Fact is one thing that can be seen of a break; its Outcomes exclude one
// another.
type Fact int

// The facts, in the order of the networks' outputs.
const (
	Wing       Fact = iota // what became of the wing ball
	Cue                    // how and where the cue ball ended
	OthersDown             // how many balls dropped besides the wing ball in its corner
	HeadBall               // where the head ball ended
	NearLow                // where the row-2 ball on the break side ended
	FarLow                 // where the other row-2 ball ended
	Rails                  // how many object balls met a rail
	PastString             // how many crossed the head string
	ShotLeft               // whether there is a shot, of a cue ball that stopped
	Down                   // a ball down, no scratch, nothing off the table
	Weak                   // short of the rules' four rails
	OpenShot               // an open shot on the lowest ball, of all breaks
	Scratch                // the cue ball scratched
	ThreePoint             // three balls pocketed or past the head string
	factCount
)

// FactCount is how many facts there are.
const FactCount = int(factCount)

// factNames are for reports.
var factNames = [factCount]string{
	"wing", "cue", "others down", "head ball", "near low", "far low", "rails", "past string",
	"shot left", "down", "weak", "open shot", "scratch", "three point",
}

// String names the fact.
func (f Fact) String() string { return factNames[f] }

// outcomesOf is how many outcomes each fact has.
var outcomesOf = [factCount]int{6, 7 + paths*zones, 3, 6, 4, 4, 4, 5, 3, 2, 2, 2, 2, 2}

// Outcomes of Wing.
const (
	WingMade = iota
	WingSideRail
	WingFootRail
	WingKissed
	WingJaws
	WingElsewhere
)

// Outcomes of Cue: a scratch in one of six pockets, off the table, then every
// way of coming to rest by every zone: see Scratches and RestsBy.
const (
	scratchHeadNear = iota
	scratchHeadFar
	scratchSideNear
	scratchSideFar
	scratchFootNear
	scratchFootFar
	CueOff
	firstRest
)

const (
	paths = 4 // back, head rail, forward, hit
	zones = 12
)

// start is where a fact's outcomes begin among all outputs.
var start = func() (at [factCount + 1]int) {
	for f := range factCount {
		at[f+1] = at[f] + outcomesOf[f]
	}
	return at
}()

// outputs is how many numbers a network gives; behind them stand those derived
// from them, for breaks of which less was seen.
var (
	outputs = start[factCount]
	// wingUp is "the wing ball was not made, and nobody saw what it met".
	wingUp = outputs
	// restUnseen begins the zones of a cue ball nobody saw come to rest.
	restUnseen = outputs + 1
	// Width is how many outcomes a Response has.
	Width = outputs + 1 + zones
)

// OutputCount is how many outcomes a network itself tells apart.
func OutputCount() int { return outputs }

// Index returns the place of a fact's outcome in a Response.
func Index(f Fact, outcome int) int { return start[f] + outcome }

// OutcomesOf returns the places of a fact's outcomes in a Response: from the first to
// before the second.
func OutcomesOf(f Fact) (from, to int) { return start[f], start[f+1] }

// derivedParts lists what the outcomes derived for breaks of which less was seen are
// made of.
var derivedParts = func() [][]int {
	parts := make([][]int, Width-outputs)
	for _, miss := range []int{WingSideRail, WingFootRail, WingKissed, WingJaws} {
		parts[0] = append(parts[0], Index(Wing, miss))
	}
	for z := range zones {
		for p := range paths {
			parts[restUnseen+z-outputs] = append(parts[restUnseen+z-outputs], Index(Cue, firstRest+p*zones+z))
		}
	}
	return parts
}()

// PartsOf lists the outcomes that one derived for breaks of which less was seen is made
// of.
func PartsOf(index int) []int { return derivedParts[index-outputs] }

// Seen is one outcome that was seen, by its Index, with how much of a sighting
// it is: a place near a zone's border counts for both.
type Seen struct {
	Index  int
	Weight float32
	Fact   Fact
}

// Observe lists what was seen of a break under a setup, both in the frame of a
// break from the left. What was not written down is not in it.
func Observe(b *drill.Break, s drill.Setup, k table.Kind, into []Seen) []Seen {
	if b.IsWatched() {
		into = observeWing(b, s, into)
	}
	into = observeCue(b, k, into)
	if b.IsWatched() {
		others := len(b.Pocketed)
		if b.WingMade(s) {
			others--
		}
		into = see(into, OthersDown, min(others, 2))
	}
	into = observeLows(b, s, k, into)
	if b.Rails != nil {
		into = see(into, Rails, railsOutcome(*b.Rails))
	}
	if b.PastString != nil {
		into = see(into, PastString, min(*b.PastString, 4))
	}
	if b.Cue.How == drill.Stopped {
		switch b.Shot {
		case drill.ShotOpen:
			into = see(into, ShotLeft, 0)
		case drill.ShotHard:
			into = see(into, ShotLeft, 1)
		case drill.ShotNone:
			into = see(into, ShotLeft, 2)
		}
	}
	return into
}

func see(into []Seen, f Fact, outcome int) []Seen {
	return append(into, Seen{Index(f, outcome), 1, f})
}

func railsOutcome(n int) int {
	switch {
	case n < 4:
		return 0
	case n < 6:
		return 1
	case n < 8:
		return 2
	}
	return 3
}

func observeWing(b *drill.Break, s drill.Setup, into []Seen) []Seen {
	wing := s.WingBall()
	if pocket, dropped := b.PocketOf(wing); dropped {
		if pocket == s.WingPocket() {
			return see(into, Wing, WingMade)
		}
		return see(into, Wing, WingElsewhere)
	}
	switch b.WingMiss {
	case drill.MissSideRail:
		return see(into, Wing, WingSideRail)
	case drill.MissFootRail:
		return see(into, Wing, WingFootRail)
	case drill.MissKissed:
		return see(into, Wing, WingKissed)
	case drill.MissJaws:
		return see(into, Wing, WingJaws)
	}
	return append(into, Seen{wingUp, 1, Wing})
}

// scratchOutcome is where the cue ball dropped, of a break from the left.
var scratchOutcome = map[table.Pocket]int{
	table.HeadLeft: scratchHeadNear, table.HeadRight: scratchHeadFar,
	table.SideLeft: scratchSideNear, table.SideRight: scratchSideFar,
	table.FootLeft: scratchFootNear, table.FootRight: scratchFootFar,
}

func observeCue(b *drill.Break, k table.Kind, into []Seen) []Seen {
	switch b.Cue.How {
	case drill.Scratched:
		return see(into, Cue, scratchOutcome[b.Cue.Scratch])
	case drill.OffTable:
		return see(into, Cue, CueOff)
	}
	first := restUnseen
	switch b.CuePath {
	case drill.PathBack:
		first = Index(Cue, firstRest)
	case drill.PathHeadRail:
		first = Index(Cue, firstRest+zones)
	case drill.PathForward:
		first = Index(Cue, firstRest+2*zones)
	case drill.PathHit:
		first = Index(Cue, firstRest+3*zones)
	}
	for _, z := range zonesOf(b.Cue.Place, k) {
		if z.weight > 0 {
			into = append(into, Seen{first + z.zone, z.weight, Cue})
		}
	}
	return into
}

// observeLows notes the head ball and the two of row 2.
func observeLows(b *drill.Break, s drill.Setup, k table.Kind, into []Seen) []Seen {
	for _, low := range [...]struct {
		fact Fact
		slot rack.Slot
	}{{HeadBall, rack.HeadSlot}, {NearLow, "2L"}, {FarLow, "2R"}} {
		ball, _ := s.Order.BallAt(s.Game, low.slot)
		if pocket, dropped := b.PocketOf(ball); dropped {
			into = see(into, low.fact, downOutcome(low.fact, pocket))
			continue
		}
		for _, r := range b.Rest {
			if r.Ball == ball {
				into = see(into, low.fact, restOutcome(low.fact, r.Place, k))
			}
		}
	}
	return into
}

// downOutcome tells the head ball's own pocket, the far side pocket, apart.
func downOutcome(f Fact, p table.Pocket) int {
	if f == HeadBall && p != table.SideRight {
		return 1
	}
	return 0
}

func restOutcome(f Fact, p table.Place, k table.Kind) int {
	if f != HeadBall {
		switch {
		case p.Y < k.Length()/4:
			return 1
		case p.Y < k.Length()/2:
			return 2
		}
		return 3
	}
	outcome := 2
	if p.Y >= k.Length()/2 {
		outcome = 4
	}
	if p.X > 0 {
		outcome++
	}
	return outcome
}

// OutcomeSet holds the outcome of every fact, -1 where there is none.
type OutcomeSet [factCount]int8

// Outcomes returns the outcome of every fact of a break that was written down
// completely, both in the frame of a break from the left; -1 where there is none.
func Outcomes(b *drill.Break, s drill.Setup, k table.Kind) (all OutcomeSet) {
	for f := range all {
		all[f] = -1
	}
	heaviest := [factCount]float32{}
	for _, seen := range Observe(b, s, k, nil) {
		if seen.Index < outputs && seen.Weight > heaviest[seen.Fact] {
			heaviest[seen.Fact] = seen.Weight
			all[seen.Fact] = int8(seen.Index - start[seen.Fact])
		}
	}
	stopped := b.Cue.How == drill.Stopped
	all[Down] = outcomeIf(!b.IsDry() && stopped && len(b.Off) == 0)
	weak, _ := b.IsWeak()
	all[Weak] = outcomeIf(weak)
	all[OpenShot] = outcomeIf(stopped && b.Shot == drill.ShotOpen)
	all[Scratch] = outcomeIf(b.Cue.How == drill.Scratched)
	if b.PastString != nil {
		all[ThreePoint] = outcomeIf(len(b.Pocketed)+*b.PastString >= 3)
	}
	return all
}

// Results lists what a break was worth, as far as that is surely written down. It
// follows from what was seen and is no evidence of its own.
func Results(b *drill.Break) []Seen {
	var results []Seen
	if b.IsWatched() {
		down := !b.IsDry() && b.Cue.How == drill.Stopped && len(b.Off) == 0
		results = see(results, Down, int(outcomeIf(down)))
	}
	results = see(results, Scratch, int(outcomeIf(b.Cue.How == drill.Scratched)))
	if weak, known := b.IsWeak(); b.Rails != nil && known { // nobody who leaves the rails out would write down a weak break
		results = see(results, Weak, int(outcomeIf(weak)))
	}
	return results
}

func outcomeIf(so bool) int8 {
	if so {
		return 1
	}
	return 0
}

// FactAt returns the fact and outcome of a place in a Response; the outcome is -1
// for one derived for breaks of which less was seen.
func FactAt(index int) (f Fact, outcome int) {
	switch {
	case index == wingUp:
		return Wing, -1
	case index >= restUnseen:
		return Cue, -1
	}
	for f = range factCount {
		if index < start[f+1] {
			break
		}
	}
	return f, index - start[f]
}

// RestsBy lists the outcomes of Cue in which it came to rest in a way, wherever.
func RestsBy(p drill.CuePath) []int {
	way := slices.Index([]drill.CuePath{drill.PathBack, drill.PathHeadRail, drill.PathForward, drill.PathHit}, p)
	list := make([]int, zones)
	for z := range list {
		list[z] = firstRest + way*zones + z
	}
	return list
}

// RestZone returns the zone of an outcome of Cue in which it came to rest, in whatever way,
// and false for any other outcome.
func RestZone(outcome int) (zone int, rests bool) {
	if outcome < firstRest {
		return 0, false
	}
	return (outcome - firstRest) % zones, true
}

// Scratches lists the outcomes of Cue in which it scratched.
func Scratches() []int {
	return []int{scratchHeadNear, scratchHeadFar, scratchSideNear, scratchSideFar, scratchFootNear, scratchFootFar}
}
