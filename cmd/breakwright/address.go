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
	if found := networkAddresses(); len(found) > 0 {
		return found[0].String()
	}
	return "127.0.0.1"
}

// networkAddresses are this machine's own in the networks that it is in, those of
// private networks (RFC 1918), where the room's phones are, before others. A machine
// that cannot tell has none.
func networkAddresses() []net.IP {
	addresses, err := net.InterfaceAddrs()
	if err != nil {
		return nil
	}
	var private, others []net.IP
	for _, a := range addresses {
		n, ok := a.(*net.IPNet)
		switch {
		case !ok || n.IP.To4() == nil || !n.IP.IsGlobalUnicast():
		case n.IP.IsPrivate():
			private = append(private, n.IP)
		default:
			others = append(others, n.IP)
		}
	}
	return append(private, others...)
}

// phoneURLs are the addresses at which phones in the room's network find the pages,
// or would if the server listened on all addresses of this machine.
func phoneURLs(l net.Listener) []string {
	at := l.Addr().(*net.TCPAddr)
	var urls []string
	for _, ip := range networkAddresses() {
		if at.IP.IsUnspecified() || at.IP.IsLoopback() || at.IP.Equal(ip) {
			urls = append(urls, "http://"+net.JoinHostPort(ip.String(), fmt.Sprint(at.Port)))
		}
	}
	return urls
}

// phoneWords say how phones in the room get to the pages at an address, and what
// they lack there.
func phoneWords(url string, l net.Listener) string {
	at := l.Addr().(*net.TCPAddr)
	urls := strings.Join(phoneURLs(l), " or ")
	var words string
	switch {
	case isSecure(url):
		return ""
	case at.IP.IsLoopback() && urls == "":
		words = fmt.Sprintf("Only this machine can open that, and it is in no network. In one, start with --listen 0.0.0.0:%d for phones to open it.\n", at.Port)
	case at.IP.IsLoopback():
		words = fmt.Sprintf("Only this machine can open that. For phones in the room's network, start with --listen 0.0.0.0:%d; they then open %s\n", at.Port, urls)
	case urls == "":
		words = "This machine is in no network, so no phone can open that.\n"
	default:
		words = "Phones in the room's network open " + urls + "\n"
	}
	return words + "Over http a phone needs signal at every break. To keep a set without it, browsers want https: a proxy with a certificate (deploy/nginx.conf) and --url https://…\n"
}

// isSecure reports whether browsers speak https with us.
func isSecure(url string) bool { return strings.HasPrefix(url, "https://") }
