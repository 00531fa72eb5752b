package web

import (
	"net"
	"net/http"
	"net/netip"
	"strings"
)

// findClient puts the address of the browser where the address of a proxy
// stands, when the request came through proxies that are trusted: the last
// address in X-Forwarded-For that is not one of theirs. Whatever stands before
// it anybody can write, and from anybody else the header says nothing.
func findClient(trusted []netip.Prefix) func(http.Handler) http.Handler {
	return func(next http.Handler) http.Handler {
		return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
			peer, err := netip.ParseAddrPort(r.RemoteAddr)
			if err == nil && isTrusted(trusted, peer.Addr()) {
				if client, ok := lastUntrusted(r.Header.Values("X-Forwarded-For"), trusted); ok {
					r.RemoteAddr = net.JoinHostPort(client.String(), "0")
				}
			}
			next.ServeHTTP(w, r)
		})
	}
}

func isTrusted(trusted []netip.Prefix, address netip.Addr) bool {
	address = address.Unmap().WithZone("")
	for _, prefix := range trusted {
		if prefix.Contains(address) {
			return true
		}
	}
	return false
}

// lastUntrusted reads from the end, where the nearest proxy has written. What is
// no address ends the reading.
func lastUntrusted(headers []string, trusted []netip.Prefix) (found netip.Addr, ok bool) {
	hops := strings.Split(strings.Join(headers, ","), ",")
	for i := len(hops) - 1; i >= 0; i-- {
		address, err := netip.ParseAddr(strings.Trim(strings.TrimSpace(hops[i]), "[]"))
		if err != nil {
			return found, ok
		}
		found, ok = address.Unmap().WithZone(""), true
		if !isTrusted(trusted, found) {
			return found, true
		}
	}
	return found, ok
}
