package main

import (
	"io"
	"net/http"
	"strings"
	"testing"
	"time"

	"breakwright/internal/store/storetest"
)

// Metrics stand on an address of their own, by route and without codes.
func TestMetrics_CountAnswersByRoute(t *testing.T) {
	clearSettings(t)
	t.Setenv("DATABASE_URL", storetest.NewDatabase(t))
	at := freeAddress(t)
	serve := startCommand(t, "serve", "--listen", "127.0.0.1:0", "--metrics", at)
	site := strings.TrimPrefix(serve.awaitLine(t), "Breakwright answers at ")
	for _, path := range []string{"/join/K7QF9TRW", "/join/K7QF9TRX", "/sign-in"} {
		getStatus(t, site+path)
	}
	var text string
	for _, want := range []string{`breakwright_answer_seconds_count{route="/join/{code}",status="4xx"} 2`, `breakwright_answer_seconds_count{route="/sign-in",status="2xx"} 1`,
		"breakwright_connections_most 10"} {
		if text = awaitMetric(t, at, want); !strings.Contains(text, want+"\n") {
			t.Errorf("it does not say %s:\n%s", want, text)
		}
	}
	if strings.Contains(text, "K7QF9TRW") {
		t.Error("a code stands in the metrics")
	}
	if got := getStatus(t, site+"/metrics"); got != http.StatusNotFound {
		t.Errorf("the public address answers /metrics with %d", got)
	}
}

// awaitMetric reads the metrics until a line stands in them, or gives what there is: an
// answer is counted when it is over, which may be a moment after it was read.
func awaitMetric(t *testing.T, at, line string) string {
	t.Helper()
	for tries := 0; ; tries++ {
		answer, err := http.Get("http://" + at + "/metrics")
		if err != nil {
			t.Fatal(err)
		}
		text, err := io.ReadAll(answer.Body)
		answer.Body.Close()
		if err != nil {
			t.Fatal(err)
		}
		if strings.Contains(string(text), line+"\n") || tries == 100 {
			return string(text)
		}
		time.Sleep(20 * time.Millisecond)
	}
}
