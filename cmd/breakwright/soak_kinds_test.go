//go:build soak && linux

package main

import (
	"io"
	"net"
	"net/http"
	"net/url"
	"strings"
	"sync"
	"testing"
	"time"
)

func killServer(t *testing.T, f *soakField, turn int) {
	at := strings.TrimPrefix(f.programs[turn%2].url, "http://")
	f.programs[turn%2].kill()
	f.programs[turn%2] = f.startServer(t, turn%2, at)
}

func cutLine(_ *testing.T, f *soakField, _ int) { f.line.cut() }

func silenceLine(long time.Duration) func(*testing.T, *soakField, int) {
	return func(_ *testing.T, f *soakField, _ int) { f.line.silence(long) }
}

// A moment is let pass before a strike, so that all kinds of messages are struck.
func (f *soakField) waitAMoment() {
	time.Sleep(time.Duration(f.random.IntN(10_000)) * time.Microsecond)
}

// strikeQuestion strikes one message of a server to the database.
func strikeQuestion(how strike) func(*testing.T, *soakField, int) {
	return func(t *testing.T, f *soakField, _ int) {
		f.waitAMoment()
		strikeNext(t, f.line.questions, how)
	}
}

// strikeAnswer strikes one message of the database: a commit may be kept, and nobody
// knows.
func strikeAnswer(how strike) func(*testing.T, *soakField, int) {
	return func(t *testing.T, f *soakField, _ int) {
		f.waitAMoment()
		strikeNext(t, f.line.answers, how)
	}
}

// strikeRequest strikes what a phone sends.
func strikeRequest(how strike) func(*testing.T, *soakField, int) {
	return func(t *testing.T, f *soakField, _ int) {
		f.waitAMoment()
		strikeNext(t, f.phones[f.random.IntN(2)].questions, how)
	}
}

// strikeReceipt strikes what a phone is told: the break is kept, and comes again.
func strikeReceipt(how strike) func(*testing.T, *soakField, int) {
	return func(t *testing.T, f *soakField, _ int) {
		f.waitAMoment()
		strikeNext(t, f.phones[f.random.IntN(2)].answers, how)
	}
}

// stepPhoneClocks sets all phones' clocks wrong, each time otherwise.
func stepPhoneClocks(_ *testing.T, f *soakField, turn int) {
	steps := []time.Duration{time.Hour, -time.Hour, 26 * time.Hour, 0, -400 * 24 * time.Hour, 90 * time.Second}
	f.load.clockLead.Store(int64(steps[turn%len(steps)]))
	if turn%len(steps) == 3 {
		time.Sleep(100 * time.Millisecond) // all is well for a moment
	}
}

// readSlowly lets five phones ask for all of their student's breaks and not take them.
func readSlowly(t *testing.T, f *soakField, turn int) {
	server, err := url.Parse(f.programs[turn%2].url)
	if err != nil {
		t.Fatal(err)
	}
	r, _ := http.NewRequest(http.MethodGet, server.String()+"/my/export", nil) // an address that parsed
	for _, cookie := range f.load.phones[turn%len(f.load.phones)].Jar.Cookies(server) {
		r.AddCookie(cookie)
	}
	var readers sync.WaitGroup
	for range 5 {
		readers.Go(func() {
			line, err := net.Dial("tcp", server.Host)
			if err != nil {
				return // the server has no place for a slow reader, and that is as well
			}
			defer line.Close()
			_ = line.(*net.TCPConn).SetReadBuffer(1024) // smaller is slower; a hint
			_ = r.Write(line)                           // as far as it goes
			_, _ = io.ReadFull(line, make([]byte, 10))
			time.Sleep(300 * time.Millisecond)
		})
	}
	readers.Wait()
}
