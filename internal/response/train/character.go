package main

import (
	"math"

	"gonum.org/v1/gonum/mat"

	"breakwright/internal/response"
)

// standardise turns the numbers of a table's character, of which the fit knows only that
// they are some mix of its constants, into what response.Character promises: a mean of 0
// and a standard deviation of 1 over all tables, independent of one another, the one that
// moves the first hidden layer most first. What the network shows stays the same.
func (n *learner) standardise() {
	constantSpread := 1 / math.Sqrt(3) // of a number drawn evenly from -1 to 1
	mix := mat.NewDense(mixed, constantCount, nil)
	for i := range mixed {
		for j := range constantCount {
			mix.Set(i, j, float64(n.weights[i*constantCount+j])*constantSpread)
		}
	}
	effect := mat.NewDense(response.Hidden, mixed, nil)
	for unit := range response.Hidden {
		for i := range mixed {
			effect.Set(unit, i, float64(n.firstUnit(n.weights, unit)[characterAt+i]))
		}
	}
	// What each constant moves each unit by, a standard deviation of it: its singular
	// vectors are the independent ways in which tables differ.
	var moves mat.Dense
	moves.Mul(effect, mix)
	var svd mat.SVD
	if !svd.Factorize(&moves, mat.SVDThin) {
		panic("train: no singular values of what the constants move")
	}
	var left, right mat.Dense
	svd.UTo(&left)
	svd.VTo(&right)
	sizes := svd.Values(nil)
	for i := range mixed {
		for unit := range response.Hidden {
			n.firstUnit(n.weights, unit)[characterAt+i] = float32(left.At(unit, i) * sizes[i])
		}
		for j := range constantCount {
			n.weights[i*constantCount+j] = float32(right.At(j, i) / constantSpread)
		}
	}
}
