package vector

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"testing"
)

func drawn(rng *rand.Rand, n int, most float32) []float32 {
	v := make([]float32, n)
	for i := range v {
		v[i] = most * (2*rng.Float32() - 1)
	}
	return v
}

func sameBits(a, b []float32) bool {
	return slices.EqualFunc(a, b, func(x, y float32) bool { return math.Float32bits(x) == math.Float32bits(y) })
}

// What goes eight at a time is what goes one after the other, to the last bit.
func TestEights_AreOneByOne(t *testing.T) {
	rng := rand.New(rand.NewPCG(7, 1))
	for _, n := range []int{8, 16, 32, 40, 104, 128, 496} {
		values, others := drawn(rng, n, 70), drawn(rng, n, 3)
		for _, c := range []struct {
			name             string
			atOnce, oneByOne func(v []float32)
		}{
			{"exp", Exp, expOneByOne},
			{"tanh", Tanh, tanhOneByOne},
			{"divide", func(v []float32) { Divide(v, others) }, func(v []float32) { divideOneByOne(v, others) }},
			{"subtract", func(v []float32) { Subtract(v, others) }, func(v []float32) { subtractOneByOne(v, others) }},
		} {
			got, want := slices.Clone(values), slices.Clone(values)
			c.atOnce(got)
			c.oneByOne(want)
			if !sameBits(got, want) {
				t.Errorf("%s of %d: %v, one by one %v", c.name, n, got, want)
			}
		}
	}
}

func TestAddProducts_IsOneByOne(t *testing.T) {
	rng := rand.New(rand.NewPCG(7, 2))
	for _, width := range []int{8, 24, 32, 40, 104, 128} {
		for _, count := range []int{1, 2, 16, 40} {
			for _, step := range []int{1, 5} {
				t.Run(fmt.Sprint(width, count, step), func(t *testing.T) {
					stride := width + 8*rng.IntN(3)
					rows, factors := drawn(rng, count*stride, 2), drawn(rng, count*step, 2)
					got := drawn(rng, width, 1)
					want := slices.Clone(got)
					AddProducts(got, rows, stride, factors, step, count)
					addProductsOneByOne(want, rows, stride, factors, step, count)
					if !sameBits(got, want) {
						t.Errorf("%v, one by one %v", got, want)
					}
				})
			}
		}
	}
}

// Worked by hand: 1 + 2·10 + 3·100, and so on.
func TestAddProducts_OfTwoRows(t *testing.T) {
	sums := []float32{1, 1, 1, 1, 1, 1, 1, 0}
	rows := []float32{10, 20, 30, 40, 50, 60, 70, 80, 0, 100, 200, 300, 400, 500, 600, 700, 800}
	AddProducts(sums, rows, 9, []float32{2, 0, 3}, 2, 2)
	if want := []float32{321, 641, 961, 1281, 1601, 1921, 2241, 2560}; !slices.Equal(sums, want) {
		t.Errorf("%v, want %v", sums, want)
	}
}

// tolerance is far below the error of the networks: see MODEL.md of package response.
const tolerance = 1e-4

// Beside the standard library's.
func TestExp_IsTheExponential(t *testing.T) {
	worst := 0.0
	for x := -MostExponent + 0.0; x < MostExponent; x += 0.0137 {
		v := make([]float32, Lanes)
		v[3] = float32(x)
		Exp(v)
		worst = math.Max(worst, math.Abs(float64(v[3])/math.Exp(float64(float32(x)))-1))
	}
	if worst > tolerance {
		t.Errorf("a relative error of %.2g", worst)
	}
}

func TestTanh_IsTheTangent(t *testing.T) {
	for x := -12.0; x < 12; x += 0.0101 {
		v := make([]float32, Lanes)
		v[5] = float32(x)
		if Tanh(v); math.Abs(float64(v[5])-math.Tanh(float64(float32(x)))) > tolerance {
			t.Fatalf("tanh %.4f: %v", x, v[5])
		}
	}
}

// A length that would be read beyond its end is refused.
func TestLengths_AreWatched(t *testing.T) {
	for name, call := range map[string]func(){
		"no eights":        func() { Exp(make([]float32, 12)) },
		"nothing":          func() { Tanh(nil) },
		"too few divisors": func() { Divide(make([]float32, 16), make([]float32, 8)) },
		"too few to take":  func() { Subtract(make([]float32, 16), make([]float32, 8)) },
		"too few rows":     func() { AddProducts(make([]float32, 8), make([]float32, 23), 8, make([]float32, 3), 1, 3) },
		"too few factors":  func() { AddProducts(make([]float32, 8), make([]float32, 24), 8, make([]float32, 4), 2, 3) },
	} {
		t.Run(name, func(t *testing.T) {
			defer func() {
				if recover() == nil {
					t.Error("not refused")
				}
			}()
			call()
		})
	}
}

func BenchmarkAddProducts_40x128(b *testing.B) {
	rng := rand.New(rand.NewPCG(7, 3))
	rows, factors, sums := drawn(rng, 40*496, 1), drawn(rng, 40*40, 1), make([]float32, 128)
	for b.Loop() {
		AddProducts(sums, rows, 496, factors, 40, 40)
	}
}

func BenchmarkTanh_128(b *testing.B) {
	v := drawn(rand.New(rand.NewPCG(7, 4)), 128, 3)
	for b.Loop() {
		Tanh(v)
	}
}

func BenchmarkExp_128(b *testing.B) {
	v := drawn(rand.New(rand.NewPCG(7, 5)), 128, 3)
	for b.Loop() {
		Exp(v)
	}
}
