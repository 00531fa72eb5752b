package main

import (
	"context"
	"errors"
	"fmt"
	"log/slog"
	"net/http"
	"sync/atomic"
	"time"

	"breakwright/internal/store"
)

// swappedHandler hands requests to whichever handler is in use.
type swappedHandler struct{ now atomic.Pointer[http.Handler] }

func (s *swappedHandler) replace(h http.Handler) { s.now.Store(&h) }

func (s *swappedHandler) ServeHTTP(w http.ResponseWriter, r *http.Request) {
	(*s.now.Load()).ServeHTTP(w, r)
}

// How often a database that does not answer is asked again.
const (
	firstWait   = time.Second
	longestWait = 15 * time.Second
)

// waitForDatabase brings the schema up to date, and waits for a database that is
// given and does not answer yet, with one line for each try. Only when it is
// told to, by the context, does it stop waiting.
func waitForDatabase(ctx context.Context, config Config, d *openedDatabase, log *slog.Logger, say func(string)) error {
	for wait := firstWait; ; wait = min(2*wait, longestWait) {
		err := d.migrateSchema(ctx, log)
		if !errors.Is(err, store.ErrUnavailable) || config.Database == "" || ctx.Err() != nil {
			return err
		}
		say(fmt.Sprintf("The database does not answer yet; it is asked again in %s. (%s)", wait, reasonUnavailable(err)))
		select {
		case <-ctx.Done():
			return ctx.Err()
		case <-time.After(wait):
		}
	}
}
