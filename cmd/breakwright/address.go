package main

import (
	"errors"
	"fmt"
	"io/fs"
	"net"
	"strings"
	"syscall"
)

// openListener takes the port before anything that takes time, so that a port that
// is taken is told at once.
func openListener(address string) (net.Listener, error) {
	l, err := net.Listen("tcp", address)
	if err == nil {
		return l, nil
	}
	host, _, _ := net.SplitHostPort(address) // checked with the settings
	free := net.JoinHostPort(host, "0")
	switch {
	case errors.Is(err, syscall.EADDRINUSE):
		return nil, fmt.Errorf("the port is taken: another program listens on %s.\nStop that one, or choose another port: --listen %s takes any free one", address, free)
	case errors.Is(err, fs.ErrPermission):
		return nil, fmt.Errorf("this user may not listen on %s: %w.\nChoose a port above 1023: --listen %s takes any free one", address, err, free)
	}
	return nil, fmt.Errorf("listen on %s: %w.\nChoose an address of this machine: --listen %s is always one", address, err, defaultListen)
}

// publicURL is the address to print and to put into join codes: the one that
// is set, else the one listened on.
func publicURL(set string, l net.Listener) string {
	if set != "" {
		return set
	}
	at := l.Addr().(*net.TCPAddr)
	host := at.IP.String()
	if at.IP.IsUnspecified() {
		host = networkAddress()
	}
	return "http://" + net.JoinHostPort(host, fmt.Sprint(at.Port))
}

// networkAddress is how others on the same network reach this machine, as far as
// the machine can tell: the first address that is not its own loop.
func networkAddress() string {
	addresses, err := net.InterfaceAddrs()
	if err == nil {
		for _, a := range addresses {
			if n, ok := a.(*net.IPNet); ok && n.IP.To4() != nil && n.IP.IsGlobalUnicast() {
				return n.IP.String()
			}
		}
	}
	return "127.0.0.1"
}

// isSecure reports whether browsers speak https with us.
func isSecure(url string) bool { return strings.HasPrefix(url, "https://") }
