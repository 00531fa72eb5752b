package store

import (
	"context"
	"fmt"
	"sync"
	"time"

	"github.com/jackc/pgx/v5"
)

// How long the database may take to say that it is there, and how long that is
// believed: whoever asks gets an answer within a second.
const (
	probePatience = 700 * time.Millisecond
	probeBelieved = 300 * time.Millisecond
)

// healthProbe asks the database whether it is there, on a line of its own: a pool
// whose connections are all at work is busy, not gone.
type healthProbe struct {
	config *pgx.ConnConfig

	mu    sync.Mutex
	line  *pgx.Conn
	asked time.Time
	err   error
}

// Ping says within a second whether the database answers; [ErrUnavailable] when
// it does not.
func (s *Store) Ping(context.Context) error {
	p := &s.probe
	p.mu.Lock()
	defer p.mu.Unlock()
	if time.Since(p.asked) < probeBelieved {
		return p.err
	}
	// Whoever asked may leave; the answer serves the next.
	ctx, cancel := context.WithTimeout(context.Background(), probePatience)
	defer cancel()
	p.err = p.run(ctx)
	p.asked = time.Now()
	return p.err
}

func (p *healthProbe) run(ctx context.Context) (err error) {
	if p.line == nil || p.line.IsClosed() {
		if p.line, err = pgx.ConnectConfig(ctx, p.config); err != nil {
			p.line = nil
			return fmt.Errorf("ping: %w: %w", ErrUnavailable, err)
		}
	}
	if err := p.line.Ping(ctx); err != nil {
		return fmt.Errorf("ping: %w: %w", ErrUnavailable, err)
	}
	return nil
}

func (p *healthProbe) close() {
	p.mu.Lock()
	defer p.mu.Unlock()
	if p.line != nil {
		_ = p.line.Close(context.Background())
		p.line = nil
	}
}
