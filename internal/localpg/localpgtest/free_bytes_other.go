//go:build !linux && !darwin

package localpgtest

// freeBytes knows no memory file system here.
func freeBytes(string) uint64 { return 0 }
