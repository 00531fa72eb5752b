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

// How long things may take. Writing has no limit of its own: pages that follow
// a set live are one long answer.
const (
	headerPatience = 5 * time.Second
	readPatience   = time.Minute
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
	pages    http.Handler
	log      *slog.Logger
}

// prepareDatabase is done to a migrated database before pages are served.
type prepareDatabase func(ctx context.Context, d *openedDatabase) error

// newServer takes the port, finds the database called name and brings it up to
// date.
func newServer(ctx context.Context, config Config, name string, log *slog.Logger, say func(string), first prepareDatabase) (_ *webServer, err error) {
	s := &webServer{log: log}
	defer func() {
		if err != nil {
			s.Close()
		}
	}()
	if s.listener, err = openListener(config.Listen); err != nil {
		return nil, err
	}
	s.url = publicURL(config.URL, s.listener)
	if s.database, err = openDatabase(ctx, config, name, log, say); err != nil {
		return nil, err
	}
	if err := s.database.migrateSchema(ctx, log); err != nil {
		return nil, err
	}
	if err := first(ctx, s.database); err != nil {
		return nil, err
	}
	if s.store, err = s.database.openStore(ctx); err != nil {
		return nil, err
	}
	s.pages, err = web.New(web.Config{
		URL: s.url, Secret: s.database.secret, SecureCookies: isSecure(s.url),
		SecretCost: account.DefaultCost(), Now: time.Now, Log: log,
	}, s.store)
	return s, err
}

// prepareNothing prepares nothing.
func prepareNothing(context.Context, *openedDatabase) error { return nil }

// Run answers until the context ends, which is no error, or until something
// breaks.
func (s *webServer) Run(ctx context.Context) error {
	requests, endRequests := context.WithCancel(context.WithoutCancel(ctx))
	defer endRequests()
	h := &http.Server{
		Handler:           s.pages,
		ReadHeaderTimeout: headerPatience, ReadTimeout: readPatience, IdleTimeout: idlePatience,
		MaxHeaderBytes: 64 << 10,
		ErrorLog:       slog.NewLogLogger(s.log.Handler(), slog.LevelWarn),
		BaseContext:    func(net.Listener) context.Context { return requests },
	}
	ended := make(chan error, 1)
	go func() { ended <- h.Serve(s.listener) }()
	sweep := time.NewTicker(sweepEvery)
	defer sweep.Stop()
	for {
		select {
		case err := <-ended:
			return fmt.Errorf("serve: %w", err)
		case <-s.database.serverDone():
			h.Close()
			return fmt.Errorf("%w. Why is in its log in %s", errDatabaseGone, s.database.server.Dir)
		case <-sweep.C:
			if err := s.store.SweepSessions(ctx); err != nil {
				s.log.Warn("forget old sessions", "error", err)
			}
		case <-ctx.Done():
			return shutDownServer(h, endRequests)
		}
	}
}

// shutDownServer lets requests finish, each for a while.
func shutDownServer(h *http.Server, endRequests func()) error {
	polite := time.AfterFunc(endPatience, endRequests)
	defer polite.Stop()
	ctx, cancel := context.WithTimeout(context.Background(), lastPatience)
	defer cancel()
	if err := h.Shutdown(ctx); err != nil {
		return errors.Join(fmt.Errorf("some requests did not end: %w", err), h.Close())
	}
	return nil
}

// isPrivate says that only this machine can reach the server.
func (s *webServer) isPrivate() bool { return s.listener.Addr().(*net.TCPAddr).IP.IsLoopback() }

// Close gives everything back; a private PostgreSQL stops. It does nothing to
// what was not begun, and nothing twice.
func (s *webServer) Close() {
	if s.listener != nil {
		s.listener.Close()
	}
	if s.store != nil {
		s.store.Close()
		s.store = nil
	}
	if s.database != nil {
		s.database.Close()
	}
}
