package web

import (
	"context"
	"errors"
	"net/http"
	"net/http/httptest"
	"strings"
	"testing"
	"time"

	"breakwright/web/route"
)

// limited starts a server whose only page is bound by limits.
func limited(t *testing.T, pace route.Pace, limits TimeLimits, draining context.Context, page http.HandlerFunc) *httptest.Server {
	t.Helper()
	server := httptest.NewServer(limits.apply(pace, draining)(page))
	t.Cleanup(server.Close)
	return server
}

// A reader who takes nothing is cut off: without a deadline writing to them
// would never end. The head has come by then, also where the machine stands still for a
// moment.
func TestTimeLimits_SlowReader(t *testing.T) {
	for _, pace := range []route.Pace{route.Page, route.Download} {
		ended := make(chan error, 1)
		server := limited(t, pace, TimeLimits{Request: time.Millisecond, Reader: 500 * time.Millisecond, Download: time.Minute}, t.Context(),
			func(w http.ResponseWriter, _ *http.Request) {
				part := []byte(strings.Repeat("x", 1<<20))
				for {
					if _, err := w.Write(part); err != nil {
						ended <- err
						return
					}
				}
			})
		answer, err := http.Get(server.URL) // which reads the head and waits
		if err != nil {
			t.Fatal(err)
		}
		defer answer.Body.Close()
		if err := <-ended; err == nil {
			t.Errorf("%q: writing ended without a reason", pace)
		}
	}
}

// A download goes on while its reader takes a part in time, for longer than one
// part may take.
func TestTimeLimits_SteadyReader(t *testing.T) {
	const parts = 20
	limits := TimeLimits{Request: time.Millisecond, Reader: 100 * time.Millisecond, Download: time.Minute}
	server := limited(t, route.Download, limits, t.Context(), func(w http.ResponseWriter, _ *http.Request) {
		for range parts {
			if _, err := w.Write([]byte("part")); err != nil {
				t.Error(err)
			}
			time.Sleep(limits.Reader / 5)
		}
	})
	answer, err := http.Get(server.URL)
	if err != nil {
		t.Fatal(err)
	}
	defer answer.Body.Close()
	var text strings.Builder
	if err := answer.Write(&text); err != nil || strings.Count(text.String(), "part") != parts {
		t.Errorf("%d of %d parts came (%v)", strings.Count(text.String(), "part"), parts, err)
	}
}

// What an answer needs is given up in time.
func TestTimeLimits_RequestEnds(t *testing.T) {
	limits := TimeLimits{Request: 10 * time.Millisecond, Reader: time.Minute, Upload: 10 * time.Millisecond, Download: time.Minute}
	for _, pace := range []route.Pace{route.Page, route.Asset, route.Upload, route.Download} {
		ended := make(chan error, 1)
		server := limited(t, pace, limits, t.Context(), func(_ http.ResponseWriter, r *http.Request) {
			<-r.Context().Done()
			ended <- r.Context().Err()
		})
		answer, err := http.Get(server.URL)
		if err != nil {
			t.Fatal(err)
		}
		answer.Body.Close()
		if err := <-ended; !errors.Is(err, context.DeadlineExceeded) {
			t.Errorf("%q: %v", pace, err)
		}
	}
}

// A stream goes on until the server is about to stop.
func TestTimeLimits_StreamEndsWithTheServer(t *testing.T) {
	draining, drain := context.WithCancel(t.Context())
	ended := make(chan error, 1)
	limits := TimeLimits{Request: time.Millisecond, Reader: time.Millisecond}
	server := limited(t, route.Stream, limits, draining, func(w http.ResponseWriter, r *http.Request) {
		time.Sleep(20 * time.Millisecond) // longer than a page may take
		if _, err := w.Write([]byte("a line\n")); err != nil || http.NewResponseController(w).Flush() != nil {
			t.Errorf("the stream was cut: %v", err)
		}
		drain()
		<-r.Context().Done()
		ended <- r.Context().Err()
	})
	answer, err := http.Get(server.URL)
	if err != nil {
		t.Fatal(err)
	}
	answer.Body.Close()
	if err := <-ended; !errors.Is(err, context.Canceled) {
		t.Error(err)
	}
}
