package belief

import (
	"cmp"
	"math"
	"slices"

	"gonum.org/v1/gonum/floats"

	"breakwright/internal/drill"
	"breakwright/internal/response"
	"breakwright/internal/table"
)

// Student is what is believed of one student's hands, with one game's rack.
type Student struct {
	rack response.Rack
	// tables are those that the breaks may have been struck on, table the likeliest of them,
	// which handWeights finds.
	tables []tableEvidence
	table  *tableEvidence
	// noted is how often each fact was.
	noted [facts]float64
	seen  []seenBreaks
	// tight and loose are how many racks were seen to stand so.
	tight, loose float64
	// fastest is the highest speed that was asked for.
	fastest table.Mph
	speeds  speedReadings
	// telling is how many breaks tell as much as can be told.
	telling float64
	// othersBreaks is how many breaks of others it is weighed beside.
	othersBreaks int
	// local is how these tables depart from what is computed for such; nil where nobody knows.
	local *departure
	// isObserver: see NewObserver.
	isObserver bool
	// weights are those of cloud, adding up to 1, and shares the causes' parts of it; nil
	// until asked for.
	weights []float64
	shares  map[Cause]float64
	scratch response.Response
}

// seenBreaks is what breaks under one setup on one kind of table showed.
type seenBreaks struct {
	setup  drill.Setup
	kind   table.Kind
	counts []response.Seen // each index once, in order
}

// NewStudent believes what is common practice, and of the tables what other students'
// breaks of this rack showed, and reports whether the model knows this rack at all.
func NewStudent(r response.Rack, tables drill.TablesPlay) (s *Student, known bool) {
	if !response.Knows(r) {
		return nil, false
	}
	if !canRead(tables) {
		known := []tableEvidence{newTableEvidence(anyTable, 1-instantShare), newTableEvidence(instantTable, instantShare)}
		return &Student{rack: r, telling: ownTable, tables: known}, true
	}
	return &Student{
		rack: r, telling: breaksThatTell(tables.Breaks), othersBreaks: tables.Breaks,
		tables: []tableEvidence{newTableEvidence(characterOf(tables), 1)}, local: departureOf(tables),
	}, true
}

// OthersBreaks returns how many breaks of other students the student's are weighed beside: 0
// where what was kept of those is of another version of the model.
func (s *Student) OthersBreaks() int { return s.othersBreaks }

// facts is how many facts are believed: those after them follow from these.
const facts = int(response.ShotLeft)

// temper is the power of each fact's likelihood for a few breaks. The facts of one
// break hang together, so that it is not one for all.
var temper = [facts]float64{
	response.Wing: 1.1, response.Cue: 0.9, response.OthersDown: 0.6,
	response.HeadBall: 0.5, response.NearLow: 0.5, response.FarLow: 0.5,
	response.Rails: 0.5, response.PastString: 0.5,
}

// ownTable is how many breaks tell as much as can be told of a stroke on a table that
// differs from the computed ones in a way nobody knows: more breaks say more of the
// table and not of the stroke. Where others' breaks showed how these tables differ it
// grows to knownTable, half of the way with halfKnown breaks of theirs. (These and
// temper were chosen on computed students whose cloth, cushions and balls are not the
// model's.)
const (
	ownTable   = 60
	knownTable = 100
	halfKnown  = 400
)

// breaksThatTell returns how many breaks tell as much as can be told, by what others'
// breaks showed.
func breaksThatTell(others int) float64 {
	n := float64(others)
	return ownTable + (knownTable-ownTable)*n/(n+halfKnown)
}

// power is that of a fact's likelihood, by how often it was noted.
func (s *Student) power(f int) float64 {
	if s.isObserver {
		return 1
	}
	return temper[f] / (1 + s.noted[f]/s.telling)
}

// surest is the logarithm below which an outcome counts no more against a hand:
// nobody writes down every break rightly.
const surest = -6

// Observe adds the breaks of a set, setup and breaks in the frame of a break
// from the left.
func (s *Student) Observe(k table.Kind, setup drill.Setup, breaks []drill.Break) {
	counts := make([]float32, response.Width)
	factOf := make([]response.Fact, response.Width)
	var seen []response.Seen
	for i := range breaks {
		seen = response.Observe(&breaks[i], setup, k, seen[:0])
		for _, o := range seen {
			counts[o.Index] += o.Weight
			factOf[o.Index] = o.Fact
		}
	}
	added := seenBreaks{setup: setup, kind: k}
	for i, c := range counts { // sums of exact shares: the order of breaks is of no matter
		if c > 0 && int(factOf[i]) < facts {
			added.counts = append(added.counts, response.Seen{Index: i, Weight: c, Fact: factOf[i]})
			s.noted[factOf[i]] += float64(c)
		}
	}
	s.seen = append(s.seen, added)
	s.fastest = max(s.fastest, instructedSpeed(setup))
	s.weights = nil
	s.observeRack(breaks)
	s.observeSpeeds(setup, breaks)
	for i := range s.tables {
		s.weigh(added, &s.tables[i])
	}
}

// weigh adds what breaks under one setup say of every hand on a table.
func (s *Student) weigh(breaks seenBreaks, on *tableEvidence) {
	shown := situationOf(breaks.setup, s.rack, breaks.kind, on.character).predictAllOn(s.local)
	scratch := make([]float32, len(cloud))
	for _, c := range breaks.counts {
		evidence, times := on.facts[c.Fact], float64(c.Weight)
		for hand, log := range shown.logShares(c.Fact, c.Index, scratch) {
			evidence[hand] += times * float64(log)
		}
	}
}

// predict returns what a hand of the cloud shows in a situation, on these tables.
func (s *Student) predict(in *situation, hand int) localPrediction {
	return localPrediction{prediction: in.predict(hand), departure: s.local}
}

// chances returns the chance of every outcome with a hand of the cloud in a situation;
// what it gives holds until it is asked again.
func (s *Student) chances(in *situation, hand int) response.Response {
	if s.scratch == nil {
		s.scratch = make(response.Response, response.Width)
	}
	local := s.predict(in, hand)
	local.unpack(s.scratch)
	return s.scratch
}

// handWeights returns the weight of every hand of the cloud, on the likeliest of the tables
// that the breaks may have been struck on.
func (s *Student) handWeights() []float64 {
	if s.weights != nil {
		return s.weights
	}
	likeliest := math.Inf(-1)
	for i := range s.tables {
		logs := s.handLogs(&s.tables[i])
		if whole := floats.LogSumExp(logs); whole > likeliest {
			likeliest, s.table, s.weights = whole, &s.tables[i], logs
		}
	}
	for i, log := range s.weights {
		s.weights[i] = math.Exp(log - likeliest)
	}
	s.shares = map[Cause]float64{}
	rest := s.weights
	for _, p := range prior { // the hands of a cause stand together
		share := 0.0
		for _, w := range rest[:p.hands] {
			share += w
		}
		s.shares[p.cause], rest = share, rest[p.hands:]
	}
	return s.weights
}

// handLogs returns the logarithm of how likely each hand of the cloud is together with a
// table, up to the same constant for all.
func (s *Student) handLogs(on *tableEvidence) []float64 {
	logs := make([]float64, len(cloud))
	for i := range cloud {
		logs[i] = on.logPrior + s.logPrior(i) + s.rackEvidence(cloud[i].Gap) + s.speedEvidence(cloud[i].Speed)
	}
	for f, evidence := range on.facts {
		floats.AddScaled(logs, s.power(f), evidence)
	}
	return logs
}

// situationOf is a setup on a kind of table, as the likeliest table plays.
func (s *Student) situationOf(setup drill.Setup, k table.Kind) *situation {
	s.handWeights()
	return situationOf(setup, s.rack, k, s.table.character)
}

// logPrior is the logarithm of a hand's weight before a break was seen.
func (s *Student) logPrior(hand int) float64 {
	switch {
	case s.isObserver:
		return cloud[hand].logInItsCause
	case cloud[hand].Cause == Unsteady:
		return cloud[hand].logPrior + unsteadyByMph*min(max(float64(s.fastest-unknownSpeed), 0), mostMphAbove)
	}
	return cloud[hand].logPrior
}

// Who is asked for more speed than is ordinary more likely cannot hold the stroke together:
// control before power (common practice, no source for the size). The logarithm of the odds
// grows by unsteadyByMph for each mile an hour, up to mostMphAbove.
const (
	unsteadyByMph = 0.5
	mostMphAbove  = 4
)

// CauseShare is how likely a cause is.
type CauseShare struct {
	Cause Cause
	Share float64
}

// CauseShares returns how likely each cause is, the likeliest first.
func (s *Student) CauseShares() []CauseShare {
	shares := make([]CauseShare, 0, len(prior))
	for _, c := range Causes() {
		shares = append(shares, CauseShare{c, s.ShareOf(c)})
	}
	SortLikeliestFirst(shares)
	return shares
}

// SortLikeliestFirst orders shares; of equals the one that stood first stays so.
func SortLikeliestFirst(shares []CauseShare) {
	slices.SortStableFunc(shares, func(a, b CauseShare) int { return cmp.Compare(b.Share, a.Share) })
}

// ShareOf returns how likely a cause is.
func (s *Student) ShareOf(c Cause) float64 {
	s.handWeights()
	return s.shares[c]
}

// ShareOfSpeed returns how likely it is that the speed is amiss, to the harder side of what
// is told or to the softer.
func (s *Student) ShareOfSpeed(harder bool) float64 {
	share := 0.0
	for i, w := range s.handWeights() {
		if h := &cloud[i].Hand; h.Cause == Speed && h.Speed > 0 == harder {
			share += w
		}
	}
	return share
}

// negligible is the weight below which a hand is left out of a comparison.
const negligible = 1e-3

// Limits are what a change must keep to be told at all: how likely it is to help at
// least, and to harm at most. Shares; a MostHarm of 1 with a LeastHelp of 0 asks nothing.
type Limits struct{ LeastHelp, MostHarm float64 }

// Compare weighs a setup against the present one on a kind of table.
func (s *Student) Compare(w Weights, k table.Kind, from, to drill.Setup) Effect {
	return s.CompareAll(w, Limits{MostHarm: 1}, k, from, []drill.Setup{to})[0]
}

// CompareAll weighs several setups against the present one, in their order. Of one that
// does not keep to the limits only that is told, and its SoundGain.
func (s *Student) CompareAll(w Weights, keep Limits, k table.Kind, from drill.Setup, to []drill.Setup) []Effect {
	hands, whole := s.weightyHands()
	values := s.local.worthBy(w)
	now, present := make([]float64, len(hands)), values.in(s.situationOf(from, k))
	for n, i := range hands {
		now[n] = present.of(i)
	}
	effects := make([]Effect, len(to))
	for j := range to {
		then, rest := values.in(s.situationOf(to[j], k)), whole
		var sum effectSum
		for n, i := range hands {
			weight, isSound := s.weights[i], cloud[i].Cause == Nothing
			if !isSound && sum.breaks(keep, whole, rest) {
				break
			}
			sum.add(weight, then.of(i)-now[n], isSound)
			rest -= weight
		}
		effects[j] = sum.mean(whole)
	}
	return effects
}

// weightyHands lists the hands of the cloud that are not negligible, those with nothing
// amiss first and otherwise the heaviest first, with the weight of all.
func (s *Student) weightyHands() (hands []int, whole float64) {
	for i, weight := range s.handWeights() {
		if weight >= negligible {
			hands = append(hands, i)
			whole += weight
		}
	}
	isSound := func(i int) int {
		if cloud[i].Cause == Nothing {
			return 0
		}
		return 1
	}
	slices.SortStableFunc(hands, func(a, b int) int {
		return cmp.Or(cmp.Compare(isSound(a), isSound(b)), cmp.Compare(s.weights[b], s.weights[a]))
	})
	return hands, whole
}

// Expect returns the chances of a break under a setup.
func (s *Student) Expect(k table.Kind, setup drill.Setup) Parts {
	var sum Parts
	total, instructed := 0.0, s.situationOf(setup, k)
	for i, weight := range s.handWeights() {
		if weight < negligible {
			continue
		}
		total += weight
		local := s.predict(instructed, i)
		p := local.parts()
		for _, part := range partList {
			*part.chance(&sum) += weight * *part.chance(&p)
		}
	}
	for _, part := range partList {
		*part.chance(&sum) /= total
	}
	return sum
}
