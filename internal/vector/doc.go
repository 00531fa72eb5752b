// Package vector computes on many float32 at once, for the networks of package response,
// into which most of an adviser's time goes. Processors with AVX2 do eight at a time
// (vector_amd64.s), others one after the other: every sum and product is rounded by itself
// and in the same order, so that all give the same to the last bit.
//
// Lengths are multiples of Lanes; see Pad. What is wrong in length panics.
package vector

// Lanes is how many numbers go at once.
const Lanes = 8

// Pad returns the least length that is not below n and a multiple of Lanes.
func Pad(n int) int { return (n + Lanes - 1) / Lanes * Lanes }
