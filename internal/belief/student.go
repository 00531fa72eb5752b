package belief

import (
	"cmp"
	"math"
	"slices"

	"breakwright/internal/drill"
	"breakwright/internal/response"
	"breakwright/internal/table"
)

// Student is what is believed of one student's hands, with one game's rack.
type Student struct {
	rack response.Rack
	logs []float64 // of the weights of cloud, not normalised
	seen []seenBreaks
	// weights are those of cloud, adding up to 1; nil until asked for.
	weights []float64
}

// seenBreaks is what breaks under one setup on one kind of table showed.
type seenBreaks struct {
	setup  drill.Setup
	kind   table.Kind
	counts []response.Seen // tempered, each index once, in order
	raw    []float32       // the same, as they were counted
}

// NewStudent believes what is common practice, and reports whether the model
// knows this rack at all.
func NewStudent(r response.Rack) (s *Student, known bool) {
	if !slices.Contains(response.Racks(), r) {
		return nil, false
	}
	s = &Student{rack: r, logs: make([]float64, len(cloud))}
	for i := range cloud {
		s.logs[i] = cloud[i].logPrior
	}
	return s, true
}

// temper is the power of each fact's likelihood. It is below one because the
// facts of one break hang together, and because no model is a table; chosen on
// computed students whose cloth, cushions and balls are not the model's.
var temper = [response.FactCount]float32{
	response.Wing: 0.9, response.Cue: 0.7, response.OthersDown: 0.5,
	response.HeadBall: 0.4, response.NearLow: 0.4, response.FarLow: 0.4,
	response.Rails: 0.4, response.PastString: 0.4,
}

// surest is the logarithm below which an outcome counts no more against a hand:
// nobody writes down every break rightly.
const surest = -6

// Observe adds the breaks of a set, setup and breaks in the frame of a break
// from the left.
func (s *Student) Observe(k table.Kind, setup drill.Setup, breaks []drill.Break) {
	counts := make([]float32, response.Width)
	facts := make([]response.Fact, response.Width)
	var seen []response.Seen
	for i := range breaks {
		seen = response.Observe(&breaks[i], setup, k, seen[:0])
		for _, o := range seen {
			counts[o.Index] += o.Weight
			facts[o.Index] = o.Fact
		}
	}
	added := seenBreaks{setup: setup, kind: k}
	for i, c := range counts { // sums of exact shares: the order of breaks is of no matter
		if c > 0 {
			added.counts = append(added.counts, response.Seen{Index: i, Weight: c * temper[facts[i]], Fact: facts[i]})
			added.raw = append(added.raw, c)
		}
	}
	s.seen = append(s.seen, added)
	s.weights = nil
	for i := range cloud {
		logs := predict(cloud[i].Hand, setup, s.rack, k).logs
		sum := 0.0
		for _, c := range added.counts {
			sum += float64(c.Weight) * float64(max(logs[c.Index], surest))
		}
		s.logs[i] += sum
	}
}

// handWeights gives the weight of every hand of the cloud.
func (s *Student) handWeights() []float64 {
	if s.weights != nil {
		return s.weights
	}
	top := slices.Max(s.logs)
	s.weights = make([]float64, len(s.logs))
	sum := 0.0
	for i, l := range s.logs {
		s.weights[i] = math.Exp(l - top)
		sum += s.weights[i]
	}
	for i := range s.weights {
		s.weights[i] /= sum
	}
	return s.weights
}

// CauseShare is how likely a cause is.
type CauseShare struct {
	Cause Cause
	Share float64
}

// CauseShares gives how likely each cause is, the likeliest first.
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

// ShareOf gives how likely a cause is.
func (s *Student) ShareOf(c Cause) float64 {
	share := 0.0
	for i, w := range s.handWeights() {
		if cloud[i].Cause == c {
			share += w
		}
	}
	return share
}

// negligible is the weight below which a hand is left out of a comparison.
const negligible = 5e-4

// Compare weighs a setup against the present one on a kind of table.
func (s *Student) Compare(w Weights, k table.Kind, from, to drill.Setup) Effect {
	return s.CompareAll(w, k, from, []drill.Setup{to})[0]
}

// CompareAll weighs several setups against the present one, in their order.
func (s *Student) CompareAll(w Weights, k table.Kind, from drill.Setup, to []drill.Setup) []Effect {
	effects := make([]Effect, len(to))
	total, sound := 0.0, 0.0
	for i, weight := range s.handWeights() {
		if weight < negligible {
			continue
		}
		h := cloud[i]
		total += weight
		if h.Cause == Nothing {
			sound += weight
		}
		now := w.Worth(predict(h.Hand, from, s.rack, k).parts)
		for j := range effects {
			effects[j].add(weight, w.Worth(predict(h.Hand, to[j], s.rack, k).parts)-now, h.Cause == Nothing)
		}
	}
	for j := range effects {
		effects[j].divide(total, sound)
	}
	return effects
}

// Expect gives the chances of a break under a setup.
func (s *Student) Expect(k table.Kind, setup drill.Setup) Parts {
	var sum Parts
	total := 0.0
	for i, weight := range s.handWeights() {
		if weight < negligible {
			continue
		}
		p := predict(cloud[i].Hand, setup, s.rack, k).parts
		total += weight
		sum.Down += weight * p.Down
		sum.OpenShot += weight * p.OpenShot
		sum.Scratch += weight * p.Scratch
		sum.CueOff += weight * p.CueOff
		sum.Weak += weight * p.Weak
		sum.Wing += weight * p.Wing
		sum.Middle += weight * p.Middle
	}
	return Parts{
		sum.Down / total, sum.OpenShot / total, sum.Scratch / total, sum.CueOff / total,
		sum.Weak / total, sum.Wing / total, sum.Middle / total,
	}
}

// Surprise says by how many standard deviations what became of wing ball and cue
// ball is stranger than the likeliest hand would show on average: far above 1
// these breaks are like nothing that was computed, and the belief is to be
// trusted less.
func (s *Student) Surprise() float64 {
	best := 0
	for i, w := range s.handWeights() {
		if w > s.weights[best] {
			best = i
		}
	}
	excess, variance := 0.0, 0.0
	for _, seen := range s.seen {
		logs := predict(cloud[best].Hand, seen.setup, s.rack, seen.kind).logs
		for _, f := range []response.Fact{response.Wing, response.Cue} {
			mean, square := logs.LogMoments(f)
			count := 0.0
			for i, c := range seen.counts {
				if c.Fact == f {
					count += float64(seen.raw[i])
					excess -= float64(seen.raw[i]) * float64(max(logs[c.Index], surest-1))
				}
			}
			excess += count * mean
			variance += count * (square - mean*mean)
		}
	}
	if variance <= 0 {
		return 0
	}
	return excess / math.Sqrt(variance)
}
