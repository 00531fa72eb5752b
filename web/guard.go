package web

import (
	"log/slog"
	"net/http"
	"net/url"

	"breakwright/internal/store"
	"breakwright/web/page"
	"breakwright/web/privacy"
	"breakwright/web/route"
	"breakwright/web/session"
)

// guardRoute makes an http handler of a route: it lets in whom the route is for and
// answers with the page of whatever error comes back. Nobody is sent to the
// sign-in page and comes back after it; the wrong role gets a page that says so. Whoever could
// not be looked up is not nobody: that is the database's fault and not theirs.
func guardRoute(log *slog.Logger, data *store.Store, route route.Route) http.HandlerFunc {
	return func(w http.ResponseWriter, r *http.Request) {
		user, known := session.FindUser(r)
		failure := session.FindFailure(r)
		switch {
		case failure != nil:
			serveError(log, w, r, failure)
		case !mayCallRoute(route.Audience, user, known) && !known:
			redirectToSignIn(w, r)
		case !mayCallRoute(route.Audience, user, known):
			serveError(log, w, r, store.ErrNotAllowed)
		default:
			if err := handleNoted(w, r, data, route, user, known); err != nil {
				serveError(log, w, r, err)
			}
		}
	}
}

// handleNoted handles a request and has the audit log say so: what is seen or
// taken out before it is, what is changed in the transaction that changes it.
func handleNoted(w http.ResponseWriter, r *http.Request, data *store.Store, route route.Route, user session.User, known bool) error {
	if note, noted := privacy.FindNote(route, r, user); known && noted && note.Act == store.ActChanged {
		r = r.WithContext(store.WithNote(r.Context(), note))
	} else if known && noted {
		if err := data.WriteNote(r.Context(), user.Actor, note); err != nil {
			return err
		}
	}
	return route.Handle(w, r)
}

func mayCallRoute(who route.Audience, v session.User, known bool) bool {
	switch who {
	case route.Anyone:
		return true
	case route.Member:
		return known
	case route.Coach:
		return known && v.Role == store.Coach
	case route.Student:
		return known && v.Role == store.Student
	}
	return false
}

// redirectToSignIn sends nobody to the sign-in page, with the way back when the
// request can be repeated. What a form held is not lost: the browser still has
// it one step back.
func redirectToSignIn(w http.ResponseWriter, r *http.Request) {
	to := "/sign-in"
	if r.Method == http.MethodGet {
		to += "?next=" + url.QueryEscape(r.URL.RequestURI())
	}
	if page.IsPartial(r) {
		w.Header().Set("HX-Redirect", to)
		w.WriteHeader(http.StatusUnauthorized)
		return
	}
	http.Redirect(w, r, to, http.StatusSeeOther)
}
