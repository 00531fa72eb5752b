package response_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"breakwright/internal/response"
	"breakwright/internal/table"
)

// strokesDrawn are strokes from all that hands do.
func strokesDrawn(n int) []response.Stroke {
	rng := rand.New(rand.NewPCG(3, 8))
	between := func(low, high float64) float64 { return low + (high-low)*rng.Float64() }
	strokes := make([]response.Stroke, n)
	for i := range strokes {
		strokes[i] = response.Stroke{
			Out: table.Inches(between(-4, 23)), Behind: table.Inches(between(0, 10)),
			Contact: table.Inches(between(-1.3, 1.3)), Tip: between(-0.48, 0.45), Spin: between(-0.3, 0.3),
			Speed: table.Mph(between(7, 27)), Unsteady: between(0.5, 5), Gap: table.Inches(between(0.003, 0.028)),
		}
	}
	return strokes
}

// Many strokes at once show just what each shows alone, whether or not they fill the last
// of the parts in which they are computed.
func TestPredictAll_IsEachPredict(t *testing.T) {
	for _, r := range response.Racks() {
		for _, n := range []int{1, 64, 150} {
			strokes, row := strokesDrawn(n), make([]float32, n)
			all := response.PredictAll(strokes, r, table.SevenFoot())
			for i, s := range strokes {
				alone := response.Predict(s, r, table.SevenFoot())
				for index, want := range alone {
					if got := all.Of(i)[index]; got != want {
						t.Fatalf("%v, stroke %d of %d, outcome %d: a chance of %v, alone %v", r, i, n, index, got, want)
					}
				}
				for index := range response.OutputCount() {
					if all.Chances(index, row); row[i] != alone[index] {
						t.Fatalf("%v, stroke %d of %d, outcome %d: a chance of %v, alone %v", r, i, n, index, row[i], alone[index])
					}
					all.Logs(index, row)
					if got, want := float64(row[i]), math.Log(float64(alone[index])); math.Abs(got-want) > 1e-4 {
						t.Fatalf("%v, stroke %d of %d, outcome %d: the logarithm is %v, alone %v", r, i, n, index, got, want)
					}
				}
			}
		}
	}
}
