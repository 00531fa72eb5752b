package vector

import "math"

// What follows is what every processor can do. The conversions keep a compiler from
// rounding a product and a sum in one.

func addProductsOneByOne(sums, rows []float32, stride int, factors []float32, step, count int) {
	if len(sums) == 0 {
		return
	}
	for n := range count {
		factor := factors[n*step]
		for i, x := range rows[n*stride:][:len(sums)] {
			sums[i] += float32(factor * x)
		}
	}
}

func expOneByOne(v []float32) {
	for i, x := range v {
		v[i] = exp(min(max(x, -mostExponent), mostExponent))
	}
}

func tanhOneByOne(v []float32) {
	for i, x := range v {
		v[i] = 1 - 2/(exp(2*min(max(x, -flat), flat))+1)
	}
}

// exp is a power of two times the Taylor polynomial of the rest, which is at most half
// of ln 2. It rounds by adding what leaves a float32 no digits behind the point.
func exp(x float32) float32 {
	const noFraction, log2e, ln2 = 3 << 22, 1.442695040888963, 0.6931471805599453
	shifted := float32(x*log2e) + noFraction
	rest := x - float32((shifted-noFraction)*ln2)
	power := math.Float32bits(shifted) + 127 // what stands before it is shifted out
	p := 1.0/6 + float32(rest*(1.0/24))
	p = 0.5 + float32(rest*p)
	p = 1 + float32(rest*p)
	p = 1 + float32(rest*p)
	return p * math.Float32frombits(power<<23)
}
