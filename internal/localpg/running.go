package localpg

import (
	"context"
	"fmt"
	"path/filepath"
	"strconv"
	"strings"

	"github.com/jackc/pgx/v5"
)

// socketLine is the line of postmaster.pid, counted from 0, that holds the first
// folder of sockets (PostgreSQL's source, miscadmin.h: LOCK_FILE_LINE_SOCKET_DIR
// is 5, counted from 1).
const socketLine = 4

// FindRunning returns a server that another process of ours runs on the cluster
// in dir, for its [Server.DSN]; stopping it does nothing, since it is not ours.
// False when none answers.
func FindRunning(ctx context.Context, dir string) (_ *Server, ok bool) {
	absolute, err := filepath.Abs(dir)
	if err != nil || !IsInUse(absolute) {
		return nil, false
	}
	folder := &serverFolder{path: absolute}
	lines := strings.Split(folder.readPostmasterFile(), "\n")
	if len(lines) <= socketLine {
		return nil, false
	}
	server := &Server{Dir: absolute, socket: socketFolder{folder: lines[socketLine]}}
	server.once.Do(func() {}) // Stop is for who started it
	connection, err := pgx.Connect(ctx, server.DSN(superuser, superuser))
	if err != nil {
		return nil, false
	}
	return server, connection.Close(ctx) == nil
}

// HasDatabase reports whether the server has a database of that name.
func (s *Server) HasDatabase(ctx context.Context, name string) (has bool, err error) {
	connection, err := pgx.Connect(ctx, s.DSN(superuser, superuser))
	if err != nil {
		return false, fmt.Errorf("look for the database %s: %w", strconv.Quote(name), err)
	}
	defer connection.Close(ctx)
	err = connection.QueryRow(ctx, "select exists (select from pg_database where datname = $1)", name).Scan(&has)
	return has, err
}
