//go:build !linux && !darwin

package main

import "fmt"

// freeBytes is not known on this system.
func freeBytes(dir string) (uint64, error) {
	return 0, fmt.Errorf("this system does not tell: see for yourself that %s has room", dir)
}
