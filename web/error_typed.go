package web

import (
	"encoding/json"
	"log/slog"
	"net/http"
	"strings"

	"breakwright/web/page"
)

// keepTyped gives back what a form held that could not be saved, to be sent
// again; nil when the request was no form.
func keepTyped(w http.ResponseWriter, r *http.Request) *page.TypedForm {
	if r.Method != http.MethodPost || !strings.HasPrefix(r.Header.Get("Content-Type"), "application/x-www-form-urlencoded") {
		return nil
	}
	if r.PostForm == nil {
		if _, err := page.ReadForm(w, r); err != nil {
			return nil // it did not arrive whole, so there is nothing to give back
		}
	}
	return page.NewTypedForm(r.URL.RequestURI(), r.PostForm)
}

// serveErrorJSON answers such a script: a word for it and a sentence for people.
func serveErrorJSON(log *slog.Logger, w http.ResponseWriter, r *http.Request, status int, view page.ErrorView) {
	word := map[int]string{
		http.StatusServiceUnavailable: "unavailable", http.StatusTooManyRequests: "busy", http.StatusNotFound: "gone",
		http.StatusForbidden: "forbidden", http.StatusInternalServerError: "failed",
	}[status]
	if word == "" {
		word = "refused"
	}
	w.Header().Set("Content-Type", "application/json")
	w.Header().Set("Cache-Control", "no-store")
	w.WriteHeader(status)
	if err := json.NewEncoder(w).Encode(map[string]string{"error": word, "says": view.Sentence}); err != nil {
		log.WarnContext(r.Context(), "write an answer", "error", err)
	}
}
