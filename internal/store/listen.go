package store

import (
	"context"
	"encoding/json"
	"sync"
	"time"

	"github.com/jackc/pgx/v5"
)

// Missed is the kind of an event that stands for any number of others: the
// connection was lost for a while, or the listener was too slow. Whoever gets
// it asks for everything again.
const Missed Kind = "missed"

// listener hears what any program on this database does, over one connection
// however many ask, and only while somebody asks.
type listener struct {
	mu     sync.Mutex
	ears   map[*ear]bool
	cancel context.CancelFunc
}

// ear is somebody who listens.
type ear struct {
	club   ClubID
	events chan Event
}

// Listen gives the events of the viewer's club until ctx ends, then closes the
// channel. It begins with [Missed], so that whoever draws from the start draws
// once. Coaches only.
func (s *Store) Listen(ctx context.Context, v Viewer) (<-chan Event, error) {
	if err := v.mustCoach(); err != nil {
		return nil, err
	}
	e := &ear{club: v.Club, events: make(chan Event, 16)}
	e.hear(Event{Club: v.Club, Kind: Missed})
	s.heard.add(e, func(ctx context.Context) { s.listen(ctx) })
	context.AfterFunc(ctx, func() { s.heard.remove(e) })
	return e.events, nil
}

// hear passes an event on; an ear that is full hears only that it missed some.
func (e *ear) hear(event Event) {
	select {
	case e.events <- event:
	default:
		select {
		case <-e.events:
		default:
		}
		select {
		case e.events <- Event{Club: e.club, Kind: Missed}:
		default:
		}
	}
}

// add puts an ear in and starts listening with the first.
func (l *listener) add(e *ear, listen func(context.Context)) {
	l.mu.Lock()
	defer l.mu.Unlock()
	if l.ears == nil {
		l.ears = map[*ear]bool{}
	}
	l.ears[e] = true
	if l.cancel == nil {
		ctx, cancel := context.WithCancel(context.Background())
		l.cancel = cancel
		go listen(ctx)
	}
}

// remove takes an ear out and stops listening after the last.
func (l *listener) remove(e *ear) {
	l.mu.Lock()
	defer l.mu.Unlock()
	if !l.ears[e] {
		return
	}
	delete(l.ears, e)
	close(e.events)
	if len(l.ears) == 0 {
		l.cancel()
		l.cancel = nil
	}
}

// tell passes an event to everyone of its club; nobody's club is everyone's.
func (l *listener) tell(event Event) {
	l.mu.Lock()
	defer l.mu.Unlock()
	for e := range l.ears {
		if IsZero(event.Club) || event.Club == e.club {
			e.hear(event)
		}
	}
}

// listenAgain is how long to wait before a lost connection is tried again.
const listenAgain = time.Second

// listen keeps a connection of its own until nobody listens any more.
func (s *Store) listen(ctx context.Context) {
	for ctx.Err() == nil {
		// Why it ended does not matter here: a database that is away shows in
		// every other call, and listening goes on when it is back.
		_ = s.listenOnce(ctx)
		s.heard.tell(Event{Kind: Missed})
		select {
		case <-ctx.Done():
		case <-time.After(listenAgain):
		}
	}
}

func (s *Store) listenOnce(ctx context.Context) error {
	conn, err := pgx.ConnectConfig(ctx, s.pool.Config().ConnConfig.Copy())
	if err != nil {
		return err
	}
	defer conn.Close(context.WithoutCancel(ctx))
	if _, err := conn.Exec(ctx, "listen "+Channel); err != nil {
		return err
	}
	s.heard.tell(Event{Kind: Missed})
	for {
		told, err := conn.WaitForNotification(ctx)
		if err != nil {
			return err
		}
		var event Event
		if err := json.Unmarshal([]byte(told.Payload), &event); err != nil {
			event = Event{Kind: Missed} // told by a newer program, perhaps
		}
		s.heard.tell(event)
	}
}
