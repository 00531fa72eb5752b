package response

import (
	"math"
	"testing"
)

// Beside the standard library's, over everything that a network asks.
func TestExp32_IsTheExponential(t *testing.T) {
	worst := 0.0
	for x := -87.0; x < 87; x += 0.0137 {
		got, want := float64(exp32(float32(x))), math.Exp(float64(float32(x)))
		worst = math.Max(worst, math.Abs(got/want-1))
	}
	if worst > 1e-6 {
		t.Errorf("a relative error of %.2g", worst)
	}
}

func TestTanh32_IsTheTangent(t *testing.T) {
	for x := -12.0; x < 12; x += 0.0101 {
		if got, want := float64(tanh32(float32(x))), math.Tanh(float64(float32(x))); math.Abs(got-want) > 1e-6 {
			t.Fatalf("tanh %.4f: %v, want %v", x, got, want)
		}
	}
}
