//go:build !amd64

package vector

func addProductsInEights(sums, rows []float32, stride int, factors []float32, step, count int) (done int) {
	return 0
}

func expInEights(v []float32) (done int)        { return 0 }
func logInEights(v []float32) (done int)        { return 0 }
func tanhInEights(v []float32) (done int)       { return 0 }
func divideInEights(v, by []float32) (done int) { return 0 }
