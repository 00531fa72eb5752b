package store

import (
	"context"
	"net"
	"strconv"
	"sync"
	"time"

	"github.com/jackc/pgx/v5"
	"github.com/jackc/pgx/v5/pgxpool"
)

// TimeLimits say how long the database may take over each thing before the
// call fails with [ErrUnavailable]. Zero fields have no limit.
type TimeLimits struct {
	// Connection is for getting one: out of the pool, or newly made.
	Connection time.Duration
	// Statement is for one statement; PostgreSQL ends it by itself, and a line
	// that stays silent for a little longer is given up from this side.
	Statement time.Duration
	// IdleTransaction is for a transaction in which nothing is asked.
	IdleTransaction time.Duration
	// Unacknowledged is for bytes that the other end does not acknowledge: a
	// line that was cut without a word.
	Unacknowledged time.Duration
}

// DefaultTimeLimits are what a club's server works with.
func DefaultTimeLimits() TimeLimits {
	return TimeLimits{
		Connection: 3 * time.Second, Statement: 10 * time.Second,
		IdleTransaction: 30 * time.Second, Unacknowledged: 10 * time.Second,
	}
}

// WithTimeLimits sets other limits than [DefaultTimeLimits].
func WithTimeLimits(l TimeLimits) Option {
	return func(c *pgxpool.Config) { l.apply(c.ConnConfig); c.PingTimeout = l.Connection / 3 }
}

// silentMargin is how much longer than a statement may take a line may be
// silent: PostgreSQL's own refusal should come first, since it says why.
const silentMargin = 2 * time.Second

// apply sets the limits.
func (l TimeLimits) apply(c *pgx.ConnConfig) {
	c.ConnectTimeout = l.Connection
	for name, limit := range map[string]time.Duration{
		"statement_timeout":                   l.Statement,
		"idle_in_transaction_session_timeout": l.IdleTransaction,
		"tcp_user_timeout":                    l.Unacknowledged,
	} {
		c.RuntimeParams[name] = strconv.FormatInt(limit.Milliseconds(), 10)
	}
	dialer := &net.Dialer{
		Timeout:         l.Connection,
		KeepAliveConfig: net.KeepAliveConfig{Enable: true, Idle: 15 * time.Second, Interval: 5 * time.Second, Count: 3},
		Control:         setUserTimeout(l.Unacknowledged),
	}
	silence := l.Statement
	if silence > 0 {
		silence += silentMargin
	}
	c.DialFunc = func(ctx context.Context, network, address string) (net.Conn, error) {
		line, err := dialer.DialContext(ctx, network, address)
		if err != nil {
			return nil, err
		}
		return &boundedLine{Conn: line, silence: silence}, nil
	}
}

// boundedLine is a line to the database on which no single read or write waits
// longer than silence, unless a deadline was set. Only who waits for news reads from a
// line on which nothing was asked, and goes on; any other idle connection may stay silent
// for ever.
type boundedLine struct {
	net.Conn
	silence time.Duration

	mu  sync.Mutex
	set bool // a deadline was set from outside, which goes before ours
}

func (l *boundedLine) Read(b []byte) (int, error) {
	l.bound(l.Conn.SetReadDeadline)
	return l.Conn.Read(b)
}

func (l *boundedLine) Write(b []byte) (int, error) {
	l.bound(l.Conn.SetWriteDeadline)
	return l.Conn.Write(b)
}

// bound sets our own deadline. That it cannot be set shows in the read or write
// itself.
func (l *boundedLine) bound(set func(time.Time) error) {
	l.mu.Lock()
	defer l.mu.Unlock()
	if !l.set && l.silence > 0 {
		_ = set(time.Now().Add(l.silence))
	}
}

// SetDeadline is pgx's way to end what a context has given up.
func (l *boundedLine) SetDeadline(at time.Time) error {
	l.mu.Lock()
	defer l.mu.Unlock()
	l.set = !at.IsZero()
	return l.Conn.SetDeadline(at)
}
