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
		n := &network{w3: make([][Hidden + 1]float32, outputs)}
		rest = n.decode(rest)
		all[r] = n
	}
	if len(rest) != 0 {
		panic(fmt.Sprintf("response: %d bytes too many in the file of weights", len(rest)))
	}
	return all
})

// decode reads a network: a row's scale as float32, then its weights as int16
// shares of it.
func (n *network) decode(b []byte) []byte {
	row := func(into []float32) {
		scale := math.Float32frombits(binary.LittleEndian.Uint32(b)) / math.MaxInt16
		b = b[4:]
		for i := range into {
			into[i] = scale * float32(int16(binary.LittleEndian.Uint16(b[2*i:])))
		}
		b = b[2*len(into):]
	}
	for i := range n.w1 {
		row(n.w1[i][:])
	}
	for i := range n.w2 {
		row(n.w2[i][:])
	}
	for i := range n.w3 {
		row(n.w3[i][:])
	}
	return b
}

// Response holds the chances of all outcomes of a break, by Index.
type Response []float32

// Predict gives what a stroke would show on a rack and kind of table.
func Predict(s Stroke, r Rack, k table.Kind) Response {
	n, known := networks()[r]
	if !known {
		panic(fmt.Sprintf("response: no network for %s with %q on the spot", r.Game, r.Spot))
	}
	x := s.Normalise(k, r.Spot)
	out := make(Response, Width)
	n.logits(&x, out[:outputs])
	for f := range factCount {
		softmax(out[start[f]:start[f+1]])
	}
	out.Derive()
	return out
}

// softmax turns logits into probabilities.
func softmax(v []float32) {
	top := v[0]
	for _, x := range v {
		top = max(top, x)
	}
	var sum float32
	for i, x := range v {
		v[i] = exp32(max(x-top, -80))
		sum += v[i]
	}
	for i := range v {
		v[i] /= sum
	}
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

// Probability gives the chance of an outcome.
func (r Response) Probability(f Fact, outcome int) float64 { return float64(r[Index(f, outcome)]) }

// Middle gives the chance that the cue ball comes to rest between the head
// string and the centre.
func (r Response) Middle() float64 {
	return float64(r[restUnseen+3] + r[restUnseen+4] + r[restUnseen+5])
}
