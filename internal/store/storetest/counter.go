package storetest

import (
	"context"
	"sync/atomic"

	"github.com/jackc/pgx/v5"
)

// Counter counts the queries of a store that was opened with it as its tracer.
type Counter struct{ n atomic.Int64 }

// CountDuring says how many queries were sent while something was done.
func (c *Counter) CountDuring(do func()) int64 {
	before := c.n.Load()
	do()
	return c.n.Load() - before
}

// TraceQueryStart counts one query.
func (c *Counter) TraceQueryStart(ctx context.Context, _ *pgx.Conn, _ pgx.TraceQueryStartData) context.Context {
	c.n.Add(1)
	return ctx
}

// TraceQueryEnd has nothing to count.
func (c *Counter) TraceQueryEnd(context.Context, *pgx.Conn, pgx.TraceQueryEndData) {}
