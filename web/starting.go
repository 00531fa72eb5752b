package web

import (
	"context"
	"errors"
	"log/slog"
	"net/http"

	"github.com/go-chi/chi/v5"
	"github.com/go-chi/chi/v5/middleware"

	"breakwright/static"
	"breakwright/web/route"
)

// errStarting is a database that the server, which has just begun, still waits for.
var errStarting = errors.New("the server is starting")

// NewStarting answers until a server can be made, for which there has to be a database:
// the program is alive, and whoever asks for more is told to come back, with what they
// typed. secure says that the public address is https. It logs nothing: whoever waits
// says so.
func NewStarting(secure bool) http.Handler {
	log := slog.New(slog.DiscardHandler)
	mux := chi.NewRouter()
	mux.Use(secureHeaders(secure), middleware.Recoverer, middleware.GetHead)
	mux.Use(DefaultTimeLimits().apply(route.Page, context.Background()), sameOriginOnly(errorHandler(log, errCrossSite)))
	mux.Method(http.MethodGet, static.Prefix+"*", static.Handler())
	mux.Get("/livez", showAlive)
	mux.Get("/healthz", refuseHealth)
	mux.Get("/readyz", refuseHealth)
	mux.NotFound(errorHandler(log, errStarting))
	mux.MethodNotAllowed(errorHandler(log, errStarting))
	return mux
}

// refuseHealth answers a program that asks, in a line.
func refuseHealth(w http.ResponseWriter, _ *http.Request) {
	w.Header().Set("Cache-Control", "no-store")
	w.Header().Set("Retry-After", retryAfterSeconds)
	http.Error(w, "the server is starting, and waits for its database", http.StatusServiceUnavailable)
}
