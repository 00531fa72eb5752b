package web_test

import (
	"context"
	"encoding/json"
	"net/http"
	"strings"
	"sync"
	"testing"

	"github.com/jackc/pgx/v5"
	"github.com/jackc/pgx/v5/pgconn"

	"breakwright/internal/store"
	"breakwright/internal/store/storetest"
	"breakwright/web/route"
	"breakwright/web/webtest"
)

// planReader collects the plans of all queries of a store that was opened with it
// as its tracer. PostgreSQL sends them as notices, see watchPlans.
type planReader struct {
	mu    sync.Mutex
	plans []sentPlan
}

// sentPlan is what auto_explain says of a query.
type sentPlan struct {
	Query string   `json:"Query Text"`
	Plan  planNode `json:"Plan"`
}

// planNode is a step of a plan. Of a step that reads a table Condition is what
// the index is searched with; "" when it is read from end to end.
type planNode struct {
	Type      string     `json:"Node Type"`
	Table     string     `json:"Relation Name"`
	Condition string     `json:"Index Cond"`
	Steps     []planNode `json:"Plans"`
}

func (p *planReader) TraceConnectStart(ctx context.Context, data pgx.TraceConnectStartData) context.Context {
	data.ConnConfig.OnNotice = func(_ *pgconn.PgConn, n *pgconn.Notice) {
		if _, plan, ok := strings.Cut(n.Message, "plan:\n"); ok {
			p.addPlan(plan)
		}
	}
	return ctx
}

func (p *planReader) addPlan(text string) {
	var sent sentPlan
	if err := json.Unmarshal([]byte(text), &sent); err != nil {
		sent = sentPlan{Query: "not read: " + err.Error()}
	}
	p.mu.Lock()
	defer p.mu.Unlock()
	p.plans = append(p.plans, sent)
}

func (p *planReader) TraceConnectEnd(context.Context, pgx.TraceConnectEndData) {}

func (p *planReader) TraceQueryStart(ctx context.Context, _ *pgx.Conn, _ pgx.TraceQueryStartData) context.Context {
	return ctx
}

func (p *planReader) TraceQueryEnd(context.Context, *pgx.Conn, pgx.TraceQueryEndData) {}

// takePlans returns the plans since the last call.
func (p *planReader) takePlans() []sentPlan {
	p.mu.Lock()
	defer p.mu.Unlock()
	taken := p.plans
	p.plans = nil
	return taken
}

// watchPlans has the database send its plans to whoever asks, and makes it read a
// table from end to end only where no index can serve: the tables of a test are
// so small that it would else seem the quickest way. The statements inside the
// database's functions are watched too: no wall puts a club into them. It returns the
// tables of clubs.
func watchPlans(t *testing.T, owner string) map[string]bool {
	t.Helper()
	connection, err := pgx.Connect(t.Context(), owner)
	if err != nil {
		t.Fatal(err)
	}
	defer connection.Close(t.Context())
	for _, set := range []string{
		"session_preload_libraries = 'auto_explain'", "auto_explain.log_min_duration = 0", "auto_explain.log_format = json",
		"auto_explain.log_level = notice", "auto_explain.log_nested_statements = on", "enable_seqscan = off",
	} {
		if _, err := connection.Exec(t.Context(), "do $$ begin execute format('alter database %I set "+strings.ReplaceAll(set, "'", "''")+"', current_database()); end $$"); err != nil {
			t.Fatal(err)
		}
	}
	rows, err := connection.Query(t.Context(), "select c.relname from pg_attribute a join pg_class c on c.oid = a.attrelid where a.attname = 'club_id' and c.relkind = 'r'")
	if err != nil {
		t.Fatal(err)
	}
	names, err := pgx.CollectRows(rows, pgx.RowTo[string])
	if err != nil {
		t.Fatal(err)
	}
	tables := map[string]bool{}
	for _, name := range names {
		tables[name] = true
	}
	return tables
}

// findFullReads names the clubs' tables that a plan reads from end to end.
func findFullReads(node planNode, tables map[string]bool) (found []string) {
	reads := map[string]bool{"Seq Scan": true, "Index Scan": true, "Index Only Scan": true}
	if reads[node.Type] && node.Condition == "" && tables[node.Table] {
		found = append(found, node.Type+" of "+node.Table)
	}
	if node.Type == "Bitmap Index Scan" && node.Condition == "" {
		found = append(found, "a whole index for a bitmap")
	}
	for _, step := range node.Steps {
		found = append(found, findFullReads(step, tables)...)
	}
	return found
}

// No page reads a table of clubs from end to end: with a thousand clubs it would
// wait for all of them.
func TestPages_ReadNoTableFromEndToEnd(t *testing.T) {
	owner := storetest.NewDatabase(t)
	tables := watchPlans(t, owner)
	var plans planReader
	w := newWorldIn(t, storetest.Open(t, owner, store.WithTracer(&plans)))
	clients := map[route.Audience]*webtest.Client{
		route.Anyone: w.site.NewClient(t), route.Coach: w.site.SignInCoach(t), route.Student: w.site.SignInStudent(t, w.first.Students[0]),
	}
	plans.takePlans()
	asked, read := 0, 0
	for _, r := range w.site.Routes {
		who := clients[r.Audience]
		if who == nil {
			who = clients[route.Coach]
		}
		if r.Method != http.MethodGet || r.Pace == route.Stream {
			continue
		}
		w.try(t, who, r)
		asked++
		for _, sent := range plans.takePlans() {
			read++
			if found := findFullReads(sent.Plan, tables); len(found) > 0 {
				t.Errorf("%s: %s in\n%s", r.Pattern, strings.Join(found, ", "), sent.Query)
			}
		}
	}
	if len(tables) < 10 || asked < 30 || read < 5*asked/2 {
		t.Fatalf("%d tables, %d pages and %d plans were looked at: no test", len(tables), asked, read)
	}
}

func TestFindFullReads(t *testing.T) {
	tables := map[string]bool{"break": true}
	for text, want := range map[string]int{
		`{"Node Type": "Seq Scan", "Relation Name": "break"}`:                                                        1,
		`{"Node Type": "Seq Scan", "Relation Name": "game"}`:                                                         0,
		`{"Node Type": "Limit", "Plans": [{"Node Type": "Index Scan", "Relation Name": "break"}]}`:                   1,
		`{"Node Type": "Index Scan", "Relation Name": "break", "Index Cond": "(club_id = '1')"}`:                     0,
		`{"Node Type": "Bitmap Heap Scan", "Relation Name": "break", "Plans": [{"Node Type": "Bitmap Index Scan"}]}`: 1,
	} {
		var node planNode
		if err := json.Unmarshal([]byte(text), &node); err != nil {
			t.Fatal(err)
		}
		if got := findFullReads(node, tables); len(got) != want {
			t.Errorf("%s: %q, want %d", text, got, want)
		}
	}
}
