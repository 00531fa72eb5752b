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
	for _, n := range []int{0, 1, 7, 8, 9, 16, 40, 100, 128, 490} {
		values, others := drawn(rng, n, 70), drawn(rng, n, 3)
		for _, c := range []struct {
			name             string
			atOnce, oneByOne func(v []float32)
		}{
			{"exp", Exp, expOneByOne},
			{"tanh", Tanh, tanhOneByOne},
			{"log", func(v []float32) { Exp(v); Log(v) }, func(v []float32) { expOneByOne(v); logOneByOne(v) }},
			{"divide", func(v []float32) { Divide(v, others) }, func(v []float32) {
				for i, d := range others {
					v[i] /= d
				}
			}},
			{"add a product", func(v []float32) { AddProduct(v, others, -1) }, func(v []float32) {
				for i, l := range others {
					v[i] -= l
				}
			}},
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
	for _, width := range []int{0, 1, 8, 24, 32, 43, 104, 128} {
		for _, count := range []int{0, 1, 2, 16, 40} {
			for _, step := range []int{0, 1, 5} {
				t.Run(fmt.Sprint(width, count, step), func(t *testing.T) {
					stride := width + rng.IntN(12)
					rows, factors := drawn(rng, count*stride, 2), drawn(rng, 1+count*step, 2)
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
	sums := []float32{1, 1, 1, 1, 1, 1, 1, 0, -1}
	rows := []float32{10, 20, 30, 40, 50, 60, 70, 80, 90, 0, 100, 200, 300, 400, 500, 600, 700, 800, 900}
	AddProducts(sums, rows, 10, []float32{2, 0, 3}, 2, 2)
	if want := []float32{321, 641, 961, 1281, 1601, 1921, 2241, 2560, 2879}; !slices.Equal(sums, want) {
		t.Errorf("%v, want %v", sums, want)
	}
}

// tolerance is far below the error of the networks: see MODEL.md of package response.
const tolerance = 1e-4

// Beside the standard library's, in every lane.
func TestExp_IsTheExponential(t *testing.T) {
	worst := 0.0
	for x := -mostExponent + 0.0; x < mostExponent; x += 0.0137 {
		v := slices.Repeat([]float32{float32(x)}, Lanes+1)
		Exp(v)
		for _, got := range v {
			worst = math.Max(worst, math.Abs(float64(got)/math.Exp(float64(float32(x)))-1))
		}
	}
	if worst > tolerance {
		t.Errorf("a relative error of %.2g", worst)
	}
	farther := []float32{-1000, 1000}
	Exp(farther)
	if math.Abs(float64(farther[1])/math.Exp(mostExponent)-1) > tolerance || math.Abs(float64(farther[0])/math.Exp(-mostExponent)-1) > tolerance {
		t.Errorf("beyond what it takes: %v", farther)
	}
}

func TestLog_IsTheLogarithm(t *testing.T) {
	for x := -80.0; x < 80; x += 0.00317 {
		v := slices.Repeat([]float32{float32(math.Exp(x))}, Lanes+1)
		want := math.Log(float64(v[0]))
		Log(v)
		for _, got := range v {
			if math.Abs(float64(got)-want) > 2e-7*max(1, math.Abs(want)) {
				t.Fatalf("log of e to the %.5f: %v, want %v", x, got, want)
			}
		}
	}
}

func TestTanh_IsTheTangent(t *testing.T) {
	for x := -12.0; x < 12; x += 0.0101 {
		v := slices.Repeat([]float32{float32(x)}, Lanes+1)
		Tanh(v)
		for _, got := range v {
			if math.Abs(float64(got)-math.Tanh(float64(float32(x)))) > tolerance {
				t.Fatalf("tanh %.4f: %v", x, got)
			}
		}
	}
}

// What would be read beyond an end is refused.
func TestLengths_AreWatched(t *testing.T) {
	for name, call := range map[string]func(){
		"too few divisors": func() { Divide(make([]float32, 16), make([]float32, 8)) },
		"too short a row":  func() { AddProduct(make([]float32, 16), make([]float32, 8), 1) },
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

// A hidden layer's unit for as many strokes as are computed together.
func BenchmarkAddProducts_40x128(b *testing.B) {
	rng := rand.New(rand.NewPCG(7, 3))
	rows, factors, sums := drawn(rng, 40*496, 1), drawn(rng, 40*40, 1), make([]float32, 128)
	for b.Loop() {
		AddProducts(sums, rows, 496, factors, 40, 40)
	}
}

func BenchmarkTanh_128(b *testing.B) {
	values := drawn(rand.New(rand.NewPCG(7, 4)), 128, 3)
	v := make([]float32, len(values))
	for b.Loop() {
		copy(v, values)
		Tanh(v)
	}
}
