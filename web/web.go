// Package web serves Breakwright's pages: it holds the one table of routes,
// says who may call each, and turns errors into pages. What the pages show is
// in the packages below it, one an audience.
package web

import (
	"context"
	"fmt"
	"log/slog"
	"net/http"
	"net/netip"
	"time"

	"github.com/go-chi/chi/v5"
	"github.com/go-chi/chi/v5/middleware"

	"breakwright/internal/account"
	"breakwright/internal/store"
	"breakwright/static"
	"breakwright/web/route"
	"breakwright/web/session"
)

// Config is what the pages need from whoever starts them.
type Config struct {
	// URL is the public address, for join codes and links; no slash at its end.
	URL string
	// PhoneURLs are where phones in the room's network would find this machine,
	// for when URL is one that only the machine itself can open.
	PhoneURLs []string
	// Secret keys the cookies; the same for all processes on one database.
	Secret []byte
	// SecureCookies keeps cookies off plain http.
	SecureCookies bool
	// SecretCost is how hard secrets are to guess from the database.
	SecretCost account.Cost
	// TrustedProxies may say for whom they ask, in X-Forwarded-For.
	TrustedProxies []netip.Prefix
	// Now is the clock.
	Now func() time.Time
	Log *slog.Logger
	// TimeLimits bound every answer; zero means DefaultTimeLimits.
	TimeLimits TimeLimits
	// Observe, when it is set, is called with every answer.
	Observe func(RequestRecord)
}

// Server answers requests.
type Server struct {
	handler http.Handler
	routes  []route.Route
	// draining ends when the server is about to stop.
	draining context.Context
	drain    context.CancelFunc
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
	if config.TimeLimits == (TimeLimits{}) {
		config.TimeLimits = DefaultTimeLimits()
	}
	server := &Server{}
	server.draining, server.drain = context.WithCancel(context.Background())
	server.routes = routeTable(server.draining, config, s, sessions, secrets)
	server.handler = server.buildHandler(config, s, sessions)
	return server, nil
}

// Drain begins the end: live boards are closed, so that they connect to whoever
// comes next, imports and exports at work stop, to be begun again, and /readyz says no.
// Other requests are answered as before.
func (s *Server) Drain() { s.drain() }

// ServeHTTP answers a request.
func (s *Server) ServeHTTP(w http.ResponseWriter, r *http.Request) { s.handler.ServeHTTP(w, r) }

// gzipLevel is gzip's level: every page is packed for one reader, and level 5 takes
// two thirds longer for a page a tenth smaller.
const gzipLevel = 3

// buildHandler fills chi from the table of routes.
func (s *Server) buildHandler(config Config, data *store.Store, sessions *session.Manager) http.Handler {
	mux := chi.NewRouter()
	mux.Use(findClient(config.TrustedProxies), shortRequestID, middleware.RequestID, logRequests(config.Log, config.Observe), secureHeaders(config.SecureCookies), middleware.Recoverer, middleware.GetHead)
	mux.Group(func(files chi.Router) {
		files.Use(config.TimeLimits.apply(route.Asset, s.draining))
		files.Method(http.MethodGet, static.Prefix+"*", static.Handler())
		files.Get("/livez", showAlive)
		files.Get("/healthz", showHealth(data))
		files.Get("/readyz", showReady(data, s.draining))
	})
	compress := middleware.Compress(gzipLevel, "text/html", "text/javascript", "image/svg+xml", "text/csv", "application/json")
	sameOrigin := sameOriginOnly(errorHandler(config.Log, errCrossSite))
	for _, route := range s.routes {
		mux.With(s.middleware(config, sessions, route.Pace, compress, sameOrigin)...).Method(route.Method, route.Pattern, guardRoute(config.Log, data, route))
	}
	mux.Group(func(others chi.Router) {
		others.Use(s.middleware(config, sessions, route.Page, compress, sameOrigin)...)
		others.NotFound(errorHandler(config.Log, errNoRoute))
		others.MethodNotAllowed(errorHandler(config.Log, errNoRoute))
	})
	return mux
}

// middleware lists what stands around the routes of a pace. A file that is the same
// for everybody asks nobody who they are, and so needs no database.
func (s *Server) middleware(config Config, sessions *session.Manager, pace route.Pace, compress, sameOrigin func(http.Handler) http.Handler) []func(http.Handler) http.Handler {
	all := []func(http.Handler) http.Handler{config.TimeLimits.apply(pace, s.draining), compress}
	if pace != route.Asset {
		all = append(all, sessions.Identify)
	}
	return append(all, sameOrigin)
}

// errorHandler always answers with the page of one error.
func errorHandler(log *slog.Logger, err error) http.HandlerFunc {
	return func(w http.ResponseWriter, r *http.Request) { serveError(log, w, r, err) }
}

// Routes is the one table of routes, for whoever checks it.
func (s *Server) Routes() []route.Route { return s.routes }
