package store

import (
	"syscall"
	"time"
)

// tcpUserTimeout is Linux's TCP_USER_TIMEOUT (tcp(7)), which package syscall does not name.
const tcpUserTimeout = 0x12

// setUserTimeout makes the kernel give up a TCP line whose bytes are not
// acknowledged for so long. Other lines have no such thing.
func setUserTimeout(limit time.Duration) func(network, address string, c syscall.RawConn) error {
	return func(network, _ string, c syscall.RawConn) error {
		if len(network) < 3 || network[:3] != "tcp" {
			return nil
		}
		var failed error
		err := c.Control(func(descriptor uintptr) {
			failed = syscall.SetsockoptInt(int(descriptor), syscall.IPPROTO_TCP, tcpUserTimeout, int(limit.Milliseconds()))
		})
		if err != nil {
			return err
		}
		return failed
	}
}
