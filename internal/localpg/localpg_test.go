package localpg

import (
	"context"
	"os"
	"path/filepath"
	"testing"

	"github.com/jackc/pgx/v5"
)

// newFolder is a path for a cluster below a parent that PostgreSQL's user can
// enter. [testing.T.TempDir] is closed to all but its owner, and too deep for
// a socket.
func newFolder(t *testing.T) string {
	t.Helper()
	parent, err := os.MkdirTemp("", "cluster-")
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { os.RemoveAll(parent) })
	if err := os.Chmod(parent, 0o755); err != nil {
		t.Fatal(err)
	}
	return filepath.Join(parent, "pg")
}

func startIn(t *testing.T, dir string) *Server {
	t.Helper()
	server, err := Start(t.Context(), Config{Dir: dir, Log: func(line string) { t.Log(line) }})
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(server.Stop)
	return server
}

// execStatement runs one statement as the superuser.
func execStatement(t *testing.T, server *Server, statement string) {
	t.Helper()
	connection := connect(t, server, superuser)
	if _, err := connection.Exec(t.Context(), statement); err != nil {
		t.Fatalf("%s: %v", statement, err)
	}
}

// queryValue returns the one value of a query.
func queryValue[V any](t *testing.T, server *Server, query string) (value V) {
	t.Helper()
	connection := connect(t, server, superuser)
	if err := connection.QueryRow(t.Context(), query).Scan(&value); err != nil {
		t.Fatalf("%s: %v", query, err)
	}
	return value
}

func connect(t *testing.T, server *Server, database string) *pgx.Conn {
	t.Helper()
	connection, err := pgx.Connect(t.Context(), server.DSN(superuser, database))
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { connection.Close(context.Background()) })
	return connection
}

// write makes a file and the folders above it.
func write(t *testing.T, name, text string, mode os.FileMode) {
	t.Helper()
	if err := os.MkdirAll(filepath.Dir(name), 0o755); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(name, []byte(text), mode); err != nil {
		t.Fatal(err)
	}
}
