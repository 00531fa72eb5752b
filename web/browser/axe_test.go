//go:build !quick

package browser

import (
	"fmt"
	"net/http"
	"net/http/httptest"
	"strings"
	"testing"
)

// listener notes what would fail a test.
type listener struct {
	testing.TB
	said strings.Builder
}

func (l *listener) Helper()                           {}
func (l *listener) Errorf(format string, args ...any) { fmt.Fprintf(&l.said, format, args...) }

func TestAxe_FindsWhatIsWrongAndOnlyThat(t *testing.T) {
	pages := map[string]string{
		"/bad":  `<main><h1>Break</h1><button></button><p style="color:#bbb;background:#fff">too faint</p></main>`,
		"/good": `<main><h1>Break</h1><button>Save</button><p>clear enough</p></main>`,
	}
	server := httptest.NewServer(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		w.Header().Set("Content-Type", "text/html; charset=utf-8")
		w.Header().Set("Content-Security-Policy", "script-src 'self'")
		fmt.Fprintf(w, `<!doctype html><html lang="en"><title>Break</title>%s</html>`, pages[r.URL.Path])
	}))
	defer server.Close()
	w := OpenWindow(t, Phone)
	w.Navigate(server.URL + "/bad")
	bad := &listener{TB: t}
	w.CheckAccessibility(bad)
	for _, rule := range []string{"button-name", "color-contrast"} {
		if !strings.Contains(bad.said.String(), rule) {
			t.Errorf("axe-core missed %s: %s", rule, bad.said.String())
		}
	}
	w.Navigate(server.URL + "/good")
	w.CheckAccessibility(t)
}
