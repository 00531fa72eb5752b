package main

import (
	"context"
	"crypto/tls"
	"errors"
	"fmt"
	"net/http"
	"strings"
	"time"
)

// publicPatience is for an answer from the public address.
const publicPatience = 5 * time.Second

// soonestEnd is how long a certificate should still be good: who renews them by
// themselves do so before.
const soonestEnd = 10 * 24 * time.Hour

// guardingHeaders are set by package web on every page; a proxy may drop them.
var guardingHeaders = []string{"Strict-Transport-Security", "Content-Security-Policy", "X-Content-Type-Options"}

func inspectPublicURL(ctx context.Context, c Config) (string, error) {
	switch {
	case c.URL == "":
		return "BREAKWRIGHT_URL is not set, so links have the address listened on", nil
	case isSecure(c.URL):
		return inspectHTTPS(ctx, http.DefaultClient, c.URL)
	case strings.HasPrefix(c.URL, "http://localhost"), strings.HasPrefix(c.URL, "http://127.0.0.1"):
		return c.URL, nil
	}
	return "", fmt.Errorf("%s is not https: phones will not keep a set without signal, and sign-ins can be read on the way. Put a proxy with a certificate in front", c.URL)
}

// inspectHTTPS asks for a page as a browser does, and looks at the certificate and
// at what the proxy leaves of our headers. That nobody answers is no fault: the
// public address need not be seen from here, nor be up yet.
func inspectHTTPS(ctx context.Context, client *http.Client, url string) (string, error) {
	ctx, cancel := context.WithTimeout(ctx, publicPatience)
	defer cancel()
	r, err := http.NewRequestWithContext(ctx, http.MethodGet, strings.TrimSuffix(url, "/")+"/sign-in", nil)
	if err != nil {
		return "", err
	}
	answer, err := client.Do(r)
	var refused *tls.CertificateVerificationError
	switch {
	case errors.As(err, &refused):
		return "", fmt.Errorf("browsers refuse the certificate of %s: %w", url, refused.Err)
	case err != nil:
		return url + ", where nobody answers as seen from here: certificate and headers were not looked at", nil
	}
	defer answer.Body.Close()
	if answer.TLS == nil {
		return "", fmt.Errorf("%s leads to pages that are not https: have the proxy keep them there", url)
	}
	ends := answer.TLS.PeerCertificates[0].NotAfter
	if time.Until(ends) < soonestEnd {
		return "", fmt.Errorf("the certificate of %s ends on %s: renew it", url, ends.Format(time.DateOnly))
	}
	for _, header := range guardingHeaders {
		if answer.Header.Get(header) == "" {
			return "", fmt.Errorf("%s answers without %s: the proxy drops it, or another program answers there", url, header)
		}
	}
	return fmt.Sprintf("%s answers with its guarding headers; its certificate is good until %s", url, ends.Format(time.DateOnly)), nil
}
