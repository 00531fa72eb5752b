package record

import (
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"fmt"
	"net/http"
	"strings"

	"breakwright/internal/store"
	"breakwright/static"
	"breakwright/web/page"
	"breakwright/web/route"
)

// PhoneScripts are the scripts of a student's page away from the table: they
// send what waits on the phone, and make the phone ready for a hall without a
// signal. The page also shows [PhoneState].
func PhoneScripts() []string { return []string{"js/phone.js"} }

func tablePageHead() page.Head {
	return page.Head{
		Title: "At the table", Styles: []string{"css/table.css"},
		Scripts: append(PhoneScripts(), "js/table.js"),
	}
}

// showTablePage is the page at the table, /table?set=…. It is the same for
// everybody and for every set, and holds nothing of anyone: its scripts fill it from what the
// phone holds, so that it works when the server is out of reach. Without
// scripts it leads to the plain form.
func (p *Pages) showTablePage(w http.ResponseWriter, r *http.Request) error {
	plain := "/today"
	if set, err := store.ParseID[store.SetID](r.URL.Query().Get("set")); err == nil {
		plain = route.OwnSetPath(set) + "/next"
	}
	return page.Render(w, r, http.StatusOK, tablePage(plain))
}

// offlineFiles are what the phone keeps of us: the page at the table and all that
// it and the other pages of a student load.
func offlineFiles() []string {
	names := append([]string{
		"css/breakwright.css", "css/paper.css", "css/picture.css", "css/progress.css", "css/table.css",
		"icons/favicon.svg", "icons/icon-180.png", "icons/icon-192.png", "js/page.js",
	}, tablePageHead().Scripts...)
	for i, name := range names {
		names[i] = static.URL(name)
	}
	return names
}

// finderURL is the shot finder: the phone keeps it when one of its drills watches
// what a break leaves.
func finderURL() string { return static.URL("js/leave.js") }

// serveServiceWorker returns the service worker. The names of files change with what is
// in them, so that the list of them is the version.
func (p *Pages) serveServiceWorker(w http.ResponseWriter, r *http.Request) error {
	files, err := json.Marshal(offlineFiles())
	if err != nil {
		return fmt.Errorf("record: list the files of the phone: %w", err)
	}
	body, err := static.ReadScript("js/record-worker.js")
	if err != nil {
		return err
	}
	var shell strings.Builder
	if err := tablePage("/today").Render(r.Context(), &shell); err != nil {
		return fmt.Errorf("record: render the page at the table: %w", err)
	}
	sum := sha256.Sum256([]byte(shell.String() + string(files) + string(body)))
	h := w.Header()
	h.Set("Content-Type", "text/javascript; charset=utf-8")
	h.Set("Cache-Control", "no-cache")
	// A phone that went away asks again.
	_, _ = fmt.Fprintf(w, "const version = %q, files = %s, finder = %q;\n%s", hex.EncodeToString(sum[:8]), files, finderURL(), body)
	return nil
}

// serveManifest lets a phone install the pages like a program of its own.
func (p *Pages) serveManifest(w http.ResponseWriter, _ *http.Request) error {
	type icon struct {
		Source  string `json:"src"`
		Sizes   string `json:"sizes"`
		Type    string `json:"type"`
		Purpose string `json:"purpose"`
	}
	w.Header().Set("Content-Type", "application/manifest+json")
	w.Header().Set("Cache-Control", "no-cache")
	return json.NewEncoder(w).Encode(map[string]any{
		"id": "/", "name": "Breakwright", "short_name": "Breakwright",
		"description": "Ten breaks, counted honestly.",
		"start_url":   "/", "scope": "/", "display": "standalone",
		"background_color": "#f7f5ef", "theme_color": "#22303b",
		"icons": []icon{
			{static.URL("icons/icon-192.png"), "192x192", "image/png", "any maskable"},
			{static.URL("icons/icon-512.png"), "512x512", "image/png", "any maskable"},
			{static.URL("icons/favicon.svg"), "any", "image/svg+xml", "any"},
		},
	})
}
