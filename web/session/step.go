package session

import (
	"errors"
	"fmt"
	"net/http"
	"time"

	"breakwright/internal/store"
)

// stepLife is how long the second step may follow the first.
const stepLife = 10 * time.Minute

// ErrNoStep: nobody's second step is awaited, or it took too long.
var ErrNoStep = errors.New("no second step is awaited")

// AwaitStep notes in the browser, signed and encrypted, who gave the right
// passphrase and where they want to go.
func (m *Manager) AwaitStep(w http.ResponseWriter, r *http.Request, who store.Actor, next string) error {
	cookie, _ := m.cookies.Get(r, stepCookie)
	cookie.Values["club"], cookie.Values["person"], cookie.Values["next"] = who.Club.String(), who.Person.String(), next
	cookie.Values["until"] = m.now().Add(stepLife).Unix()
	cookie.Options.MaxAge = int(stepLife / time.Second)
	if err := cookie.Save(r, w); err != nil {
		return fmt.Errorf("session: await the second step: %w", err)
	}
	return nil
}

// AwaitedStep returns who gave the right passphrase a moment ago, and where they
// want to go; [ErrNoStep] for nobody.
func (m *Manager) AwaitedStep(r *http.Request) (who store.Actor, next string, err error) {
	cookie, _ := m.cookies.Get(r, stepCookie)
	text := func(name string) string { word, _ := cookie.Values[name].(string); return word }
	club, clubErr := store.ParseID[store.ClubID](text("club"))
	person, personErr := store.ParseID[store.PersonID](text("person"))
	until, _ := cookie.Values["until"].(int64)
	if clubErr != nil || personErr != nil || m.now().Unix() > until {
		return store.Actor{}, "", ErrNoStep
	}
	return store.Actor{Club: club, Person: person, Role: store.Coach}, text("next"), nil
}

// EndStep forgets whose second step was awaited.
func (m *Manager) EndStep(w http.ResponseWriter, r *http.Request) error {
	cookie, _ := m.cookies.Get(r, stepCookie)
	cookie.Options.MaxAge = -1
	return cookie.Save(r, w)
}
