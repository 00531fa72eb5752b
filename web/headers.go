package web

import (
	"net/http"
)

// contentPolicy is strict: nothing but our own files, no inline script or style, no
// frame around our pages, forms only to ourselves.
const contentPolicy = "default-src 'self'; img-src 'self' data:; script-src 'self'; style-src 'self'; " +
	"object-src 'none'; base-uri 'none'; form-action 'self'; frame-ancestors 'none'"

// httpsOnly tells browsers to come over https for the next half year.
const httpsOnly = "max-age=15768000"

// secureHeaders says to browsers what our pages may do; https is whether the
// public address is one.
func secureHeaders(https bool) func(http.Handler) http.Handler {
	return func(next http.Handler) http.Handler {
		return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
			h := w.Header()
			h.Set("Content-Security-Policy", contentPolicy)
			h.Set("X-Content-Type-Options", "nosniff")
			h.Set("Referrer-Policy", "same-origin")
			h.Set("Permissions-Policy", "camera=(), geolocation=(), microphone=(), payment=()")
			h.Set("Cross-Origin-Opener-Policy", "same-origin")
			if https {
				h.Set("Strict-Transport-Security", httpsOnly)
			}
			next.ServeHTTP(w, r)
		})
	}
}

// sameOriginOnly refuses writes that another site's page sends in a browser.
func sameOriginOnly(refuse http.Handler) func(http.Handler) http.Handler {
	protection := http.NewCrossOriginProtection()
	protection.SetDenyHandler(refuse)
	return protection.Handler
}
