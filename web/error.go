package web

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"log/slog"
	"net/http"

	"github.com/go-chi/chi/v5/middleware"

	"breakwright/internal/drill"
	"breakwright/internal/say"
	"breakwright/internal/store"
	"breakwright/web/page"
	"breakwright/web/session"
)

// errTooManyAttempts is a try refused because there were too many before it.
var errTooManyAttempts = errors.New("too many tries")

// errNoRoute is an address that no route answers.
var errNoRoute = errors.New("no such page")

// errCrossSite is a write that another site's page sent.
var errCrossSite = errors.New("sent from another site")

// describeError turns an error's kind into a status and what the person reads.
func describeError(err error) (int, page.ErrorView) {
	back := page.ErrorView{BackPath: "/", BackWords: "Go on"}
	say := func(status int, title, says string) (int, page.ErrorView) {
		back.Title, back.Sentence = title, says
		return status, back
	}
	var problems drill.Problems
	switch {
	case errors.As(err, &problems):
		return say(http.StatusUnprocessableEntity, "That cannot be saved as it stands", fmt.Sprintf("Nothing was changed: %s.", problems[0].Message))
	case errors.Is(err, store.ErrNotFound), errors.Is(err, errNoRoute):
		return say(http.StatusNotFound, "Not here", "There is no such page, or it belongs to somebody else.")
	case errors.Is(err, store.ErrNotAllowed):
		return say(http.StatusForbidden, "Not yours to do", "This is for somebody else in the club. Nothing was changed.")
	case errors.Is(err, errCrossSite):
		return say(http.StatusForbidden, "Sent from another site", "This form came from another site's page, so nothing was changed. Open the page here and try again.")
	case errors.Is(err, store.ErrClosed):
		return say(http.StatusConflict, "This set is closed", "A closed set is not changed any more; what it holds is safe. Your coach can still read and answer questions on it.")
	case errors.Is(err, store.ErrStale):
		return say(http.StatusConflict, "Changed meanwhile", "Somebody changed this after you opened it. Nothing of theirs was overwritten: go back, look at it again, and repeat your change if it is still wanted.")
	case errors.Is(err, store.ErrConflict):
		return say(http.StatusConflict, "Nothing was changed", conflictSentence(err)+" Go back and look at how it stands.")
	case errors.Is(err, store.ErrFull):
		return say(http.StatusConflict, "No room for more", store.SentenceOf(err))
	case errors.Is(err, errStarting):
		return say(http.StatusServiceUnavailable, "Breakwright is starting", "It waits for its database. Nothing new can be saved just now; what was saved before is safe, and nobody is signed out. Try again in a moment.")
	case errors.Is(err, store.ErrUnavailable):
		return say(http.StatusServiceUnavailable, "The database does not answer", "Nothing new can be saved just now; what was saved before is safe, and nobody is signed out. Try again in a minute.")
	case errors.Is(err, store.ErrUnkeepable):
		return say(http.StatusUnprocessableEntity, "Something in it cannot be kept", "A letter that is none, or a number beyond all bounds. Nothing was saved: go back, look at what you typed, and send it again.")
	case errors.Is(err, page.ErrUnreadableForm):
		return say(http.StatusBadRequest, "The form did not arrive whole", "It was cut off or is too long. Go back and send it again; nothing was saved of it.")
	case errors.Is(err, errTooManyAttempts):
		return say(http.StatusTooManyRequests, "Too many tries", "Wait a few minutes, then try again. If you have forgotten your PIN, your coach can give you a new code.")
	}
	return say(http.StatusInternalServerError, "That went wrong here", "The fault is ours, not yours. What was saved before is safe; try again in a moment.")
}

// conflictSentence says what is there already, or was done before.
func conflictSentence(err error) string {
	return say.Sentence(cmp.Or(store.SentenceOf(err), "this was done differently meanwhile"))
}

// retryAfterSeconds is when to ask again for what the database did not give: a
// database that fails over takes about that long.
const retryAfterSeconds = "5"

// serveError answers with the page of an error, and logs what was our fault.
// Who has left the page meanwhile gets no answer: that was nobody's fault.
func serveError(log *slog.Logger, w http.ResponseWriter, r *http.Request, err error) {
	if errors.Is(err, context.Canceled) && r.Context().Err() != nil {
		return
	}
	status, view := describeError(err)
	request := middleware.GetReqID(r.Context())
	if status == http.StatusInternalServerError {
		log.ErrorContext(r.Context(), "request failed", "error", err, "route", patternOf(r), "request", request)
		view.RequestID = request
	}
	if errors.Is(err, store.ErrFull) {
		view.Typed = keepTyped(w, r)
	}
	if status == http.StatusServiceUnavailable {
		log.WarnContext(r.Context(), "the database did not answer", "error", err, "route", patternOf(r), "request", request)
		w.Header().Set("Retry-After", retryAfterSeconds)
		view.Typed = keepTyped(w, r)
	}
	if page.WantsJSON(r) {
		serveErrorJSON(log, w, r, status, view)
		return
	}
	if page.IsPartial(r) {
		// htmx shows no failed part, so a failed part brings the whole page.
		w.Header().Set("HX-Retarget", "#main")
		w.Header().Set("HX-Reswap", "innerHTML")
		if err := page.Render(w, r, status, page.ErrorNotice(view)); err != nil {
			log.ErrorContext(r.Context(), "write a page", "error", err)
		}
		return
	}
	frame := page.Frame{Person: session.PagePerson(r)}
	if err := page.Render(w, r, status, page.ErrorPage(view, frame)); err != nil {
		log.ErrorContext(r.Context(), "write a page", "error", err)
	}
}
