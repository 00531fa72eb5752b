package record_test

import (
	"bytes"
	"io"
	"net"
	"net/http"
	"net/http/httptest"
	"net/http/httputil"
	"net/url"
	"sync"
	"testing"
	"time"
)

// faultyProxy is what lies between a phone and the server: a proxy that can fail.
type faultyProxy struct {
	URL string

	mu  sync.Mutex
	way proxyMode
	// spoilt is closed when the line spoils something for the first time since it was
	// set.
	spoilt chan struct{}
	site   *url.URL
}

// proxyMode is how the line treats what is sent.
type proxyMode string

const (
	good proxyMode = "good"
	dead proxyMode = "dead" // nothing gets through
	deaf proxyMode = "deaf" // breaks arrive, and the answer is lost
	half proxyMode = "half" // what is sent is cut off half-way
	ill  proxyMode = "ill"  // breaks arrive, and the server answers that it has trouble
)

// newFaultyProxy puts a line before a site; it ends with the test.
func newFaultyProxy(t testing.TB, site string) *faultyProxy {
	t.Helper()
	l := &faultyProxy{way: good, spoilt: make(chan struct{})}
	l.leadTo(t, site)
	proxy := &httputil.ReverseProxy{
		Rewrite:      func(r *httputil.ProxyRequest) { r.SetURL(l.target()); r.Out.Host = r.In.Host },
		ErrorHandler: func(w http.ResponseWriter, _ *http.Request, _ error) { hangUp(w) },
	}
	server := httptest.NewServer(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) { l.pass(proxy, w, r) }))
	t.Cleanup(server.Close)
	l.URL = server.URL
	return l
}

// leadTo lets the line end at another server.
func (l *faultyProxy) leadTo(t testing.TB, site string) {
	t.Helper()
	target, err := url.Parse(site)
	if err != nil {
		t.Fatal(err)
	}
	l.mu.Lock()
	defer l.mu.Unlock()
	l.site = target
}

func (l *faultyProxy) target() *url.URL {
	l.mu.Lock()
	defer l.mu.Unlock()
	return l.site
}

func (l *faultyProxy) set(w proxyMode) {
	l.mu.Lock()
	defer l.mu.Unlock()
	l.way, l.spoilt = w, make(chan struct{})
}

// phoneTriesWithin is the longest that a phone waits until it tries again, with all
// that chance adds, and until it gives a try up: record-queue.js has both.
const phoneTriesWithin = 60*time.Second*5/4 + 15*time.Second

// awaitFailure waits until the line has spoilt something since it was set.
func (l *faultyProxy) awaitFailure(t testing.TB) {
	t.Helper()
	l.mu.Lock()
	way, spoilt := l.way, l.spoilt
	l.mu.Unlock()
	select {
	case <-spoilt:
	case <-time.After(phoneTriesWithin):
		t.Fatalf("the phone did not try while the line was %s", way)
	}
}

func (l *faultyProxy) take(r *http.Request) proxyMode {
	l.mu.Lock()
	defer l.mu.Unlock()
	sends := r.Method == http.MethodPost && r.URL.Path == "/sync"
	if l.way == good || (l.way != dead && !sends) {
		return good
	}
	select {
	case <-l.spoilt:
	default:
		close(l.spoilt)
	}
	return l.way
}

func (l *faultyProxy) pass(proxy http.Handler, w http.ResponseWriter, r *http.Request) {
	switch l.take(r) {
	case dead:
		hangUp(w)
	case deaf:
		proxy.ServeHTTP(httptest.NewRecorder(), r)
		hangUp(w)
	case ill:
		proxy.ServeHTTP(httptest.NewRecorder(), r)
		http.Error(w, "Something went wrong here.", http.StatusServiceUnavailable)
	case half:
		body, err := io.ReadAll(r.Body)
		if err == nil {
			cut := r.Clone(r.Context())
			cut.Body = io.NopCloser(bytes.NewReader(body[:len(body)/2]))
			cut.ContentLength = int64(len(body) / 2)
			proxy.ServeHTTP(httptest.NewRecorder(), cut)
		}
		hangUp(w)
	default:
		proxy.ServeHTTP(w, r)
	}
}

// hangUp ends the connection without an answer.
func hangUp(w http.ResponseWriter) {
	connection, _, err := http.NewResponseController(w).Hijack()
	if err != nil {
		panic(http.ErrAbortHandler)
	}
	if c, ok := connection.(*net.TCPConn); ok {
		_ = c.SetLinger(0)
	}
	_ = connection.Close()
}
