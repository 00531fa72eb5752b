package web_test

import (
	"net/http"
	"net/url"
	"testing"

	"github.com/google/uuid"
	"github.com/jackc/pgx/v5"

	"breakwright/internal/store/storetest"
	"breakwright/web/route"
)

// Names that a club kept before so much was asked of one are still read, taken out and
// changed. What would make another like it says why it does not.
func TestNames_KeptBeforeMoreWasAsked(t *testing.T) {
	owner := storetest.NewDatabase(t)
	w := newWorldIn(t, storetest.Open(t, owner))
	connection, err := pgx.Connect(t.Context(), owner)
	if err != nil {
		t.Fatal(err)
	}
	defer connection.Close(t.Context())
	for _, table := range []string{"club", "person", "class", "drill", "pool_table"} {
		if _, err := connection.Exec(t.Context(), "update "+table+" set name = E'A\u202eB\u2028' || name"); err != nil {
			t.Fatal(err)
		}
	}
	coach := w.site.SignInCoach(t)
	for _, row := range w.site.Routes {
		if row.Method != http.MethodGet || row.Pace == route.Stream || row.Audience != route.Coach {
			continue
		}
		if got := coach.WithoutRedirects().Get(t, w.address(t, row)); got.Code >= http.StatusInternalServerError {
			t.Errorf("%s answers %d", row.Pattern, got.Code)
		}
	}
	for _, act := range []string{"copy", "mirror"} {
		coach.Post(t, "/drills/"+w.ids["{drill}"]+"/"+act, url.Values{"form": {uuid.NewString()}}).
			RequireStatus(t, http.StatusUnprocessableEntity).RequireText(t, "main", "Nothing was changed", "one line of letters")
	}
	coach.Post(t, "/students/"+w.ids["{student}"]+"/name", url.Values{"name": {"Odile"}}).RequireStatus(t, http.StatusOK).RequireText(t, "h1", "Odile")
}
