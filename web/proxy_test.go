package web

import (
	"net/http"
	"net/http/httptest"
	"net/netip"
	"testing"
)

func TestFindClient(t *testing.T) {
	trusted := []netip.Prefix{netip.MustParsePrefix("127.0.0.0/8"), netip.MustParsePrefix("10.1.0.0/16"), netip.MustParsePrefix("fd00::/8")}
	for name, c := range map[string]struct {
		peer      string
		forwarded []string
		want      string
	}{
		"no proxy":                           {"198.51.100.4:9000", nil, "198.51.100.4:9000"},
		"a stranger's header":                {"198.51.100.4:9000", []string{"203.0.113.9"}, "198.51.100.4:9000"},
		"one proxy":                          {"127.0.0.1:9000", []string{"203.0.113.9"}, "203.0.113.9:0"},
		"an invented hop before the proxy's": {"127.0.0.1:9000", []string{"192.0.2.1, 203.0.113.9"}, "203.0.113.9:0"},
		"two proxies":                        {"127.0.0.1:9000", []string{"203.0.113.9", "10.1.2.3"}, "203.0.113.9:0"},
		"another version":                    {"[fd00::1]:9000", []string{"2001:db8::7"}, "[2001:db8::7]:0"},
		"nothing said":                       {"127.0.0.1:9000", nil, "127.0.0.1:9000"},
		"no address":                         {"127.0.0.1:9000", []string{"203.0.113.9, unknown"}, "127.0.0.1:9000"},
	} {
		r := httptest.NewRequest(http.MethodGet, "/", nil)
		r.RemoteAddr = c.peer
		r.Header["X-Forwarded-For"] = c.forwarded
		got := ""
		findClient(trusted)(http.HandlerFunc(func(_ http.ResponseWriter, r *http.Request) { got = r.RemoteAddr })).ServeHTTP(nil, r)
		if got != c.want {
			t.Errorf("%s: %s, want %s", name, got, c.want)
		}
	}
}
