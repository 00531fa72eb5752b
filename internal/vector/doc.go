// Package vector computes on many float32 at once, for the networks of package response.
// Processors with AVX2 do eight at a time (vector_amd64.s), others one after the other:
// every sum and product is rounded by itself and in the same order, so that all give the
// same to the last bit.
package vector
