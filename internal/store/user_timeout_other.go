//go:build !linux

package store

import (
	"syscall"
	"time"
)

// setUserTimeout does nothing here: keep-alive packets notice a line that was cut.
func setUserTimeout(time.Duration) func(network, address string, c syscall.RawConn) error { return nil }
