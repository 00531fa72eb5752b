package belief

import (
	"math"
	"sync/atomic"

	"gonum.org/v1/gonum/blas/blas32"

	"breakwright/internal/response"
)

// localWorth values predictions by what their outcomes are worth on a club's own tables.
type localWorth struct {
	departure *departure
	weights   Weights
	// factors are how much likelier each outcome is than computed, worths that times what
	// it is worth.
	factors, worths []float32
}

func (d *departure) worthBy(w Weights) *localWorth {
	l := &localWorth{d, w, make([]float32, response.OutputCount()), w.outcomeWorths()}
	for index := range l.factors {
		l.factors[index] = 1
		if d != nil {
			l.factors[index] = d.factors[index]
			l.worths[index] *= d.factors[index]
		}
	}
	return l
}

// of returns what a break is worth of which so much is predicted.
func (l *localWorth) of(p *prediction) float32 {
	worth := float32(0)
	for _, f := range valuedFacts {
		chances := p.chances[f.from:f.to]
		worth += dot(chances, l.worths[f.from:f.to]) / dot(chances, l.factors[f.from:f.to])
	}
	return worth
}

// situationWorth is what a break of each hand of the cloud is worth in a situation, as far
// as it was asked.
type situationWorth struct {
	in     *situation
	values *localWorth
	hands  []atomic.Uint32 // the bits; 0 until asked for
}

// worthKey tells those of a situation apart.
type worthKey struct {
	on *departure
	by Weights
}

// worthBytes is the room that one takes.
const worthBytes = 2_100

func (l *localWorth) in(s *situation) *situationWorth {
	return s.worths.FindOrCompute(worthKey{l.departure, l.weights}, func() *situationWorth {
		situations.TakeRoom(worthBytes)
		return &situationWorth{s, l, make([]atomic.Uint32, len(cloud))}
	})
}

// of returns what a break of a hand is worth.
func (s *situationWorth) of(hand int) float64 {
	bits := s.hands[hand].Load()
	if bits == 0 {
		bits = math.Float32bits(s.values.of(s.in.predict(hand)))
		s.hands[hand].Store(bits)
	}
	return float64(math.Float32frombits(bits))
}

// dot adds up the products; a library's call is worth its while from a few on.
func dot(a, b []float32) float32 {
	const few = 8
	if len(a) > few {
		return blas32.Dot(blas32.Vector{N: len(a), Inc: 1, Data: a}, blas32.Vector{N: len(b), Inc: 1, Data: b})
	}
	sum := float32(0)
	for i, x := range a {
		sum += x * b[i]
	}
	return sum
}
