package web

import (
	"context"
	"fmt"
	"net/http"

	"breakwright/internal/store"
)

// showAlive says that the program runs, whatever else does not: for whoever
// starts it again when it hangs.
func showAlive(w http.ResponseWriter, _ *http.Request) {
	w.Header().Set("Cache-Control", "no-store")
	fmt.Fprintln(w, "ok")
}

// showHealth says within a second whether the server can reach its database.
func showHealth(s *store.Store) http.HandlerFunc {
	return func(w http.ResponseWriter, r *http.Request) {
		w.Header().Set("Cache-Control", "no-store")
		if err := s.Ping(r.Context()); err != nil {
			w.Header().Set("Retry-After", retryAfterSeconds)
			http.Error(w, "the database does not answer", http.StatusServiceUnavailable)
			return
		}
		fmt.Fprintln(w, "ok")
	}
}

// showReady reports whether requests should be sent here: the database answers,
// and the server is not about to stop.
func showReady(s *store.Store, draining context.Context) http.HandlerFunc {
	healthy := showHealth(s)
	return func(w http.ResponseWriter, r *http.Request) {
		if draining.Err() != nil {
			w.Header().Set("Cache-Control", "no-store")
			http.Error(w, "stopping", http.StatusServiceUnavailable)
			return
		}
		healthy(w, r)
	}
}
