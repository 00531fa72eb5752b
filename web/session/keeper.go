package session

import (
	"context"
	"crypto/hkdf"
	"crypto/sha256"
	"errors"
	"fmt"
	"log/slog"
	"net/http"
	"time"

	"breakwright/internal/account"
	"breakwright/internal/store"
	"breakwright/web/page"

	"github.com/gorilla/sessions"
)

// Names of the cookies: who is signed in, and what is said on the next page.
const (
	cookieWho  = "breakwright"
	cookieSaid = "breakwright-said"
)

// Lasts is how long a session lives after it was last used.
const Lasts = 30 * 24 * time.Hour

// Keeper starts, finds and ends sessions.
type Keeper struct {
	cookies *sessions.CookieStore
	store   *store.Store
	now     func() time.Time
	log     *slog.Logger
}

// NewKeeper makes a keeper. Cookies are signed and encrypted with keys made of
// secret; secure keeps them off plain http; now is the clock.
func NewKeeper(s *store.Store, secret []byte, secure bool, now func() time.Time, log *slog.Logger) (*Keeper, error) {
	keys, err := hkdf.Key(sha256.New, secret, nil, "breakwright cookies", 64)
	if err != nil {
		return nil, fmt.Errorf("session: make keys: %w", err)
	}
	cookies := sessions.NewCookieStore(keys[:32], keys[32:])
	cookies.Options = &sessions.Options{
		Path: "/", MaxAge: int(Lasts / time.Second),
		HttpOnly: true, Secure: secure, SameSite: http.SameSiteLaxMode,
	}
	cookies.MaxAge(cookies.Options.MaxAge)
	return &Keeper{cookies: cookies, store: s, now: now, log: log}, nil
}

// Start signs a person in: a new token, and the old one, if any, is ended.
func (k *Keeper) Start(w http.ResponseWriter, r *http.Request, v store.Viewer) error {
	if err := k.End(w, r); err != nil {
		return err
	}
	token, hash := account.NewToken()
	if err := k.store.StartSession(r.Context(), v, hash, k.now().Add(Lasts)); err != nil {
		return fmt.Errorf("session: start: %w", err)
	}
	cookie, _ := k.cookies.Get(r, cookieWho) // a bad cookie gives a usable new one
	cookie.Values["token"] = token
	if err := cookie.Save(r, w); err != nil {
		return fmt.Errorf("session: save the cookie: %w", err)
	}
	return nil
}

// End signs out: the session is over on the server and the cookie is gone.
func (k *Keeper) End(w http.ResponseWriter, r *http.Request) error {
	cookie, _ := k.cookies.Get(r, cookieWho)
	token, ok := cookie.Values["token"].(string)
	if !ok {
		return nil
	}
	if err := k.store.RevokeSession(r.Context(), account.HashToken(token)); err != nil && !errors.Is(err, store.ErrNotFound) {
		return fmt.Errorf("session: end: %w", err)
	}
	delete(cookie.Values, "token")
	cookie.Options.MaxAge = -1
	if err := cookie.Save(r, w); err != nil {
		return fmt.Errorf("session: drop the cookie: %w", err)
	}
	cookie.Options.MaxAge = k.cookies.Options.MaxAge
	return nil
}

// Identify puts the visitor, if there is one, into every request's context.
func (k *Keeper) Identify(next http.Handler) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		cookie, _ := k.cookies.Get(r, cookieWho)
		if token, ok := cookie.Values["token"].(string); ok {
			v, err := k.visitor(r.Context(), token)
			switch {
			case err == nil:
				r = r.WithContext(With(r.Context(), v))
			case !errors.Is(err, store.ErrNotFound):
				k.log.ErrorContext(r.Context(), "find a session", "error", err)
			}
		}
		next.ServeHTTP(w, r)
	})
}

func (k *Keeper) visitor(ctx context.Context, token string) (Visitor, error) {
	m, err := k.store.FindSession(ctx, account.HashToken(token))
	if err != nil {
		return Visitor{}, err
	}
	return Visitor{Viewer: m.Viewer, Name: m.Name, Club: m.Club.Name, Zone: m.Club.Location(), Side: m.Side}, nil
}

// Say keeps a sentence for the next page.
func (k *Keeper) Say(w http.ResponseWriter, r *http.Request, sentence string) {
	said, _ := k.cookies.Get(r, cookieSaid)
	said.Values["said"] = sentence
	if err := said.Save(r, w); err != nil {
		k.log.ErrorContext(r.Context(), "keep a sentence", "error", err)
	}
}

// Frame gives what the layout needs of this request, and takes the sentence
// kept by Say.
func (k *Keeper) Frame(w http.ResponseWriter, r *http.Request) page.Frame {
	frame := page.Frame{Person: Person(r)}
	said, _ := k.cookies.Get(r, cookieSaid)
	sentence, ok := said.Values["said"].(string)
	if !ok {
		return frame
	}
	frame.Said = sentence
	said.Options.MaxAge = -1
	if err := said.Save(r, w); err != nil {
		k.log.ErrorContext(r.Context(), "drop a sentence", "error", err)
	}
	return frame
}
