package static

import (
	"compress/gzip"
	"crypto/sha256"
	"encoding/hex"
	"io"
	"net/http/httptest"
	"strings"
	"testing"
)

func TestHandler_ServesUnderHashedNames(t *testing.T) {
	url := URL("css/breakwright.css")
	get := func(url, encoding string) *httptest.ResponseRecorder {
		r := httptest.NewRequest("GET", url, nil)
		r.Header.Set("Accept-Encoding", encoding)
		w := httptest.NewRecorder()
		Handler().ServeHTTP(w, r)
		return w
	}
	plain := get(url, "")
	if plain.Code != 200 || !strings.HasPrefix(plain.Header().Get("Content-Type"), "text/css") {
		t.Fatalf("%s: %d %s", url, plain.Code, plain.Header().Get("Content-Type"))
	}
	if !strings.Contains(plain.Header().Get("Cache-Control"), "immutable") {
		t.Error("a hashed name may be kept for good, but is not said to")
	}
	zipped := get(url, "gzip, br")
	r, err := gzip.NewReader(zipped.Body)
	if err != nil {
		t.Fatal(err)
	}
	unzipped, err := io.ReadAll(r)
	if err != nil || string(unzipped) != plain.Body.String() {
		t.Errorf("gzipped and plain differ (%v)", err)
	}
	for _, gone := range []string{"/static/css/breakwright.css", "/static/../static.go", "/static/"} {
		if w := get(gone, ""); w.Code != 404 {
			t.Errorf("%s: %d", gone, w.Code)
		}
	}
}

// The vendored libraries are the published files, as packed in their registry:
// their SHA-256 is written in vendor/README.md.
func TestVendor_IsThePublishedFile(t *testing.T) {
	readme, err := files.ReadFile("vendor/README.md")
	if err != nil {
		t.Fatal(err)
	}
	for _, name := range []string{"vendor/htmx-2.0.11.min.js", "vendor/idb-8.0.4.umd.js"} {
		b, err := files.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		sum := sha256.Sum256(b)
		if !strings.Contains(string(readme), hex.EncodeToString(sum[:])) {
			t.Errorf("%s has the SHA-256 %x, which vendor/README.md does not name", name, sum)
		}
	}
}

// Every font that the stylesheet names is served, and nothing else is fetched.
func TestTypeface_NamesFilesThatAreServed(t *testing.T) {
	r := httptest.NewRecorder()
	Handler().ServeHTTP(r, httptest.NewRequest("GET", URL("css/typeface.css"), nil))
	named := strings.Split(r.Body.String(), `url("`)[1:]
	if len(named) != 2 {
		t.Fatalf("%d fonts are named", len(named))
	}
	for _, rest := range named {
		url, _, _ := strings.Cut(rest, `"`)
		font := httptest.NewRecorder()
		Handler().ServeHTTP(font, httptest.NewRequest("GET", url, nil))
		if font.Code != 200 || font.Header().Get("Content-Type") != "font/woff2" || !strings.HasPrefix(font.Body.String(), "wOF2") {
			t.Errorf("%s: %d, %s", url, font.Code, font.Header().Get("Content-Type"))
		}
	}
}
