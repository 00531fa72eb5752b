//go:build !amd64

package vector

func addProducts(sums, rows []float32, stride int, factors []float32, step, count int) {
	addProductsOneByOne(sums, rows, stride, factors, step, count)
}

func exp(v []float32)            { expOneByOne(v) }
func tanh(v []float32)           { tanhOneByOne(v) }
func divide(v, by []float32)     { divideOneByOne(v, by) }
func subtract(v, less []float32) { subtractOneByOne(v, less) }
