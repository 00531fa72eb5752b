package session

import (
	"cmp"
	"context"
	"crypto/hkdf"
	"crypto/sha256"
	"errors"
	"fmt"
	"log/slog"
	"net/http"
	"time"

	"github.com/gorilla/sessions"

	"breakwright/internal/account"
	"breakwright/internal/say"
	"breakwright/internal/store"
)

// Names of the cookies: who is signed in, what is said on the next page, which
// device this is, and whose second step is awaited.
const (
	sessionCookie = "breakwright"
	flashCookie   = "breakwright-said"
	deviceCookie  = "breakwright-device"
	stepCookie    = "breakwright-step"
)

// Manager starts, finds and ends sessions.
type Manager struct {
	cookies *sessions.CookieStore
	devices *sessions.CookieStore // the same keys, a longer life
	store   *store.Store
	now     func() time.Time
	log     *slog.Logger
}

// NewManager makes a manager. Cookies are signed and encrypted with keys made of
// secret; secure keeps them off plain http; now is the clock.
func NewManager(s *store.Store, secret []byte, secure bool, now func() time.Time, log *slog.Logger) (*Manager, error) {
	keys, err := hkdf.Key(sha256.New, secret, nil, "breakwright cookies", 64)
	if err != nil {
		return nil, fmt.Errorf("session: make keys: %w", err)
	}
	newCookies := func(life time.Duration) *sessions.CookieStore {
		cookies := sessions.NewCookieStore(keys[:32], keys[32:])
		cookies.Options = &sessions.Options{Path: "/", HttpOnly: true, Secure: secure, SameSite: http.SameSiteLaxMode}
		cookies.MaxAge(int(life / time.Second))
		return cookies
	}
	return &Manager{cookies: newCookies(store.SessionLongest), devices: newCookies(deviceLife), store: s, now: now, log: log}, nil
}

// Start signs a person in: a new token, and the old one, if any, is ended.
func (m *Manager) Start(w http.ResponseWriter, r *http.Request, v store.Actor) error {
	if err := m.End(w, r); err != nil {
		return err
	}
	token, hash := account.NewToken()
	started := store.NewSession{TokenHash: hash, Device: deviceWords(r.UserAgent()), At: m.now()}
	if err := m.store.StartSession(r.Context(), v, started); err != nil {
		return fmt.Errorf("session: start: %w", err)
	}
	return m.saveToken(w, r, token, v.Person)
}

// saveToken gives the browser a token, and whose it is: should they be erased, nobody else
// could say that.
func (m *Manager) saveToken(w http.ResponseWriter, r *http.Request, token string, person store.PersonID) error {
	cookie, _ := m.cookies.Get(r, sessionCookie) // a bad cookie gives a usable new one
	cookie.Values["token"], cookie.Values["person"] = token, person.String()
	if err := cookie.Save(r, w); err != nil {
		return fmt.Errorf("session: save the cookie: %w", err)
	}
	return nil
}

// End signs out: the session is over on the server and the cookie is gone.
func (m *Manager) End(w http.ResponseWriter, r *http.Request) error {
	cookie, _ := m.cookies.Get(r, sessionCookie)
	token, ok := cookie.Values["token"].(string)
	if !ok {
		return nil
	}
	if err := m.store.RevokeSession(r.Context(), account.HashToken(token)); err != nil && !errors.Is(err, store.ErrNotFound) {
		return fmt.Errorf("session: end: %w", err)
	}
	clear(cookie.Values)
	cookie.Options.MaxAge = -1
	if err := cookie.Save(r, w); err != nil {
		return fmt.Errorf("session: drop the cookie: %w", err)
	}
	cookie.Options.MaxAge = m.cookies.Options.MaxAge
	return nil
}

// Identify puts the user, if there is one, into every request's context; or
// why it could not be found out whether there is one ([FindFailure]).
func (m *Manager) Identify(next http.Handler) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		cookie, _ := m.cookies.Get(r, sessionCookie)
		token, ok := cookie.Values["token"].(string)
		v, err := User{}, store.ErrNotFound
		if ok {
			v, err = m.findUser(r.Context(), token)
		}
		switch {
		case err == nil:
			r = r.WithContext(WithUser(r.Context(), v))
			m.turnToken(w, r, token, v)
		case errors.Is(err, store.ErrNotFound):
			person, _ := cookie.Values["person"].(string) // older cookies have none
			r = m.noteErased(w, r, token, cmp.Or(person, r.Header.Get(personHeader)))
		default:
			r = r.WithContext(withFailure(r.Context(), err))
		}
		next.ServeHTTP(w, r)
	})
}

// personHeader is whose breaks a phone holds: it says so when it sends them, and on the
// sign-in page, since its cookie may have ended long ago. erasedHeader names who was
// erased, to the script that asks.
const (
	personHeader = "Breakwright-Person"
	erasedHeader = "Breakwright-Erased"
)

// noteErased has the browser of a person who was erased forget what it holds of them: its
// cache by a header (Clear-Site-Data, W3C), pages and breaks by our own script, which our
// header leads to and the next page brings ([page.Frame]). The script lets what others
// recorded on a shared phone be, and works on plain http too. What fails is tried again
// with the next request.
func (m *Manager) noteErased(w http.ResponseWriter, r *http.Request, token, person string) *http.Request {
	id, _ := store.ParseID[store.PersonID](person) // what is no id is nobody's
	if token == "" && id == (store.PersonID{}) {
		return r
	}
	erased, err := m.store.WasErased(r.Context(), account.HashToken(token), id)
	if err != nil {
		m.log.WarnContext(r.Context(), "look for an erased session", "error", err)
	}
	if !erased {
		return r
	}
	w.Header().Set("Clear-Site-Data", `"cache"`)
	w.Header().Set(erasedHeader, person)
	return r.WithContext(withErased(r.Context(), person))
}

// IsOver reports whether a request's session has ended since it came in. It is for
// answers that go on for hours.
func (m *Manager) IsOver(r *http.Request) bool {
	cookie, _ := m.cookies.Get(r, sessionCookie)
	token, _ := cookie.Values["token"].(string)
	_, err := m.store.FindSession(r.Context(), account.HashToken(token), m.now())
	return errors.Is(err, store.ErrNotFound)
}

func (m *Manager) findUser(ctx context.Context, token string) (User, error) {
	found, err := m.store.FindSession(ctx, account.HashToken(token), m.now())
	if err != nil {
		return User{}, err
	}
	return User{
		Actor: found.Actor, Session: found.ID, Name: found.Name, Club: found.Club.Name, Zone: found.Club.Location(), Side: found.Side,
		Units: readUnits(found.Club.Units), Theme: found.Theme, turned: found.Turned,
	}, nil
}

func readUnits(chosen store.UnitChoice) say.Units {
	if chosen == store.Centimetres {
		return say.Metric
	}
	return say.InchesAndMiles
}

// turnToken gives the browser another token once a day, so that one that was
// copied somewhere does not go on for ever. What fails is tried again with the
// next request.
func (m *Manager) turnToken(w http.ResponseWriter, r *http.Request, token string, v User) {
	if m.now().Sub(v.turned) < store.SessionTurn {
		return
	}
	fresh, hash := account.NewToken()
	turned, err := m.store.TurnSession(r.Context(), account.HashToken(token), hash, m.now())
	if err == nil && turned {
		err = m.saveToken(w, r, fresh, v.Person)
	}
	if err != nil {
		m.log.ErrorContext(r.Context(), "change a token", "error", err)
	}
}
