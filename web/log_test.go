package web_test

import (
	"bytes"
	"log/slog"
	"net/http"
	"net/http/httptest"
	"strings"
	"testing"
	"time"

	"breakwright/internal/account"
	"breakwright/internal/store/storetest"
	"breakwright/web"
)

// Neither a join code nor a set-up link stands in the log, nor a request's name
// that is as long as a page.
func TestLog_HoldsNoCodes(t *testing.T) {
	var log bytes.Buffer
	var answers []web.RequestRecord
	pages, err := web.New(web.Config{
		URL: "https://break.example.org", Secret: []byte("a secret for tests"), SecretCost: account.TestCost(), SecureCookies: true,
		Now: time.Now, Log: slog.New(slog.NewTextHandler(&log, nil)), Observe: func(a web.RequestRecord) { answers = append(answers, a) },
	}, storetest.New(t))
	if err != nil {
		t.Fatal(err)
	}
	for _, path := range []string{"/join/K7QF9TRW", "/set-up/a-token-that-opens", "/no/K7QF9TRW", "/sign-in?who=K7QF9TRW"} {
		r := httptest.NewRequest(http.MethodGet, path, nil)
		r.Header.Set("X-Request-Id", strings.Repeat("long", 1000))
		w := httptest.NewRecorder()
		pages.ServeHTTP(w, r)
		if w.Header().Get("Strict-Transport-Security") == "" {
			t.Errorf("%s does not ask for https", path)
		}
	}
	text := log.String()
	if strings.Contains(text, "K7QF9TRW") || strings.Contains(text, "a-token-that-opens") || strings.Contains(text, "longlong") {
		t.Errorf("the log tells too much:\n%s", text)
	}
	if !strings.Contains(text, "/join/{code}") || len(answers) != 4 || answers[1].Pattern != "/set-up/{token}" {
		t.Errorf("the log tells too little:\n%s%+v", text, answers)
	}
}
