package main

import (
	"cmp"
	"fmt"
	"io"
	"log/slog"
	"net/http"
	"runtime"
	"slices"
	"sync"
	"time"

	"breakwright/internal/store"
	"breakwright/web"
)

// metrics counts answers by route, for whoever watches the server. They are
// written in Prometheus's text format (its documentation, "Exposition formats",
// version 0.0.4), which is a dozen lines to write; no names, codes or addresses
// of people can stand in them, since a route stands for its paths.
type metrics struct {
	mu      sync.Mutex
	answers map[answerKind]*answerCount
}

// answerKind is bounded: as many as the route table has rows, times five.
type answerKind struct {
	route string
	class int // 2 for 200 to 299
}

type answerCount struct {
	count   int64
	bytes   int64
	seconds float64
	within  [len(answerBounds)]int64 // so many took no longer
}

// answerBounds are the upper bounds that are counted, in seconds.
var answerBounds = [...]float64{0.01, 0.05, 0.2, 1, 5}

func newMetrics() *metrics { return &metrics{answers: map[answerKind]*answerCount{}} }

// observe counts an answer.
func (m *metrics) observe(a web.RequestRecord) {
	m.mu.Lock()
	defer m.mu.Unlock()
	kind := answerKind{a.Pattern, a.Status / 100}
	n := m.answers[kind]
	if n == nil {
		n = &answerCount{}
		m.answers[kind] = n
	}
	took := a.Took.Seconds()
	n.count++
	n.bytes += int64(a.Bytes)
	n.seconds += took
	for i, bound := range answerBounds {
		if took <= bound {
			n.within[i]++
		}
	}
}

// write writes the answers so far.
func (m *metrics) write(to io.Writer) {
	m.mu.Lock()
	defer m.mu.Unlock()
	kinds := make([]answerKind, 0, len(m.answers))
	for kind := range m.answers {
		kinds = append(kinds, kind)
	}
	slices.SortFunc(kinds, func(a, b answerKind) int {
		return cmp.Or(cmp.Compare(a.route, b.route), cmp.Compare(a.class, b.class))
	})
	fmt.Fprint(to, "# HELP breakwright_answer_seconds How long answers took, by route.\n# TYPE breakwright_answer_seconds histogram\n")
	for _, kind := range kinds {
		n, labels := m.answers[kind], fmt.Sprintf(`route=%q,status="%dxx"`, kind.route, kind.class)
		for i, bound := range answerBounds {
			fmt.Fprintf(to, "breakwright_answer_seconds_bucket{%s,le=\"%g\"} %d\n", labels, bound, n.within[i])
		}
		fmt.Fprintf(to, "breakwright_answer_seconds_bucket{%s,le=\"+Inf\"} %d\n", labels, n.count)
		fmt.Fprintf(to, "breakwright_answer_seconds_sum{%s} %g\nbreakwright_answer_seconds_count{%s} %d\n", labels, n.seconds, labels, n.count)
	}
	fmt.Fprint(to, "# HELP breakwright_answer_bytes_total Bytes of answers, by route.\n# TYPE breakwright_answer_bytes_total counter\n")
	for _, kind := range kinds {
		fmt.Fprintf(to, "breakwright_answer_bytes_total{route=%q,status=\"%dxx\"} %d\n", kind.route, kind.class, m.answers[kind].bytes)
	}
}

// writeProcess writes how the process and its connections are.
func writeProcess(to io.Writer, s *store.Store) {
	var memory runtime.MemStats
	runtime.ReadMemStats(&memory)
	used, idle, most := s.Connections()
	for _, g := range []struct {
		name, help string
		value      uint64
	}{
		{"breakwright_connections_used", "Connections to the database at work.", uint64(used)},
		{"breakwright_connections_idle", "Connections to the database that wait.", uint64(idle)},
		{"breakwright_connections_most", "Connections to the database at most.", uint64(most)},
		{"breakwright_memory_bytes", "Memory obtained from the system.", memory.Sys},
		{"breakwright_goroutines", "Goroutines.", uint64(runtime.NumGoroutine())},
	} {
		fmt.Fprintf(to, "# HELP %s %s\n# TYPE %s gauge\n%s %d\n", g.name, g.help, g.name, g.name, g.value)
	}
}

// listenForMetrics answers on an address of its own, which is not for the public;
// nil when there is none.
func listenForMetrics(address string, m *metrics, s *store.Store, log *slog.Logger) (*http.Server, error) {
	if address == "" {
		return nil, nil
	}
	l, err := openListener(address)
	if err != nil {
		return nil, err
	}
	server := &http.Server{
		ReadHeaderTimeout: headerPatience, WriteTimeout: 10 * time.Second, IdleTimeout: idlePatience,
		ErrorLog: slog.NewLogLogger(log.Handler(), slog.LevelWarn),
		Handler: http.HandlerFunc(func(w http.ResponseWriter, _ *http.Request) {
			w.Header().Set("Content-Type", "text/plain; version=0.0.4")
			m.write(w)
			writeProcess(w, s)
		}),
	}
	go func() {
		if err := server.Serve(l); err != http.ErrServerClosed {
			log.Error("serve metrics", "error", err)
		}
	}()
	return server, nil
}
