package localpg

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"strconv"
	"strings"
	"time"

	"github.com/jackc/pgx/v5"
)

// errOccupied: PostgreSQL found another server's traces on its folder.
var errOccupied = errors.New("another PostgreSQL holds the folder")

// waitUntilReady waits for the first successful connection. The server's own end
// and the context cut it short.
func (s *Server) waitUntilReady(ctx context.Context) error {
	ctx, cancel := context.WithTimeoutCause(ctx, startPatience,
		fmt.Errorf("it did not answer within %s", startPatience))
	defer cancel()
	for {
		if s.isOurs() {
			connection, err := pgx.Connect(ctx, s.DSN(superuser, superuser))
			if err == nil {
				return connection.Close(ctx)
			}
		}
		select {
		case <-s.process.ended:
			return fmt.Errorf("it ended at once: %w", s.process.err)
		case <-ctx.Done():
			return context.Cause(ctx)
		case <-time.After(10 * time.Millisecond):
		}
	}
}

// isOurs reports whether the folder's owner is the process that we started. A
// server that was there before ours would answer on the same socket.
func (s *Server) isOurs() bool {
	return s.folder.readPostmasterPID() == strconv.Itoa(s.process.command.Process.Pid)
}

// readPostmasterPID is the number of the process that PostgreSQL itself has noted as
// the data's owner; empty when there is none.
func (f *serverFolder) readPostmasterPID() string {
	number, _, _ := strings.Cut(f.readPostmasterFile(), "\n")
	return number
}

func (f *serverFolder) readPostmasterFile() string {
	text, _ := os.ReadFile(f.pathOf(dataFolder + "/postmaster.pid"))
	return string(text)
}

// withServerLog adds what the server wrote to its log since the offset from, which
// is where PostgreSQL says why.
func (s *Server) withServerLog(err error, from int64) error {
	logged := s.folder.logSince(from)
	if strings.Contains(logged, "lock file") || strings.Contains(logged, "pre-existing shared memory") {
		err = errOccupied
	}
	return fmt.Errorf("%w\n%s", err, lastLines(logged, 15))
}

// occupiedError tells what to do about a server that we did not start, or whose
// parent was killed where the system does not end it for us.
func (s *Server) occupiedError(err error) error {
	number := s.folder.readPostmasterPID()
	return fmt.Errorf("PostgreSQL in %s is %w, as process %s, and not by us: stop it with `kill -INT %s`, or choose another folder\n%w",
		s.Dir, ErrRunning, number, number, err)
}

// biggestLog is where a start puts the old log aside: bytes.
const biggestLog = 8 << 20

func (f *serverFolder) openLog() (*os.File, error) {
	name := f.pathOf(logName)
	if info, err := os.Stat(name); err == nil && info.Size() > biggestLog {
		if err := os.Rename(name, name+".old"); err != nil {
			return nil, err
		}
	}
	log, err := os.OpenFile(name, os.O_CREATE|os.O_WRONLY|os.O_APPEND, 0o600)
	if err != nil {
		return nil, err
	}
	return log, f.owner.chownPath(name)
}

func (f *serverFolder) logSince(offset int64) string {
	log, err := os.Open(f.pathOf(logName))
	if err != nil {
		return err.Error()
	}
	defer log.Close()
	text, err := io.ReadAll(io.NewSectionReader(log, offset, biggestLog))
	if err != nil {
		return err.Error()
	}
	return string(text)
}

func sleepUnlessDone(ctx context.Context, length time.Duration) error {
	select {
	case <-ctx.Done():
		return ctx.Err()
	case <-time.After(length):
		return nil
	}
}
