//go:build linux || darwin

package localpgtest

import "syscall"

// freeBytes is how many bytes an ordinary user may still write in a folder; 0 when
// there is no such folder.
func freeBytes(dir string) uint64 {
	var stat syscall.Statfs_t
	if syscall.Statfs(dir, &stat) != nil {
		return 0
	}
	return stat.Bavail * uint64(stat.Bsize)
}
