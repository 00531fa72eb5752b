package vector

import "golang.org/x/sys/cpu"

var hasAVX2 = cpu.X86.HasAVX2

func addProducts(sums, rows []float32, stride int, factors []float32, step, count int) {
	if !hasAVX2 {
		addProductsOneByOne(sums, rows, stride, factors, step, count)
		return
	}
	const wide, bytes = 4 * Lanes, 4
	i := 0
	for ; i+wide <= len(sums); i += wide {
		addProducts32(&sums[i], &rows[i], &factors[0], bytes*stride, bytes*step, count)
	}
	for ; i < len(sums); i += Lanes {
		addProducts8(&sums[i], &rows[i], &factors[0], bytes*stride, bytes*step, count)
	}
}

func exp(v []float32) {
	if !hasAVX2 {
		expOneByOne(v)
		return
	}
	exp8s(&v[0], len(v)/Lanes)
}

func tanh(v []float32) {
	if !hasAVX2 {
		tanhOneByOne(v)
		return
	}
	tanh8s(&v[0], len(v)/Lanes)
}

func divide(v, by []float32) {
	if !hasAVX2 {
		divideOneByOne(v, by)
		return
	}
	divide8s(&v[0], &by[0], len(v)/Lanes)
}

func subtract(v, less []float32) {
	if !hasAVX2 {
		subtractOneByOne(v, less)
		return
	}
	subtract8s(&v[0], &less[0], len(v)/Lanes)
}

// Those of vector_amd64.s. Lengths are in eights of numbers, the rows' and the factors'
// distances in bytes.

//go:noescape
func addProducts32(sums, rows, factors *float32, rowBytes, factorBytes, count int)

//go:noescape
func addProducts8(sums, rows, factors *float32, rowBytes, factorBytes, count int)

//go:noescape
func exp8s(v *float32, eights int)

//go:noescape
func tanh8s(v *float32, eights int)

//go:noescape
func divide8s(v, by *float32, eights int)

//go:noescape
func subtract8s(v, less *float32, eights int)
