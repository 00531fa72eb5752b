//go:build !quick

package exchange_test

import (
	"net/http"
	"testing"

	"breakwright/internal/store"
)

// A long import can be left: the page says how far it is, and in the end what
// was done.
func TestImport_LongWorkShowsHowFarItIs(t *testing.T) {
	t.Parallel()
	s := bareSite(t)
	coach := s.SignInCoach(t)
	preview := upload(t, coach, store.NewID[store.JobID]().String(), "years.csv", years(t, 20, 50)).RequireStatus(t, http.StatusOK)
	preview.RequireText(t, ".answer", "10,000 breaks in 1,000 sets")
	begun := coach.Post(t, preview.Path, preview.FormValues(t, "form:has(.plan)")).RequireStatus(t, http.StatusOK)
	begun.RequireCount(t, "progress[max='10000']", 1).RequireText(t, ".answer", "of 10,000 breaks").RequireText(t, "main", "You can leave this page")
	coach.Get(t, "/records").RequireText(t, "#jobs + ul", "years.csv", "at work")
	part := coach.SendWithHeaders(t, http.MethodGet, begun.Path, nil, map[string]string{"HX-Request": "true"}).RequireStatus(t, http.StatusOK)
	part.RequireCount(t, "#job", 1).RequireCount(t, "h1", 0)
	settle(t, coach, begun.Path).RequireText(t, ".answer", "Taken over: 10,000 breaks in 1,000 sets")
}
