package roster

import (
	"cmp"
	"net"
	"net/url"
	"strings"
)

// phoneWay is how phones get to the address that is printed on join cards.
type phoneWay struct {
	// Host is that of the address when only this machine can open it, else empty.
	Host string
	// Listen is the setting that lets phones in, PhoneURLs where they then find it.
	Listen, PhoneURLs string
	// IsPlain says that the address is not https, so that no phone keeps a set
	// without signal.
	IsPlain bool
}

// newPhoneWay looks at the public address; phoneURLs are those of the room's network.
func newPhoneWay(public string, phoneURLs []string) phoneWay {
	at, err := url.Parse(public)
	if err != nil || at.Scheme == "https" {
		return phoneWay{}
	}
	w := phoneWay{IsPlain: true}
	if ip := net.ParseIP(at.Hostname()); at.Hostname() == "localhost" || ip.IsLoopback() {
		w.Host, w.PhoneURLs = at.Host, strings.Join(phoneURLs, " or ")
		w.Listen = "--listen " + net.JoinHostPort("0.0.0.0", cmp.Or(at.Port(), "80"))
	}
	return w
}
