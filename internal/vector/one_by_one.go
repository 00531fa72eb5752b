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

func logOneByOne(v []float32) {
	for i, x := range v {
		v[i] = log(x)
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

// rootOfHalf is the bits of the square root of a half, from which on to twice that a
// logarithm goes by its polynomial.
const rootOfHalf, fraction = 0x3f3504f3, 1<<23 - 1

// log is that of a power of two and of the rest, which is near 1. The polynomial and the
// two parts of ln 2, the first of which has few digits, are those of logf in the Cephes
// library (S. L. Moshier, 1992).
func log(x float32) float32 {
	bits := int32(math.Float32bits(x)) - rootOfHalf
	power := float32(bits >> 23)
	r := math.Float32frombits(uint32(bits&fraction+rootOfHalf)) - 1
	p := float32(7.0376836292e-2)
	for _, c := range [...]float32{
		-1.1514610310e-1, 1.1676998740e-1, -1.2420140846e-1, 1.4249322787e-1,
		-1.6668057665e-1, 2.0000714765e-1, -2.4999993993e-1, 3.3333331174e-1,
	} {
		p = float32(p*r) + c
	}
	square := float32(r * r)
	p = float32(float32(p*r) * square)
	p += float32(power * -2.12194440e-4)
	p -= float32(square * 0.5)
	return r + p + float32(power*0.693359375)
}
