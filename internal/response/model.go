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

// Response holds the natural logarithms of the probabilities of all outcomes of
// a break, by Index.
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
	out.derive()
	return out
}

// softmax turns logits into logarithms of probabilities.
func softmax(v []float32) {
	top := v[0]
	for _, x := range v {
		top = max(top, x)
	}
	sum := 0.0
	for _, x := range v {
		sum += math.Exp(float64(x - top))
	}
	whole := top + float32(math.Log(sum))
	for i := range v {
		v[i] -= whole
	}
}

// derive fills in the outcomes of breaks of which less was seen.
func (r Response) derive() {
	made := math.Exp(float64(r[Index(Wing, WingMade)]))
	elsewhere := math.Exp(float64(r[Index(Wing, WingElsewhere)]))
	r[wingUp] = float32(math.Log(math.Max(1e-6, 1-made-elsewhere)))
	for z := range zones {
		sum := 0.0
		for p := range paths {
			sum += math.Exp(float64(r[Index(Cue, firstRest+p*zones+z)]))
		}
		r[restUnseen+z] = float32(math.Log(math.Max(1e-6, sum)))
	}
}

// Probability gives the chance of an outcome.
func (r Response) Probability(f Fact, outcome int) float64 {
	return math.Exp(float64(r[Index(f, outcome)]))
}

// Middle gives the chance that the cue ball comes to rest between the head
// string and the centre, of the chances of all outcomes.
func Middle(chances []float32) float64 {
	sum := 0.0
	for z := 3; z < 6; z++ {
		sum += float64(chances[restUnseen+z])
	}
	return sum
}
