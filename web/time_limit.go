package web

import (
	"context"
	"net/http"
	"time"

	"breakwright/web/route"
)

// TimeLimits say how long an answer may take. The zero value means
// [DefaultTimeLimits].
type TimeLimits struct {
	// Request is for making an answer, whatever it needs.
	Request time.Duration
	// Reader is for sending a page, and for each part of a download.
	Reader time.Duration
	// Upload is for a file to come in and be looked through.
	Upload time.Duration
	// Download is for a whole file to be taken.
	Download time.Duration
}

// DefaultTimeLimits are those of a club's server.
func DefaultTimeLimits() TimeLimits {
	return TimeLimits{Request: 20 * time.Second, Reader: 30 * time.Second, Upload: 5 * time.Minute, Download: 30 * time.Minute}
}

// apply bounds the requests to routes of a pace: making the answer by the
// request's context, sending it by the deadline of the line. Streams end when
// draining does.
func (l TimeLimits) apply(pace route.Pace, draining context.Context) func(http.Handler) http.Handler {
	return func(next http.Handler) http.Handler {
		return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
			ctx, cancel := context.WithCancel(r.Context())
			defer cancel()
			made := l.Request
			switch pace {
			case route.Stream:
				stop := context.AfterFunc(draining, cancel)
				defer stop()
				setDeadlines(w, time.Time{}, time.Time{})
				next.ServeHTTP(w, r.WithContext(ctx))
				return
			case route.Upload:
				made = l.Upload
				end := time.Now().Add(made + l.Reader) // after the context's: a read that fails ends the request without a word
				setDeadlines(w, end, end)
			case route.Download:
				w = &steadyWriter{ResponseWriter: w, part: l.Reader, end: time.Now().Add(made + l.Download)}
			default:
				setWriteDeadline(w, time.Now().Add(made+l.Reader))
			}
			ctx, cancelTimed := context.WithTimeout(ctx, made)
			defer cancelTimed()
			next.ServeHTTP(w, r.WithContext(ctx))
		})
	}
}

// A line that takes no deadlines is one of a test, which needs none.
func setDeadlines(w http.ResponseWriter, read, write time.Time) {
	_ = http.NewResponseController(w).SetReadDeadline(read)
	setWriteDeadline(w, write)
}

func setWriteDeadline(w http.ResponseWriter, write time.Time) {
	_ = http.NewResponseController(w).SetWriteDeadline(write)
}

// steadyWriter gives a reader time for each part of an answer, and an end for
// the whole.
type steadyWriter struct {
	http.ResponseWriter
	part time.Duration
	end  time.Time
}

// partBytes is how much a reader must take in the time for a part.
const partBytes = 32 << 10

func (s *steadyWriter) Write(b []byte) (written int, err error) {
	for len(b) > 0 && err == nil {
		part := b[:min(len(b), partBytes)]
		deadline := time.Now().Add(s.part)
		if deadline.After(s.end) {
			deadline = s.end
		}
		setWriteDeadline(s.ResponseWriter, deadline)
		var n int
		n, err = s.ResponseWriter.Write(part)
		written, b = written+n, b[n:]
	}
	return written, err
}

// Unwrap is for http.ResponseController.
func (s *steadyWriter) Unwrap() http.ResponseWriter { return s.ResponseWriter }
