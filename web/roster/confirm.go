package roster

import (
	"errors"
	"net/http"

	"breakwright/internal/store"
	"breakwright/web/page"
)

// confirmView asks once more before something that is not done lightly.
type confirmView struct {
	Frame page.Frame
	Here  string // the navigation entry
	Title string
	// Says tells what will happen, a paragraph each.
	Says []string
	// Do is the button's words, Back the address of the way out.
	Do, Back string
	// Seen is what the asker saw, sent back so that a stale page does nothing;
	// "" where a repeat is harmless anyway.
	Seen string
}

func (ro *Pages) renderConfirm(w http.ResponseWriter, r *http.Request, v confirmView) error {
	v.Frame = ro.Sessions.TakeFrame(w, r)
	return page.Render(w, r, http.StatusOK, confirmPage(v))
}

func isNotFound(err error) bool { return errors.Is(err, store.ErrNotFound) }

// styles and scripts are what pages with rows to edit add to the layout's.
var (
	styles  = []string{"css/roster.css"}
	scripts = []string{"vendor/htmx-2.0.11.min.js"}
)
