package store

import (
	"context"
	"encoding/json"
	"sync"
	"time"

	"github.com/jackc/pgx/v5"
	"github.com/jackc/pgx/v5/pgconn"
)

// EventsMissed is the kind of an event that stands for any number of others: the
// connection was lost for a while, or the listener was too slow. Whoever gets
// it asks for everything again.
const EventsMissed EventKind = "missed"

// eventBroker receives what any program on this database publishes, over one connection
// however many ask, and only while somebody asks.
type eventBroker struct {
	mu          sync.Mutex
	subscribers map[*subscriber]bool
	cancel      context.CancelFunc
}

// subscriber is somebody who listens.
type subscriber struct {
	club   ClubID
	events chan Event
}

// Subscribe returns the events of the actor's club until ctx ends, then closes the
// channel. It begins with [EventsMissed], so that whoever draws from the start draws
// once. Coaches only.
func (s *Store) Subscribe(ctx context.Context, v Actor) (<-chan Event, error) {
	if err := v.requireCoach(); err != nil {
		return nil, err
	}
	e := &subscriber{club: v.Club, events: make(chan Event, 16)}
	e.deliver(Event{Club: v.Club, Kind: EventsMissed})
	s.broker.subscribe(e, func(ctx context.Context) { s.keepListening(ctx) })
	context.AfterFunc(ctx, func() { s.broker.unsubscribe(e) })
	return e.events, nil
}

// deliver passes an event on; a subscriber whose buffer is full learns only that it missed some.
func (e *subscriber) deliver(event Event) {
	select {
	case e.events <- event:
	default:
		select {
		case <-e.events:
		default:
		}
		select {
		case e.events <- Event{Club: e.club, Kind: EventsMissed}:
		default:
		}
	}
}

// subscribe puts an ear in and starts listening with the first.
func (l *eventBroker) subscribe(e *subscriber, listen func(context.Context)) {
	l.mu.Lock()
	defer l.mu.Unlock()
	if l.subscribers == nil {
		l.subscribers = map[*subscriber]bool{}
	}
	l.subscribers[e] = true
	if l.cancel == nil {
		ctx, cancel := context.WithCancel(context.Background())
		l.cancel = cancel
		go listen(ctx)
	}
}

// unsubscribe takes an ear out and stops listening after the last.
func (l *eventBroker) unsubscribe(e *subscriber) {
	l.mu.Lock()
	defer l.mu.Unlock()
	if !l.subscribers[e] {
		return
	}
	delete(l.subscribers, e)
	close(e.events)
	if len(l.subscribers) == 0 {
		l.cancel()
		l.cancel = nil
	}
}

// publish passes an event to everyone of its club; nobody's club is everyone's.
func (l *eventBroker) publish(event Event) {
	l.mu.Lock()
	defer l.mu.Unlock()
	for e := range l.subscribers {
		if IsZero(event.Club) || event.Club == e.club {
			e.deliver(event)
		}
	}
}

// listenRetryDelay is how long to wait before a lost connection is tried again.
const listenRetryDelay = time.Second

// keepListening keeps a connection of its own until nobody listens any more.
func (s *Store) keepListening(ctx context.Context) {
	for ctx.Err() == nil {
		// Why it ended does not matter here: a database that is away shows in
		// every other call, and listening goes on when it is back.
		_ = s.listenOnce(ctx)
		s.broker.publish(Event{Kind: EventsMissed})
		select {
		case <-ctx.Done():
		case <-time.After(listenRetryDelay):
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
	s.broker.publish(Event{Kind: EventsMissed})
	for {
		notification, err := waitForNews(ctx, conn)
		if err != nil {
			return err
		}
		var event Event
		if err := json.Unmarshal([]byte(notification.Payload), &event); err != nil {
			event = Event{Kind: EventsMissed} // published by a newer program, perhaps
		}
		s.broker.publish(event)
	}
}

// waitForNews waits for a notification, however long there is none. After each silence
// that is as long as a line's may be the other end is asked whether it is there.
func waitForNews(ctx context.Context, conn *pgx.Conn) (*pgconn.Notification, error) {
	for {
		notification, err := conn.WaitForNotification(ctx)
		if !pgconn.Timeout(err) {
			return notification, err
		}
		if err := conn.Ping(ctx); err != nil {
			return nil, err
		}
	}
}
