package response

import (
	"math"
	"testing"
)

// tolerance is far below the error of the networks: see MODEL.md.
const tolerance = 1e-4

// Beside the standard library's, over everything that a network asks.
func TestExp32_IsTheExponential(t *testing.T) {
	worst := 0.0
	for x := -87.0; x < 87; x += 0.0137 {
		got, want := float64(exp32(float32(x))), math.Exp(float64(float32(x)))
		worst = math.Max(worst, math.Abs(got/want-1))
	}
	if worst > tolerance {
		t.Errorf("a relative error of %.2g", worst)
	}
}

func TestReplaceByTanh_IsTheTangent(t *testing.T) {
	for x := -12.0; x < 12; x += 0.0101 {
		v := []float32{float32(x)}
		if replaceByTanh(v); math.Abs(float64(v[0])-math.Tanh(float64(float32(x)))) > tolerance {
			t.Fatalf("tanh %.4f: %v", x, v[0])
		}
	}
}
