package words

import (
	"net/http"
	"strings"

	"breakwright/web/page"
	"breakwright/web/route"
	"breakwright/web/session"
)

// Pages is the page.
type Pages struct {
	sessions *session.Manager
}

// New makes it.
func New(sessions *session.Manager) *Pages { return &Pages{sessions} }

// Routes are the rows of the route table.
func (p *Pages) Routes() []route.Route {
	return []route.Route{route.Get("/words", route.Anyone, p.showWords)}
}

func (p *Pages) showWords(w http.ResponseWriter, r *http.Request) error {
	return page.Render(w, r, http.StatusOK, wordsPage(p.sessions.TakeFrame(w, r)))
}

// chapter is words that belong together.
type chapter struct {
	name  string
	words []word
}

// anchor names the chapter in an address.
func (c chapter) anchor() string { return anchorOf(c.name) }

// word is a word and what it means here.
type word struct{ name, means string }

// anchor names the word in an address: "wing-ball".
func (w word) anchor() string { return anchorOf(w.name) }

func anchorOf(name string) string { return strings.ReplaceAll(strings.ToLower(name), " ", "-") }
