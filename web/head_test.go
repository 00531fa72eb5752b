package web_test

import (
	"io"
	"net/http"
	"testing"

	"breakwright/web/webtest"
)

// Whoever watches a server asks with HEAD: it is answered as GET is, but for the body
// (RFC 9110, 9.1 and 9.3.2).
func TestHead_IsGetWithoutABody(t *testing.T) {
	t.Parallel()
	site := webtest.New(t)
	for path, want := range map[string]int{
		"/livez": http.StatusOK, "/healthz": http.StatusOK, "/readyz": http.StatusOK, "/sign-in": http.StatusOK, "/words": http.StatusOK,
		"/manifest.webmanifest": http.StatusOK, "/no-such-page": http.StatusNotFound, "/classes": http.StatusSeeOther,
	} {
		var types [2]string
		for i, method := range []string{http.MethodGet, http.MethodHead} {
			request, err := http.NewRequestWithContext(t.Context(), method, site.URL+path, nil)
			if err != nil {
				t.Fatal(err)
			}
			answer, err := http.DefaultTransport.RoundTrip(request)
			if err != nil {
				t.Fatal(err)
			}
			body, err := io.ReadAll(answer.Body)
			answer.Body.Close()
			if answer.StatusCode != want || err != nil || method == http.MethodHead && len(body) > 0 {
				t.Errorf("%s %s answers %d with %d bytes (%v), want %d", method, path, answer.StatusCode, len(body), err, want)
			}
			types[i] = answer.Header.Get("Content-Type")
		}
		if types[0] != types[1] {
			t.Errorf("%s is %q to GET and %q to HEAD", path, types[0], types[1])
		}
	}
}
