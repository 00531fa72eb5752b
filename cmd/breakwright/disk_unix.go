//go:build linux || darwin

package main

import (
	"fmt"
	"syscall"
)

// freeBytes is how much an ordinary user may still write below a folder.
func freeBytes(dir string) (uint64, error) {
	var s syscall.Statfs_t
	if err := syscall.Statfs(dir, &s); err != nil {
		return 0, fmt.Errorf("look at the disk of %s: %w", dir, err)
	}
	return s.Bavail * uint64(s.Bsize), nil
}
