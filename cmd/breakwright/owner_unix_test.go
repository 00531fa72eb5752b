//go:build unix

package main

import (
	"os"
	"syscall"
	"testing"
)

// fileOwner is whose a file is.
func fileOwner(t *testing.T, path string) int {
	t.Helper()
	info, err := os.Stat(path)
	if err != nil {
		t.Fatal(err)
	}
	return int(info.Sys().(*syscall.Stat_t).Uid)
}
