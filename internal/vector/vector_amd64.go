package vector

import "golang.org/x/sys/cpu"

// Each of these does all the eights of what it is given and returns how many numbers it has
// done: none where the processor cannot.

func addProductsInEights(sums, rows []float32, stride int, factors []float32, step, count int) (done int) {
	all := eightsOf(sums) * Lanes
	const wide, bytes = 4 * Lanes, 4
	for ; done+wide <= all; done += wide {
		addProducts32(&sums[done], &rows[done], &factors[0], bytes*stride, bytes*step, count)
	}
	for ; done < all; done += Lanes {
		addProducts8(&sums[done], &rows[done], &factors[0], bytes*stride, bytes*step, count)
	}
	return done
}

func expInEights(v []float32) (done int) {
	eights := eightsOf(v)
	if eights > 0 {
		expEights(&v[0], eights)
	}
	return eights * Lanes
}

func logInEights(v []float32) (done int) {
	eights := eightsOf(v)
	if eights > 0 {
		logEights(&v[0], eights)
	}
	return eights * Lanes
}

func tanhInEights(v []float32) (done int) {
	eights := eightsOf(v)
	if eights > 0 {
		tanhEights(&v[0], eights)
	}
	return eights * Lanes
}

func divideInEights(v, by []float32) (done int) {
	eights := eightsOf(v)
	if eights > 0 {
		divideEights(&v[0], &by[0], eights)
	}
	return eights * Lanes
}

// eightsOf returns how many whole eights there are that the processor can do at once.
func eightsOf(v []float32) int {
	if !cpu.X86.HasAVX2 {
		return 0
	}
	return len(v) / Lanes
}

// What follows is in vector_amd64.s. There is at least one of what is counted; the rows' and
// the factors' distances are in bytes.

//go:noescape
func addProducts32(sums, rows, factors *float32, rowBytes, factorBytes, count int)

//go:noescape
func addProducts8(sums, rows, factors *float32, rowBytes, factorBytes, count int)

//go:noescape
func expEights(v *float32, eights int)

//go:noescape
func logEights(v *float32, eights int)

//go:noescape
func tanhEights(v *float32, eights int)

//go:noescape
func divideEights(v, by *float32, eights int)
