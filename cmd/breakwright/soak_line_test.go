//go:build soak && linux

package main

import (
	"io"
	"net"
	"sync"
	"testing"
	"time"
)

// soakLine is a line between servers and a database that can be cut and fall silent.
type soakLine struct {
	listener net.Listener
	socket   string       // the database's
	open     sync.RWMutex // held for writing while the line is silent
	mu       sync.Mutex
	ends     map[net.Conn]bool
}

// layLine listens on a free port and passes everything on to a socket; the line ends
// with the test.
func layLine(t *testing.T, socket string) *soakLine {
	t.Helper()
	listener, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	l := &soakLine{listener: listener, socket: socket, ends: map[net.Conn]bool{}}
	var running sync.WaitGroup
	running.Go(func() { l.accept(&running) })
	t.Cleanup(func() { listener.Close(); l.cut(); running.Wait() })
	return l
}

func (l *soakLine) accept(running *sync.WaitGroup) {
	for {
		near, err := l.listener.Accept()
		if err != nil {
			return // the listener is closed
		}
		far, err := net.Dial("unix", l.socket)
		if err != nil {
			near.Close() // nobody is there
			continue
		}
		l.mu.Lock()
		l.ends[near], l.ends[far] = true, true
		l.mu.Unlock()
		running.Go(func() { l.pass(near, far) })
		running.Go(func() { l.pass(far, near) })
	}
}

// pass hands on what one end says, and closes both when it is over.
func (l *soakLine) pass(from, to net.Conn) {
	part := make([]byte, 32<<10)
	for {
		n, err := from.Read(part)
		if n > 0 {
			l.open.RLock() // a silent line holds it back
			_, failed := to.Write(part[:n])
			l.open.RUnlock()
			if failed != nil {
				err = io.ErrClosedPipe
			}
		}
		if err != nil {
			break
		}
	}
	l.mu.Lock()
	defer l.mu.Unlock()
	for _, end := range []net.Conn{from, to} {
		delete(l.ends, end)
		end.Close()
	}
}

// cut breaks every connection off, in the middle of a word.
func (l *soakLine) cut() {
	l.mu.Lock()
	defer l.mu.Unlock()
	for end := range l.ends {
		if tcp, ok := end.(*net.TCPConn); ok {
			_ = tcp.SetLinger(0) // a reset and no farewell; it may be closed already
		}
		end.Close()
	}
}

// silence passes nothing on for a while: connections stay open, and nobody answers.
func (l *soakLine) silence(long time.Duration) {
	l.open.Lock()
	defer l.open.Unlock()
	time.Sleep(long)
}
