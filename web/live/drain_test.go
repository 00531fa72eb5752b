package live_test

import (
	"net/http"
	"testing"

	"breakwright/web/webtest"
)

// Before the server stops boards are closed, and whoever shares out requests is
// told; everything else goes on.
func TestEvents_EndBeforeTheServer(t *testing.T) {
	site := webtest.New(t)
	coach := site.SignInCoach(t)
	lines := coach.OpenStream(t, "/classes/"+site.Class.String()+"/live/events")
	waitFor(t, lines, "Nobody has started yet")
	site.NewClient(t).Get(t, "/readyz").RequireStatus(t, http.StatusOK)
	site.Pages.Drain()
	for lines.Scan() { // it would go on for ever
	}
	if err := lines.Err(); err != nil {
		t.Errorf("the board was cut, not closed: %v", err)
	}
	site.NewClient(t).Get(t, "/readyz").RequireStatus(t, http.StatusServiceUnavailable)
	site.NewClient(t).Get(t, "/healthz").RequireStatus(t, http.StatusOK)
	coach.Get(t, "/desk").RequireStatus(t, http.StatusOK)
}
