package response

import (
	_ "embed"
	"encoding/binary"
	"fmt"
	"math"
	"slices"
	"sync"

	"breakwright/internal/rack"
	"breakwright/internal/table"
)

//go:embed model.bin
var file []byte

// Racks lists the networks there are, in the order of the file.
func Racks() []Rack {
	return []Rack{
		{rack.NineBall, rack.HeadOnSpot}, {rack.NineBall, rack.CentreOnSpot},
		{rack.TenBall, rack.HeadOnSpot}, {rack.EightBall, rack.HeadOnSpot},
	}
}

// Knows reports whether there is a network for a rack.
func Knows(r Rack) bool { return slices.Contains(Racks(), r) }

// networks reads the file once.
var networks = sync.OnceValue(func() map[Rack]*network {
	all := make(map[Rack]*network, len(Racks()))
	rest := file
	for _, r := range Racks() {
		n := &network{newLayer(InputCount, Hidden), newLayer(Hidden, Hidden), newLayer(Hidden, outputs)}
		rest = n.decode(rest)
		all[r] = n
	}
	if len(rest) != 0 {
		panic(fmt.Sprintf("response: %d bytes too many in the file of weights", len(rest)))
	}
	return all
})

// decode reads a network: for each output of each layer a scale as float32, then its
// weights and bias as int16 shares of it. It returns what is left.
func (n *network) decode(b []byte) []byte {
	for _, l := range []*layer{&n.first, &n.second, &n.last} {
		weights := make([]float32, l.weights.rows)
		for output := range l.weights.columns {
			scale := math.Float32frombits(binary.LittleEndian.Uint32(b)) / math.MaxInt16
			b = b[4:]
			for i := range weights {
				weights[i] = scale * float32(int16(binary.LittleEndian.Uint16(b[2*i:])))
			}
			b = b[2*len(weights):]
			l.setOutput(output, weights)
		}
	}
	return b
}

// Response holds the chances of all outcomes of a break, by Index.
type Response []float32

// Predict returns what a stroke would show on a rack and kind of table.
func Predict(s Stroke, r Rack, k table.Kind) Response {
	x, n := s.Normalise(k, r.Spot), networkOf(r)
	hidden := n.hidden(&x)
	return n.respond(&hidden)
}

// networkOf panics where there is none: see Knows.
func networkOf(r Rack) *network {
	n, known := networks()[r]
	if !known {
		panic(fmt.Sprintf("response: no network for %s with %q on the spot", r.Game, r.Spot))
	}
	return n
}

// leastDerived keeps an outcome that is only inferred from being impossible.
const leastDerived = 1e-6

// Derive fills in the outcomes of breaks of which less was seen from the others.
func (r Response) Derive() {
	made, elsewhere := r[Index(Wing, WingMade)], r[Index(Wing, WingElsewhere)]
	r[wingUp] = max(leastDerived, 1-made-elsewhere)
	rests := r[Index(Cue, firstRest):start[Cue+1]]
	for z := range zones {
		r[restUnseen+z] = max(leastDerived, rests[z]+rests[zones+z]+rests[2*zones+z]+rests[3*zones+z])
	}
}

// middleOutcomes are the places of a cue ball that comes to rest between the head string
// and the centre, by every way: that is in zones 3 to 5.
var middleOutcomes = slices.Concat(derivedParts[1+3 : 1+6]...)

// MiddleOutcomes lists the places in a Response of a cue ball that comes to rest between
// the head string and the centre.
func MiddleOutcomes() []int { return middleOutcomes }
