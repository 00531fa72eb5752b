// Package web serves Breakwright's pages: it holds the one table of routes,
// says who may call each, and turns errors into pages. What the pages show is
// in the packages below it, one an audience.
package web

import (
	"fmt"
	"log/slog"
	"net/http"
	"time"

	"breakwright/internal/account"
	"breakwright/internal/store"
	"breakwright/static"
	"breakwright/web/route"
	"breakwright/web/session"

	"github.com/go-chi/chi/v5"
	"github.com/go-chi/chi/v5/middleware"
)

// Config is what the pages need from whoever starts them.
type Config struct {
	// URL is the public address, for join codes and links; no slash at its end.
	URL string
	// Secret keys the cookies; the same for all processes on one database.
	Secret []byte
	// SecureCookies keeps cookies off plain http.
	SecureCookies bool
	// SecretCost is how hard secrets are to guess from the database.
	SecretCost account.Cost
	// Now is the clock.
	Now func() time.Time
	Log *slog.Logger
}

// Server answers requests.
type Server struct {
	handler http.Handler
	routes  []route.Route
}

// New wires the pages to a store.
func New(config Config, s *store.Store) (*Server, error) {
	sessions, err := session.NewManager(s, config.Secret, config.SecureCookies, config.Now, config.Log)
	if err != nil {
		return nil, err
	}
	secrets, err := account.NewHasher(config.SecretCost, 4)
	if err != nil {
		return nil, fmt.Errorf("web: %w", err)
	}
	routes := routeTable(config, s, sessions, secrets)
	return &Server{handler: buildHandler(config, s, sessions, routes), routes: routes}, nil
}

// ServeHTTP answers a request.
func (s *Server) ServeHTTP(w http.ResponseWriter, r *http.Request) { s.handler.ServeHTTP(w, r) }

// gzipLevel is gzip's level: every page is packed for one reader, and level 5 takes
// two thirds longer for a page a tenth smaller.
const gzipLevel = 3

// buildHandler fills chi from the table of routes.
func buildHandler(config Config, s *store.Store, sessions *session.Manager, routes []route.Route) http.Handler {
	mux := chi.NewRouter()
	mux.Use(middleware.RequestID, logRequests(config.Log), secureHeaders, middleware.Recoverer)
	mux.Method(http.MethodGet, static.Prefix+"*", static.Handler())
	mux.Method(http.MethodHead, static.Prefix+"*", static.Handler())
	mux.Get("/healthz", handleHealth(s))
	mux.Group(func(pages chi.Router) {
		pages.Use(middleware.Compress(gzipLevel, "text/html", "text/javascript", "image/svg+xml", "text/csv", "application/json"), sessions.Identify,
			sameOriginOnly(errorHandler(config.Log, errCrossSite)))
		for _, route := range routes {
			pages.Method(route.Method, route.Pattern, guardRoute(config.Log, route))
		}
		pages.NotFound(errorHandler(config.Log, errNoRoute))
		pages.MethodNotAllowed(errorHandler(config.Log, errNoRoute))
	})
	return mux
}

// errorHandler always answers with the page of one error.
func errorHandler(log *slog.Logger, err error) http.HandlerFunc {
	return func(w http.ResponseWriter, r *http.Request) { serveError(log, w, r, err) }
}

// handleHealth says whether the server can reach its database.
func handleHealth(s *store.Store) http.HandlerFunc {
	return func(w http.ResponseWriter, r *http.Request) {
		w.Header().Set("Cache-Control", "no-store")
		if err := s.Ping(r.Context()); err != nil {
			http.Error(w, "the database does not answer", http.StatusServiceUnavailable)
			return
		}
		fmt.Fprintln(w, "ok")
	}
}

// Routes is the one table of routes, for whoever checks it.
func (s *Server) Routes() []route.Route { return s.routes }
