package main

import (
	"context"
	"errors"
	"fmt"
	"log/slog"
	"net"
	"net/http"
	"time"

	"breakwright/internal/account"
	"breakwright/internal/store"
	"breakwright/web"
)

// How long things may take that package web does not limit itself, route by
// route: writePatience is a last bound.
const (
	headerPatience = 5 * time.Second
	readPatience   = time.Minute
	writePatience  = 2 * time.Minute
	idlePatience   = 2 * time.Minute
	// At the end requests may finish; what still runs after endPatience is told
	// to end, and after lastPatience it is cut off.
	endPatience  = 5 * time.Second
	lastPatience = 10 * time.Second

	sweepEvery = 24 * time.Hour
)

var errDatabaseGone = errors.New("the private PostgreSQL has ended by itself")

// webServer is the whole program at work: a listener, a database and the pages.
// It is ready when newServer returns, answers while Run runs, and must be
// closed.
type webServer struct {
	url      string
	store    *store.Store
	database *openedDatabase
	listener net.Listener
	log      *slog.Logger

	http        *http.Server
	handler     swappedHandler // web.NewStarting until there are pages
	served      chan error     // how the http server ended
	drain       func()         // closes live boards
	endRequests context.CancelFunc
	metrics     *http.Server // nil for none
}

// prepareDatabase is done to a migrated database before pages are served.
type prepareDatabase func(ctx context.Context, d *openedDatabase) error

// newServer takes the port, finds the database called name and brings it up to
// date. Meanwhile everyone who asks is told to come back in a moment.
// A database that is given and does not answer is waited for.
func newServer(ctx context.Context, config Config, name string, log *slog.Logger, say func(string), first prepareDatabase) (_ *webServer, err error) {
	s := &webServer{log: log, drain: func() {}}
	defer func() {
		if err != nil {
			s.Close()
		}
	}()
	if s.listener, err = openListener(config.Listen); err != nil {
		return nil, err
	}
	s.url = publicURL(config.URL, s.listener)
	s.startListening(ctx)
	if s.database, err = openDatabase(ctx, config, name, log, say); err != nil {
		return nil, err
	}
	if err := waitForDatabase(ctx, config, s.database, log, say); err != nil {
		return nil, err
	}
	if err := first(ctx, s.database); err != nil {
		return nil, err
	}
	if s.store, err = s.database.openStore(ctx, store.WithConnections(config.connections())); err != nil {
		return nil, err
	}
	proxies, err := parseProxies(config.Proxies)
	if err != nil {
		return nil, err
	}
	counts := newMetrics()
	pages, err := web.New(web.Config{
		URL: s.url, PhoneURLs: phoneURLs(s.listener), Secret: s.database.secret, SecureCookies: isSecure(s.url),
		SecretCost: account.DefaultCost(), TrustedProxies: proxies, Now: time.Now, Log: log, Observe: counts.observe,
	}, s.store)
	if err != nil {
		return nil, err
	}
	if s.metrics, err = listenForMetrics(config.Metrics, counts, s.store, log); err != nil {
		return nil, err
	}
	s.drain = pages.Drain
	s.handler.replace(pages)
	return s, nil
}

// startListening answers on the port, with a word of patience until there are pages.
func (s *webServer) startListening(ctx context.Context) {
	requests, end := context.WithCancel(context.WithoutCancel(ctx))
	s.endRequests = end
	s.handler.replace(web.NewStarting(isSecure(s.url)))
	s.http = &http.Server{
		Handler:           &s.handler,
		ReadHeaderTimeout: headerPatience, ReadTimeout: readPatience, WriteTimeout: writePatience, IdleTimeout: idlePatience,
		MaxHeaderBytes: 64 << 10,
		ErrorLog:       slog.NewLogLogger(s.log.Handler(), slog.LevelWarn),
		BaseContext:    func(net.Listener) context.Context { return requests },
	}
	s.served = make(chan error, 1)
	go func() { s.served <- s.http.Serve(s.listener) }()
}

// prepareNothing prepares nothing.
func prepareNothing(context.Context, *openedDatabase) error { return nil }

// Run answers until the context ends, which is no error, or until something
// breaks.
func (s *webServer) Run(ctx context.Context) error {
	sweep := time.NewTimer(0) // at the start, too: a club's laptop may run for an evening
	defer sweep.Stop()
	for {
		select {
		case err := <-s.served:
			return fmt.Errorf("serve: %w", err)
		case <-s.database.serverDone():
			s.http.Close()
			return fmt.Errorf("%w. Why is in its log in %s", errDatabaseGone, s.database.server.Dir)
		case <-sweep.C:
			sweep.Reset(sweepEvery)
			if err := s.store.SweepExpired(ctx); err != nil {
				s.log.Warn("forget what is over", "error", err)
			}
		case <-ctx.Done():
			return s.shutDown()
		}
	}
}

// shutDown closes live boards first, since they would go on for ever, and lets
// other requests finish, each for a while.
func (s *webServer) shutDown() error {
	s.drain()
	polite := time.AfterFunc(endPatience, s.endRequests)
	defer polite.Stop()
	ctx, cancel := context.WithTimeout(context.Background(), lastPatience)
	defer cancel()
	if err := s.http.Shutdown(ctx); err != nil {
		return errors.Join(fmt.Errorf("some requests did not end: %w", err), s.http.Close())
	}
	return nil
}

// isPrivate reports whether only this machine can reach the server.
func (s *webServer) isPrivate() bool { return s.listener.Addr().(*net.TCPAddr).IP.IsLoopback() }

// Close gives everything back; a private PostgreSQL stops. It does nothing to
// what was not begun, and nothing twice.
func (s *webServer) Close() {
	if s.listener != nil {
		s.listener.Close()
	}
	if s.http != nil {
		s.http.Close()
		s.endRequests()
	}
	if s.metrics != nil {
		s.metrics.Close()
	}
	if s.store != nil {
		s.store.Close()
		s.store = nil
	}
	if s.database != nil {
		s.database.Close()
	}
}
