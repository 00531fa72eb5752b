package web

import (
	"log/slog"
	"net/http"
	"time"

	"github.com/go-chi/chi/v5"
	"github.com/go-chi/chi/v5/middleware"
)

// RequestRecord is what is recorded of a request: no names, no notes, no addresses of
// people, and no path, which may hold a join code.
type RequestRecord struct {
	Method string
	// Pattern is the route's, for example "/join/{code}"; "" when there is none.
	Pattern string
	Status  int
	Bytes   int
	Took    time.Duration
}

// logRequests writes one line a request, and tells observe unless it is nil.
func logRequests(log *slog.Logger, observe func(RequestRecord)) func(http.Handler) http.Handler {
	return func(next http.Handler) http.Handler {
		return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
			began := time.Now()
			ww := middleware.NewWrapResponseWriter(w, r.ProtoMajor)
			defer func() { // an answer that is cut off is recorded too
				a := RequestRecord{r.Method, patternOf(r), ww.Status(), ww.BytesWritten(), time.Since(began)}
				log.InfoContext(r.Context(), "request",
					"method", a.Method, "route", a.Pattern, "status", a.Status,
					"bytes", a.Bytes, "took", a.Took.Round(time.Microsecond),
					"request", middleware.GetReqID(r.Context()))
				if observe != nil {
					observe(a)
				}
			}()
			next.ServeHTTP(ww, r)
		})
	}
}

// patternOf returns the route that a request came to, in place of its path: paths
// hold join codes and set-up links.
func patternOf(r *http.Request) string {
	if found := chi.RouteContext(r.Context()); found != nil {
		return found.RoutePattern()
	}
	return ""
}

// longestRequestID is how long a proxy's name for a request may be.
const longestRequestID = 64

// shortRequestID drops a name for the request that is too long to stand in
// every line of the log.
func shortRequestID(next http.Handler) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		if len(r.Header.Get(middleware.RequestIDHeader)) > longestRequestID {
			r.Header.Del(middleware.RequestIDHeader)
		}
		next.ServeHTTP(w, r)
	})
}
