//go:build soak && linux

package main

import (
	"net"
	"sync"
	"testing"
	"time"
)

// soakLine is a line between a program and what it asks, which can be cut and fall
// silent, as a whole or one connection at a message.
type soakLine struct {
	listener         net.Listener
	network, address string       // of what is asked
	open             sync.RWMutex // held for writing while the line is silent
	mu               sync.Mutex
	ends             map[net.Conn]bool
	// questions and answers hand a strike to whichever connection next has a message
	// that way.
	questions, answers chan strike
}

// strike is what happens to one message on its way; false when its connection ends by
// it.
type strike func(message []byte, to net.Conn) bool

// lose cuts the connection before the message is handed on.
func lose([]byte, net.Conn) bool { return false }

// halve cuts it in the middle of the message.
func halve(message []byte, to net.Conn) bool {
	_, _ = to.Write(message[:len(message)/2]) // the rest is lost in any case
	return false
}

// hold hands the message on late, while other connections go on.
func hold(message []byte, to net.Conn) bool {
	time.Sleep(shortFault)
	_, err := to.Write(message)
	return err == nil
}

// layLine listens on a free port and passes everything on to an address; the line ends
// with the test.
func layLine(t *testing.T, network, address string) *soakLine {
	t.Helper()
	listener, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	l := &soakLine{listener: listener, network: network, address: address, ends: map[net.Conn]bool{},
		questions: make(chan strike), answers: make(chan strike)}
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
		far, err := net.Dial(l.network, l.address)
		if err != nil {
			near.Close() // nobody is there
			continue
		}
		l.mu.Lock()
		l.ends[near], l.ends[far] = true, true
		l.mu.Unlock()
		running.Go(func() { l.pass(near, far, l.questions) })
		running.Go(func() { l.pass(far, near, l.answers) })
	}
}

// pass hands on what one end says, and closes both when it is over.
func (l *soakLine) pass(from, to net.Conn, strikes <-chan strike) {
	part := make([]byte, 32<<10)
	for goesOn := true; goesOn; {
		n, err := from.Read(part)
		goesOn = err == nil
		if n > 0 {
			goesOn = l.handOn(part[:n], to, strikes) && goesOn
		}
	}
	l.mu.Lock()
	defer l.mu.Unlock()
	for _, end := range []net.Conn{from, to} {
		delete(l.ends, end)
		end.Close()
	}
}

// handOn hands a message on, or lets it be struck where a strike waits.
func (l *soakLine) handOn(message []byte, to net.Conn, strikes <-chan strike) bool {
	select {
	case struck := <-strikes:
		return struck(message, to)
	default:
	}
	l.open.RLock() // a silent line holds it back
	defer l.open.RUnlock()
	_, err := to.Write(message)
	return err == nil
}

// strikeNext strikes the next message on one of two ways, and waits until it is struck.
func strikeNext(t *testing.T, way chan<- strike, how strike) {
	t.Helper()
	select {
	case way <- how:
	case <-time.After(2 * time.Minute):
		t.Fatal("nothing passes the line for two minutes")
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
