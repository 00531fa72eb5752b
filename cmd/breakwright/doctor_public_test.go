package main

import (
	"io"
	"log"
	"net/http"
	"net/http/httptest"
	"strings"
	"testing"
)

// publicSite is a proxy with a certificate, before pages that have some of the headers.
func publicSite(t *testing.T, headers ...string) *httptest.Server {
	t.Helper()
	site := httptest.NewUnstartedServer(http.HandlerFunc(func(w http.ResponseWriter, _ *http.Request) {
		for _, header := range headers {
			w.Header().Set(header, "on")
		}
	}))
	site.Config.ErrorLog = log.New(io.Discard, "", 0) // refused handshakes are meant
	site.StartTLS()
	t.Cleanup(site.Close)
	return site
}

func TestInspectHTTPS(t *testing.T) {
	good, bare := publicSite(t, guardingHeaders...), publicSite(t, guardingHeaders[1:]...)
	gone := publicSite(t)
	gone.Close()
	for name, c := range map[string]struct {
		client *http.Client
		url    string
		says   string
		wrong  bool
	}{
		"all is well":             {good.Client(), good.URL, "good until", false},
		"a header is dropped":     {bare.Client(), bare.URL, "without Strict-Transport-Security", true},
		"nobody knows the issuer": {http.DefaultClient, good.URL, "browsers refuse the certificate", true},
		"nobody is there":         {gone.Client(), gone.URL, "were not looked at", false},
	} {
		report, err := inspectHTTPS(t.Context(), c.client, c.url)
		if err != nil {
			report = err.Error()
		}
		if (err != nil) != c.wrong || !strings.Contains(report, c.says) {
			t.Errorf("%s: %q, %v", name, report, err)
		}
	}
}
