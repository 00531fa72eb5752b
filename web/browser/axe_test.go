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
	errors strings.Builder
}

func (l *listener) Helper()                           {}
func (l *listener) Errorf(format string, args ...any) { fmt.Fprintf(&l.errors, format, args...) }

func TestAxe_FindsWhatIsWrongAndOnlyThat(t *testing.T) {
	pages := map[string]string{
		"/bad":  `<main><h1>Break</h1><button></button><p style="color:#bbb;background:#fff">too faint</p></main>`,
		"/good": `<main><h1>Break</h1><button>Save</button><p>clear enough</p></main>`,
		"/dark": `<style>@media (prefers-color-scheme: dark) { body { background: #111 } h1 { color: #fff } p { color: #333 } }</style><main><h1>Break</h1><p>faint at night</p></main>`,
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
		if !strings.Contains(bad.errors.String(), rule) {
			t.Errorf("axe-core missed %s: %s", rule, bad.errors.String())
		}
	}
	night := &listener{TB: t}
	looking := *w
	looking.t = night
	looking.CheckLightAndDark(server.URL+"/dark", "dark")
	if n := strings.Count(night.errors.String(), "color-contrast"); n != 1 {
		t.Errorf("what is too faint in dark alone is found %d times, want once: %s", n, night.errors.String())
	}
	w.SetDark(false)
	w.Navigate(server.URL + "/good")
	w.CheckAccessibility(t)
}
