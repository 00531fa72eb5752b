package live_test

import (
	"bufio"
	"context"
	"sync/atomic"
	"testing"

	"github.com/jackc/pgx/v5"

	"breakwright/internal/store"
	"breakwright/internal/store/storetest"
	"breakwright/web/webtest"
)

// queriesAtOnce counts how many questions are asked of the database at a time.
type queriesAtOnce struct{ now, most atomic.Int64 }

func (q *queriesAtOnce) TraceQueryStart(ctx context.Context, _ *pgx.Conn, _ pgx.TraceQueryStartData) context.Context {
	now := q.now.Add(1)
	for most := q.most.Load(); now > most && !q.most.CompareAndSwap(most, now); most = q.most.Load() {
	}
	return ctx
}

func (q *queriesAtOnce) TraceQueryEnd(context.Context, *pgx.Conn, pgx.TraceQueryEndData) {
	q.now.Add(-1)
}

// However many follow a break, most of the connections are left to those who record.
func TestEvents_LeaveConnectionsToOthers(t *testing.T) {
	const boards, drawn, recording = 40, 4, 1
	asked := &queriesAtOnce{}
	site := webtest.NewOverScene(t, storetest.NewScene(t, store.WithTracer(asked)))
	coach := site.SignInCoach(t)
	var following []*bufio.Scanner
	for range boards {
		lines := coach.OpenStream(t, "/classes/"+site.Class.String()+"/live/events")
		waitFor(t, lines, "Nobody has started yet")
		following = append(following, lines)
	}
	asked.most.Store(0)
	site.RecordBreaks(t, site.StudentActor(0), 1)
	for _, lines := range following {
		waitFor(t, lines, "1 of 10")
	}
	if most := asked.most.Load(); most > drawn+recording {
		t.Errorf("%d questions at once for %d boards, want %d at most", most, boards, drawn+recording)
	}
}
